"""Zones of a drawing for `potwatch finish`: grout, masking and days, or one neutral grout and inks."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from typing import Any

import numpy as np

from bench.adhesive.product_file import find_product
from bench.commands.output import figure, figure_of_area, table
from bench.drawing.colour import code_of
from bench.drawing.panel import IntArray, Panel
from bench.finish.batches import GroutBatch, GroutPace
from bench.finish.beheld import tint_said
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.joint_width import Widths, WidthSamples, check_widths, sand_for, sand_said, width_samples
from bench.finish.sun import Fading, bed_in_sun, fading_of, sun_said
from bench.finish.zone_plan import InksPlan, Mix, Tint, ZonesPlan, plan_inks, plan_zones
from bench.finish.zones import group_zones, joint_grid
from bench.finish.zoning import main_colour, proposed_zones
from bench.speech import area_unit, in_length, length_unit, say, say_n, tape_length, tongue

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
        return np.zeros(panel.tessera_count, np.int32), (say("the panel"),)
    if args.zones == "colours":
        return proposed_zones(panel)
    zone, names = group_zones(panel)
    used, place = np.unique(zone, return_inverse=True)  # a group may hold no tessera
    return place.astype(np.int32), tuple(
        names[k].strip() or say("group {number}", number=k + 1) for k in used.tolist()
    )


def zone_lines(args: argparse.Namespace, panel: Panel, found: Zoned) -> list[str]:
    """Return the zones for a person to read."""
    lines = []
    if found.widths is not None:
        w = found.widths
        sand, why = sand_for(w, scratches=found.scratches)
        wide = say(
            "joints: {p10} – {p50} – {p90} {unit} wide (10–50–90 % of their length)",
            p10=_width(w.p10_mm),
            p50=_width(w.p50_mm),
            p90=_width(w.p90_mm),
            unit=length_unit(),
        )
        if sand == "sanded":
            lines.append(say("{joints}: sanded grout, since {why}", joints=wide, why=why))
        else:
            lines.append(say("{joints}: unsanded grout, since {why}", joints=wide, why=why))
    for grout in found.plan.grouts if len(found.names) == 1 else ():
        assert grout.batch is not None
        lines.append(_batches(grout.batch))
    if len(found.names) > 1:
        lines += ["", _zone_table(found), "", *_ways(found)]
    return [*lines, *_sun(args, panel, found)]


def _batches(batch: GroutBatch) -> str:
    return say_n(
        "{count} batch of {powder:.0f} g powder and {water:.0f} g water, about {minutes:.0f} min of work "
        "each",
        "{count} batches of {powder:.0f} g powder and {water:.0f} g water, about {minutes:.0f} min of work "
        "each",
        batch.count,
        powder=batch.powder_g,
        water=batch.water_g,
        minutes=batch.minutes,
    )


def _tape(mm: float) -> str:
    """Say a length of tape under a head in cm, or in inches."""
    return figure(in_length(mm), 1) if tongue().inches else figure(mm / 10)


def _width(mm: float) -> str:
    """Say the width of a joint under a head that has `length_unit`, or before it."""
    return figure(in_length(mm), 3 if tongue().inches else 2)


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
                figure_of_area(zone.joint_mm2, 1),
                _width(zone.widths.p50_mm) if zone.widths else "–",
                figure(zone.grout.powder_g, 1),
                figure(zone.grout.water_g, 1),
                str(one.count if one else 0),
                sand_said(zone.sand),
                _tape(zone.tape_mm),
                figure_of_area(zone.masked_mm2),
                str(day[of[k]]),
            )
        )
    head = (
        say("zone"),
        say("joints {unit}", unit=area_unit()),
        say("width {unit}", unit=length_unit()),
        say("powder g"),
        say("water g"),
        say("batches"),
        say("grout"),
        say("tape {unit}", unit="in" if tongue().inches else "cm"),
        say("masked {unit}", unit=area_unit()),
        say("day"),
    )
    return table(head, rows)


def _ways(found: Zoned) -> list[str]:
    """Say what zones of their own grouts take, and what one grout with inks does."""
    areas = ", ".join(
        f"{tint_said(ink.tint.name)} {figure_of_area(ink.joint_mm2, 1)}" for ink in found.inks.inks
    )
    return [
        say_n(
            "in zones: {grouts} on {count} day, {tape} of tape; grouts that meet never on one day",
            "in zones: {grouts} on {count} days, {tape} of tape; grouts that meet never on one day",
            len(found.plan.days),
            grouts=say_n("{count} grout", "{count} grouts", len(found.plan.grouts)),
            tape=tape_length(found.plan.tape_mm),
        ),
        say_n(
            "or one {colour} grout and inks once it is dry: {count} day; joints in {unit}: {areas}",
            "or one {colour} grout and inks once it is dry: {count} days; joints in {unit}: {areas}",
            found.inks.days,
            colour=tint_said(NEUTRAL),
            unit=area_unit(),
            areas=areas,
        ),
        say("common practice, no source: the product's sheet comes first"),
    ]


def _sun(args: argparse.Namespace, panel: Panel, found: Zoned) -> list[str]:
    if args.sun is None:
        return []
    rough = say(
        "{where} (rough; common practice, classes after ISO 105-B01 from memory):", where=sun_said(args.sun)
    )
    lines = ["", rough]
    alike: dict[Fading, list[str]] = {}
    for name, tint in zip(found.names, found.tints, strict=True):
        alike.setdefault(fading_of(tint.colour, args.sun), []).append(name)
    for fading, names in sorted(alike.items(), key=lambda one: one[0].classes):
        listed, fades = ", ".join(names), fading.words
        if fading.through:
            fades = say("through-coloured grout in a zone, no ink; {fades}", fades=fades)
        lines.append(f"{listed}: {fades}")
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
