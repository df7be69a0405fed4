"""What finishing a panel takes: its glass, grout for its joints, and what it will weigh."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.finish.buying import Wanted, wanted
from bench.finish.glass import GlassList, glass_list
from bench.finish.grout import Grout, grout_for
from bench.finish.joints import ADHESIVE_LEFT_MM, GLASS_MM, joint_depth_mm
from bench.finish.weight import Weight, weight_of
from bench.job import settings
from bench.job.bedding import adhesives_of
from bench.job.faults import FigureOutOfRange
from bench.job.job import Job

LEAST_GLASS_MM, MOST_GLASS_MM = ADHESIVE_LEFT_MM + 0.5, 50.0
MOST_BACKER_KG_PER_M2 = 200.0


@dataclass(frozen=True)
class Finishing:
    """Figures of finishing. backer_kg_per_m2: None until the maker has entered it."""

    glass_mm: float
    depth_mm: float
    backer_kg_per_m2: float | None
    grout: Grout
    weight: Weight


def finishing(job: Job) -> Finishing:
    """Return the figures of the panel, with the thickness of glass and the mass of board that were entered.

    The bed is as thick as the bench is set to, in the adhesive of each piece's own bed.
    """
    glass_mm = entered(job, settings.GLASS_MM) or GLASS_MM
    backer = entered(job, settings.BACKER_KG_PER_M2)
    depth_mm = joint_depth_mm(glass_mm)
    grout = grout_for(job.panel.joint_area_mm2, depth_mm)
    weight = weight_of(
        job.panel,
        glass_mm=glass_mm,
        grout_g=grout.stays_g,
        backer_g_per_cm2=(backer or 0.0) / 10.0,
        bed_g_per_cm2=_bed_g_per_cm2(job),
        frame_g=entered(job, settings.FRAME_G) or 0.0,
    )
    return Finishing(glass_mm, depth_mm, backer, grout, weight)


def glasses(job: Job, *, like_de: float) -> tuple[GlassList, tuple[Wanted, ...]]:
    """Return the panel's glass list, and what to cut up and buy of each in sheets of the usual size."""
    listed = glass_list(job.panel, like_de=like_de)
    return listed, wanted(listed)


def set_glass_mm(job: Job, glass_mm: float) -> None:
    """Keep how thick this panel's glass is. Raises FigureOutOfRange. [mm]"""
    keep_figure(job, settings.GLASS_MM, glass_mm, LEAST_GLASS_MM, MOST_GLASS_MM)


def set_backer_kg_per_m2(job: Job, backer: float) -> None:
    """Keep what this panel's board weighs. Raises FigureOutOfRange. [kg/m²]"""
    keep_figure(job, settings.BACKER_KG_PER_M2, backer, 0.0, MOST_BACKER_KG_PER_M2)


def keep_figure(job: Job, key: str, value: float, least: float, most: float) -> None:
    """Keep a figure of this panel by its key; raises FigureOutOfRange."""
    if not least <= value <= most:
        raise FigureOutOfRange(value, least, most)
    job.store.set_setting(f"{key}:{job.panel_id}", repr(float(value)))


def entered(job: Job, key: str) -> float | None:
    """Return a figure that was kept for this panel, None where none was."""
    kept = job.store.setting(f"{key}:{job.panel_id}")
    return None if kept is None else float(kept)


def _bed_g_per_cm2(job: Job) -> float:
    """Return the bed's mass, each adhesive by the glass it carries. [g/cm²]"""
    names = adhesives_of(job.panel, job.state.bench)
    density = {name: job.product(name).mixed_density_g_per_cm3 for name in dict.fromkeys(names)}
    each = np.array([density[name] for name in names])
    mean = float(np.average(each, weights=job.panel.area_mm2)) if len(each) else 0.0
    return mean * job.state.bench.bed_mm / 10.0
