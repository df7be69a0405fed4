"""Zones of a drawing for `potwatch finish`: grout, masking and days, or one neutral grout and inks."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from typing import Any

import numpy as np

from bench.adhesive import find_product
from bench.commands.output import table
from bench.drawing import Panel
from bench.drawing.panel import IntArray
from bench.finish import (
    GROUT_WORDS,
    NEUTRAL,
    Fading,
    GroutBatch,
    GroutPace,
    InksPlan,
    Mix,
    Tint,
    Widths,
    WidthSamples,
    ZonesPlan,
    bed_in_sun,
    check_widths,
    code_of,
    fading_of,
    group_zones,
    joint_grid,
    main_colour,
    plan_inks,
    plan_zones,
    proposed_zones,
    sand_for,
    sheet_first,
    sun_said,
    width_samples,
)

ZONES = ("groups", "colours", "one")


@dataclass(frozen=True, eq=False)
class Zoned:
    """A drawing's zones: each with a grout of its own, and the same with one neutral grout and inks."""

    label: IntArray
    names: tuple[str, ...]
    tints: tuple[Tint, ...]
    widths: Widths | None
    scratches: bool
    plan: ZonesPlan
    inks: InksPlan


def zoned(args: argparse.Namespace, panel: Panel, depth_mm: float) -> Zoned:
    """Return a drawing's zones. Raises JointsWiderThanPieces, and as `plan_zones` does."""
    grid = joint_grid(panel)
    samples: WidthSamples = width_samples(panel, grid)
    widths = samples.widths()
    check_widths(panel, widths)
    label, names = _zones(args, panel)
    scratches = args.scratches or bool((panel.glass == 2).any())
    mix = Mix(
        depth_mm,
        powder_g_per_cm3=args.grout_density,
        water_share=args.water,
        waste=args.waste,
        pace=GroutPace(args.pace_cm2_min, args.pot_life_min),
        scratches=scratches,
    )
    if len(names) == 1:
        tints: tuple[Tint, ...] = (Tint(NEUTRAL, GROUT_WORDS[NEUTRAL]),)
        inks: tuple[Tint | None, ...] = (None,)
    else:
        members = [np.flatnonzero(label == k) for k in range(len(names))]
        colours = [main_colour(panel.colour[m], panel.area_mm2[m]) for m in members]
        tints = tuple(Tint(name, colour) for name, colour in zip(names, colours, strict=True))
        inks = tints
    plan = plan_zones(panel, label, names, tints, mix, grid=grid, bare=args.zones is None)
    inked = plan_inks(panel, label, names, inks, grid=grid)
    return Zoned(label, names, tints, widths, scratches, plan, inked)


def _zones(args: argparse.Namespace, panel: Panel) -> tuple[IntArray, tuple[str, ...]]:
    if args.zones == "one":
        return np.zeros(panel.tessera_count, np.int32), ("the panel",)
    if args.zones == "colours":
        return proposed_zones(panel)
    zone, names = group_zones(panel)
    used, place = np.unique(zone, return_inverse=True)  # a group may hold no tessera
    return place.astype(np.int32), tuple(names[k].strip() or f"group {k + 1}" for k in used.tolist())


def zone_lines(args: argparse.Namespace, panel: Panel, found: Zoned) -> list[str]:
    """Return the zones for a person to read."""
    lines = []
    if found.widths is not None:
        w = found.widths
        told = f"{w.p10_mm:.2f} – {w.p50_mm:.2f} – {w.p90_mm:.2f}"
        sand, why = sand_for(w, scratches=found.scratches)
        lines.append(f"joints: {told} mm wide (10–50–90 % of their length): {sand} grout, since {why}")
    for grout in found.plan.grouts if len(found.names) == 1 else ():
        assert grout.batch is not None
        lines.append(_batches(grout.batch))
    if len(found.names) > 1:
        lines += ["", _zone_table(found), "", *_ways(found)]
    return [*lines, *_sun(args, panel, found)]


def _batches(batch: GroutBatch) -> str:
    some = "1 batch" if batch.count == 1 else f"{batch.count} batches"
    grams = f"{batch.powder_g:.0f} g powder and {batch.water_g:.0f} g water"
    return f"{some} of {grams}, about {batch.minutes:.0f} min of work each"


