"""What the chart and the rim of a glue-up follow: how it goes, and from when there is only time to clean."""

from __future__ import annotations

from bench.job.glue_sheet import LAST_SHARE, GlueSheet
from bench.job.job import Job
from bench.job.sizing import bed_area_mm2, routine_of_mix
from bench.screens.gluing.chart import PaceChart


class Pacing:
    """Have a chart follow the running mixes; the bed of each is measured once, since it stays the same."""

    def __init__(self) -> None:
        self._bed_mm2: dict[int, float] = {}

    def forget(self) -> None:
        """Forget the mixes of another job."""
        self._bed_mm2.clear()

    def follow(self, chart: PaceChart, job: Job, sheet: GlueSheet) -> list[float]:
        """Show a mix on the chart; return the shares of its time that the rim marks: half, and the last."""
        mix = job.mix(sheet.mix)
        routine = routine_of_mix(job.product(job.section(sheet.section).adhesive), mix)
        bed_mm2 = self._bed_of(job, sheet)
        chart.follow(sheet, mix, routine, bed_mm2)
        return [0.5, max(routine.clean_s(bed_mm2) / max(sheet.total_s, 1.0), LAST_SHARE)]

    def _bed_of(self, job: Job, sheet: GlueSheet) -> float:
        if sheet.mix not in self._bed_mm2:
            members = list(job.section(sheet.section).tesserae)
            self._bed_mm2[sheet.mix] = float(bed_area_mm2(job.panel)[members].sum())
        return self._bed_mm2[sheet.mix]
