"""The parts of the Stock screen."""