def _zone_table(found: Zoned) -> str:
    day = {k: number for number, one in enumerate(found.plan.days, start=1) for k in one.colours}
    batch = {z: grout.batch for grout in found.plan.grouts for z in grout.zones}
    of = {z: k for k, grout in enumerate(found.plan.grouts) for z in grout.zones}
    rows = []
    for k, zone in sorted(enumerate(found.plan.zones), key=lambda one: (day[of[one[0]]], -one[1].joint_mm2)):
        one = batch[k]
        rows.append(
            (
                zone.name,
                f"{zone.joint_mm2 / 100:.1f}",
                f"{zone.widths.p50_mm:.2f}" if zone.widths else "–",
                f"{zone.grout.powder_g:.1f}",
                f"{zone.grout.water_g:.1f}",
                str(one.count if one else 0),
                zone.sand,
                f"{zone.tape_mm / 10:.0f}",
                f"{zone.masked_mm2 / 100:.0f}",
                str(day[of[k]]),
            )
        )
    head = (
        *("zone", "joints cm²", "width mm", "powder g", "water g", "batches", "grout"),
        *("tape cm", "masked cm²", "day"),
    )
    return table(head, rows)


def _ways(found: Zoned) -> list[str]:
    """Say what zones of their own grouts take, and what one grout with inks does."""
    zones = f"{len(found.plan.grouts)} grouts on {len(found.plan.days)} days"
    areas = ", ".join(f"{ink.tint.name} {ink.joint_mm2 / 100:.1f}" for ink in found.inks.inks)
    return [
        f"in zones: {zones}, {found.plan.tape_mm / 1000:.1f} m of tape; grouts that meet never on one day",
        f"or one {NEUTRAL} grout and inks once it is dry: {found.inks.days} days; joints in cm²: {areas}",
        f"{sheet_first()[:1].lower()}{sheet_first()[1:]}".rstrip("."),
    ]


def _sun(args: argparse.Namespace, panel: Panel, found: Zoned) -> list[str]:
    if args.sun is None:
        return []
    lines = ["", f"{sun_said(args.sun)} (rough; common practice, classes after ISO 105-B01 from memory):"]
    alike: dict[Fading, list[str]] = {}
    for name, tint in zip(found.names, found.tints, strict=True):
        alike.setdefault(fading_of(tint.colour, args.sun), []).append(name)
    for fading, names in sorted(alike.items(), key=lambda one: one[0].classes):
        want = "through-coloured grout in a zone, no ink; " if fading.through else ""
        lines.append(f"{', '.join(names)}: {want}{fading.words}")
    return [*lines, *bed_in_sun(panel, find_product(args.adhesive), args.sun)]


def zones_json(args: argparse.Namespace, panel: Panel, found: Zoned) -> dict[str, Any]:
    """Return the zones as JSON. Areas in mm², lengths in mm, masses in g with waste."""
    return {
        "joint_width_mm": _widths(found.widths),
        "zones": [
            {
                "name": z.name,
                "pieces": z.pieces,
                "colour": code_of(found.tints[k].colour),
                "joint_area_mm2": z.joint_mm2,
                "joint_width_mm": _widths(z.widths),
                "grout": z.sand,
                "grout_why": z.sand_why,
                "powder_g": z.grout.powder_g,
                "water_g": z.grout.water_g,
                "tape_mm": z.tape_mm,
                "masked_mm2": z.masked_mm2,
                "through_coloured": fading_of(found.tints[k].colour, args.sun).through if args.sun else None,
            }
            for k, z in enumerate(found.plan.zones)
        ],
        "grouts": [
            {
                "name": g.tint.name,
                "zones": [found.names[k] for k in g.zones],
                "powder_g": g.grout.powder_g if g.grout else 0.0,
                "water_g": g.grout.water_g if g.grout else 0.0,
                "batches": g.batch.count if g.batch else 0,
                "batch_powder_g": g.batch.powder_g if g.batch else 0.0,
                "batch_water_g": g.batch.water_g if g.batch else 0.0,
            }
            for g in found.plan.grouts
        ],
        "days": [
            {"grouts": [found.plan.grouts[k].tint.name for k in day.colours], "tape_mm": day.tape_mm}
            for day in found.plan.days
        ],
        "inks": {
            "days": found.inks.days,
            "areas": [{"name": i.tint.name, "joint_area_mm2": i.joint_mm2} for i in found.inks.inks],
        },
        "sun": args.sun,
        "bed": list(bed_in_sun(panel, find_product(args.adhesive), args.sun)) if args.sun else [],
    }


def _widths(widths: Widths | None) -> dict[str, float] | None:
    return None if widths is None else {"p10": widths.p10_mm, "p50": widths.p50_mm, "p90": widths.p90_mm}
