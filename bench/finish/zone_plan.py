"""A panel's zones planned: joints, grout, batches, masking, days; or one neutral grout, and its inks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from bench.drawing.colour import RGB
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.batches import GroutBatch, GroutPace, batches_of
from bench.finish.faults import NamelessColour, ZoneWithoutGrout
from bench.finish.grout import POWDER_G_PER_CM3, WASTE, WATER_SHARE, Grout, grout_for
from bench.finish.joint_width import Sand, Widths, sand_for, width_samples
from bench.finish.masking import GroutDay, border_mm, days_of_grout, strip_mm2
from bench.finish.zones import JointGrid, joint_grid, zone_joints_mm2

LEAST_JOINT_MM2 = 1.0


@dataclass(frozen=True)
class Tint:
    """A grout or an ink: its name on the bag or bottle, and its colour."""

    name: str
    colour: RGB

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise NamelessColour("tint")


@dataclass(frozen=True)
class Mix:
    """How grout is mixed. See `grout_for`."""

    depth_mm: float
    powder_g_per_cm3: float = POWDER_G_PER_CM3
    water_share: float = WATER_SHARE
    waste: float = WASTE
    pace: GroutPace = field(default_factory=GroutPace)
    scratches: bool = False

    def grout(self, joint_mm2: float) -> Grout:
        """Return what so much joint takes."""
        return grout_for(
            joint_mm2,
            self.depth_mm,
            powder_g_per_cm3=self.powder_g_per_cm3,
            water_share=self.water_share,
            waste=self.waste,
        )


@dataclass(frozen=True)
class ZonePlan:
    """One zone. face_mm2: glass and joints. tape_mm: its border with other grouts. masked_mm2: of them, to be
    covered beside it."""

    name: str
    pieces: int
    face_mm2: float
    joint_mm2: float
    grout: Grout
    widths: Widths | None
    sand: Sand
    sand_why: str
    tape_mm: float
    masked_mm2: float


@dataclass(frozen=True)
class TintPlan:
    """One grout or ink over all its zones, by index; an ink has no grout and no batch."""

    tint: Tint
    zones: tuple[int, ...]
    joint_mm2: float
    grout: Grout | None
    batch: GroutBatch | None


@dataclass(frozen=True)
class ZonesPlan:
    """All zones, the grouts among them, and which grouts (by index) are worked on which day."""

    zones: tuple[ZonePlan, ...]
    grouts: tuple[TintPlan, ...]
    days: tuple[GroutDay, ...]

    @property
    def tape_mm(self) -> float:
        return sum(day.tape_mm for day in self.days)


@dataclass(frozen=True)
class InksPlan:
    """Inks over a neutral grout. days: of work, the grout's first; inks that meet have a day each."""

    inks: tuple[TintPlan, ...]
    ink_days: tuple[GroutDay, ...]

    @property
    def days(self) -> int:
        return 1 + len(self.ink_days)


def plan_zones(
    panel: Panel,
    zone: IntArray,
    names: Sequence[str],
    grouts: Sequence[Tint],
    mix: Mix,
    *,
    grid: JointGrid | None = None,
    bare: bool = False,
) -> ZonesPlan:
    """Return the plan of zones. zone: (n,) by index into names. grouts: of each zone; equal names are one.

    grid: the panel's joints, where they were found before. bare: zones without joints pass, and take none.
    Raises ZoneWithoutGrout for a zone without pieces or joints, AmountOutOfRange as `grout_for` does.
    """
    grid = joint_grid(panel) if grid is None else grid
    joint_mm2 = zone_joints_mm2(panel, grid, zone, len(names))
    for name, area in zip(names, joint_mm2.tolist(), strict=True):
        if area < LEAST_JOINT_MM2 and not bare:
            raise ZoneWithoutGrout(name)
    border = border_mm(panel, zone, len(names))
    tints, of = _told_apart(grouts)
    tape = (border * (of[:, None] != of[None, :])).sum(axis=1)
    strip = strip_mm2(grid, zone, of)
    samples = width_samples(panel, grid)
    planned = []
    for k, name in enumerate(names):
        members = np.flatnonzero(zone == k)
        widths = samples.widths(members.tolist())
        sand, why = sand_for(widths, scratches=mix.scratches)
        joint = float(joint_mm2[k])
        planned.append(
            ZonePlan(
                name=name,
                pieces=len(members),
                face_mm2=joint + float(panel.area_mm2[members].sum()),
                joint_mm2=joint,
                grout=mix.grout(joint),
                widths=widths,
                sand=sand,
                sand_why=why,
                tape_mm=float(tape[k]),
                masked_mm2=float(strip[k]),
            )
        )
    days = days_of_grout(_merged(border, of, len(tints)), [t.colour for t in tints])
    return ZonesPlan(tuple(planned), _grouts(tints, of, planned, mix), days)


def plan_inks(
    panel: Panel,
    zone: IntArray,
    names: Sequence[str],
    inks: Sequence[Tint | None],
    *,
    grid: JointGrid | None = None,
) -> InksPlan:
    """Return the plan of inks over one neutral grout; None leaves a zone as it is grouted."""
    joint_mm2 = zone_joints_mm2(panel, joint_grid(panel) if grid is None else grid, zone, len(names))
    inked = [k for k, ink in enumerate(inks) if ink is not None]
    tints, of = _told_apart([ink for ink in inks if ink is not None])
    areas = joint_mm2[inked]
    plans = tuple(
        TintPlan(
            tint,
            tuple(inked[k] for k in np.flatnonzero(of == t).tolist()),
            float(areas[of == t].sum()),
            None,
            None,
        )
        for t, tint in enumerate(tints)
    )
    border = border_mm(panel, zone, len(names))[np.ix_(inked, inked)]
    days = days_of_grout(_merged(border, of, len(tints)), [t.colour for t in tints])
    return InksPlan(plans, days)


def _told_apart(tints: Sequence[Tint]) -> tuple[list[Tint], IntArray]:
    """Return the tints by their names, each once, and which of them each is."""
    names = list(dict.fromkeys(t.name for t in tints))
    first = [next(t for t in tints if t.name == name) for name in names]
    return first, np.array([names.index(t.name) for t in tints], np.int32)


def _merged(border: FloatArray, of: IntArray, count: int) -> FloatArray:
    """Return the borders between grouts, from those between zones."""
    found = np.zeros((count, count))
    np.add.at(found, (of[:, None], of[None, :]), border)
    np.fill_diagonal(found, 0.0)
    return found


def _grouts(tints: list[Tint], of: IntArray, planned: list[ZonePlan], mix: Mix) -> tuple[TintPlan, ...]:
    found = []
    for t, tint in enumerate(tints):
        mine = np.flatnonzero(of == t).tolist()
        grout = mix.grout(sum(planned[k].joint_mm2 for k in mine))
        batch = batches_of(grout, sum(planned[k].face_mm2 for k in mine), mix.pace)
        found.append(TintPlan(tint, tuple(mine), grout.joint_area_mm2, grout, batch))
    return tuple(found)
