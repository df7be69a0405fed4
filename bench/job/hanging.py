"""What this panel will weigh, what its fixings carry, and whether its board bends."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.finish.bend import BOARDS_GPA, Bend, bend_of
from bench.finish.faults import FinishFault
from bench.finish.hanging import (
    LEAST_ANGLE_DEG,
    MOST_ANGLE_DEG,
    MOST_POINTS,
    Hung,
    hung,
    hung_by_wire,
    wire_angle_deg,
)
from bench.finish.hanging_words import bend_lines, duty, hung_lines, part_lines, weight_words
from bench.finish.units import Units
from bench.finish.weight import Weight
from bench.job import settings
from bench.job.faults import FigureOutOfRange
from bench.job.finishing import entered, finishing, keep_figure
from bench.job.job import Job
from bench.speech import all_of, large_first, say

USUAL_POINTS = 2
MOST_FRAME_G, MOST_BOARD_MM, MOST_APART_MM, MOST_ABOVE_MM = 200_000.0, 100.0, 10_000.0, 5_000.0
USUAL_BOARD = next(iter(BOARDS_GPA))


@dataclass(frozen=True)
class Figures:
    """What was entered; None: not told. board: its kind, of BOARDS_GPA. above_mm: the hook, for a wire."""

    frame_g: float | None
    board_mm: float | None
    board: str
    points: int
    apart_mm: float
    above_mm: float | None


@dataclass(frozen=True)
class Hanging:
    """The weight, the loads, and how the board bends; None where too little is known for either.

    trouble: why no loads can be told of the figures as they are, "" for nothing.
    """

    weight: Weight
    figures: Figures
    hung: Hung | None
    bend: Bend | None
    trouble: str = ""


def figures_of(job: Job) -> Figures:
    """Return what was entered; the fixings are two, half the panel's width apart, until told otherwise."""
    above_mm = entered(job, settings.HOOK_ABOVE_MM)
    return Figures(
        frame_g=entered(job, settings.FRAME_G),
        board_mm=entered(job, settings.BOARD_MM),
        board=job.store.setting(f"{settings.BOARD_GPA}:{job.panel_id}") or USUAL_BOARD,
        points=int(entered(job, settings.HANG_POINTS) or USUAL_POINTS),
        apart_mm=entered(job, settings.HANG_APART_MM) or job.panel.width_mm / 2,
        above_mm=above_mm or None,
    )


def hanging(job: Job) -> Hanging:
    """Return weight, loads and bending of the panel.

    Loads and bending are reckoned with the heavier end of the weight, which is the safe one.
    """
    weight, told = finishing(job).weight, figures_of(job)
    try:
        loads, trouble = _hung(job, weight, told), ""
    except FinishFault as fault:  # a figure that was right before another one changed
        loads, trouble = None, f"{large_first(str(fault))}."
    return Hanging(weight, told, loads, _bend(job, weight, told), trouble)


def hanging_lines(job: Job, units: Units) -> list[str]:
    """Say all of it, a fact a line, the caution last."""
    found = hanging(job)
    lines = [say("The finished panel: {weight}, 10 to 90 % sure.", weight=weight_words(found.weight))]
    lines.append(f"{', '.join(part_lines(found.weight))}.")
    may_lack = ((say("board"), found.weight.backer_g), (say("frame"), found.weight.frame_g))
    missing = [name for name, grams in may_lack if not grams]
    if missing:
        lines.append(say("Not counted until it is entered: {parts}.", parts=all_of(missing)))
    lines += hung_lines(found.hung) if found.hung is not None else [found.trouble] if found.trouble else []
    if found.bend is not None:
        lines += bend_lines(found.bend, units)
    else:
        lines.append(
            say("Enter how thick the board is, and Potwatch says whether it bends: that breaks joints.")
        )
    return [*lines, duty()]


def _hung(job: Job, weight: Weight, told: Figures) -> Hung | None:
    if weight.p90_g <= 0:
        return None
    if told.above_mm is not None:
        angle_deg = wire_angle_deg(told.apart_mm, told.above_mm)
        return hung_by_wire(weight.p90_g, points=told.points, angle_deg=angle_deg)
    return hung(weight.p90_g, points=told.points, apart_mm=told.apart_mm, aside_mm=aside_mm(job, weight))


def _bend(job: Job, weight: Weight, told: Figures) -> Bend | None:
    if told.board_mm is None or weight.p90_g <= 0:
        return None
    span_mm, across_mm = sorted((job.panel.width_mm, job.panel.height_mm), reverse=True)
    return bend_of(
        weight.p90_g,
        span_mm=span_mm,
        width_mm=across_mm,
        board_mm=told.board_mm,
        board_GPa=BOARDS_GPA[told.board],
    )


def aside_mm(job: Job, weight: Weight) -> float:
    """Return how far the centre of mass lies beside the middle: its glass's, the rest taken as even. [mm]"""
    panel = job.panel
    if not panel.tessera_count or weight.total_g <= 0:
        return 0.0
    glass_x = float(np.average(panel.centroid_mm[:, 0], weights=panel.area_mm2))
    return (glass_x - panel.width_mm / 2) * weight.glass_g / weight.total_g


# -- what only the maker knows ---------------------------------------------------------------------------


def set_frame_g(job: Job, frame_g: float) -> None:
    """Keep what the frame weighs. Raises FigureOutOfRange. [g]"""
    keep_figure(job, settings.FRAME_G, frame_g, 0.0, MOST_FRAME_G)


def set_board_mm(job: Job, board_mm: float) -> None:
    """Keep how thick the board is. Raises FigureOutOfRange. [mm]"""
    keep_figure(job, settings.BOARD_MM, board_mm, 1.0, MOST_BOARD_MM)


def set_board(job: Job, board: str) -> None:
    """Keep which kind of board it is; one that is not known is taken as the usual one."""
    known = board if board in BOARDS_GPA else USUAL_BOARD
    job.store.set_setting(f"{settings.BOARD_GPA}:{job.panel_id}", known)


def set_points(job: Job, points: float) -> None:
    """Keep on how many fixings it hangs. Raises FigureOutOfRange."""
    keep_figure(job, settings.HANG_POINTS, points, 1, MOST_POINTS)


def set_apart_mm(job: Job, apart_mm: float) -> None:
    """Keep how far the outer fixings, or the rings of a wire, are apart. Raises FigureOutOfRange. [mm]"""
    least = max(10.0, 2 * abs(aside_mm(job, finishing(job).weight)))
    keep_figure(job, settings.HANG_APART_MM, apart_mm, least, MOST_APART_MM)


def set_above_mm(job: Job, above_mm: float) -> None:
    """Keep how far the hook stands above the rings of a wire; 0: no wire. Raises FigureOutOfRange. [mm]

    A wire that is too flat, or steeper than a wire can be, is refused.
    """
    told = figures_of(job)
    least, most = (
        told.apart_mm / 2 * float(np.tan(np.radians(angle))) for angle in (LEAST_ANGLE_DEG, MOST_ANGLE_DEG)
    )
    if above_mm != 0 and not least <= above_mm <= most:
        raise FigureOutOfRange(above_mm, round(least + 0.05, 1), round(min(most, MOST_ABOVE_MM) - 0.05, 1))
    keep_figure(job, settings.HOOK_ABOVE_MM, above_mm, 0.0, MOST_ABOVE_MM)
