"""The parts of Glue-up: the chart, the alarm, the work, and what is asked at the end."""
