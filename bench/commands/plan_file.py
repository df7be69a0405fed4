"""The plan as a file for other programs, and the section of each tessera."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from bench.book.events import BenchSet
from bench.drawing.panel import Panel
from bench.job.planning import Plan
from bench.job.sizing import Sizer


def plan_json(panel: Panel, bench: BenchSet, measures: Sizer, plan: Plan) -> dict[str, Any]:
    """Return the plan file but for its sentences; shared/plan.schema.json describes it."""
    section = numbers_of(panel, plan)
    return {
        "schema": 1,
        "panel": {
            "width_mm": panel.width_mm,
            "height_mm": panel.height_mm,
            "tessera_count": panel.tessera_count,
            "glass_area_mm2": panel.glass_area_mm2,
            "joint_area_mm2": panel.joint_area_mm2,
        },
        "assumptions": _assumptions(bench, plan),
        "lower_bound": plan.lower_bound,
        "tesserae": [
            {"id": i, "x_mm": x, "y_mm": y, "area_mm2": a, "expected_s": t, "section": s}
            for i, (x, y), a, t, s in zip(
                panel.ids,
                panel.centroid_mm.tolist(),
                panel.area_mm2.tolist(),
                plan.expected_s.tolist(),
                section.tolist(),
                strict=True,
            )
        ],
        "sections": [_section(measures, promise) for promise in plan.promises],
    }


def numbers_of(panel: Panel, plan: Plan) -> NDArray[np.int32]:
    """Return the section of each tessera, (n,)."""
    number = np.zeros(panel.tessera_count, dtype=np.int32)
    for promise in plan.promises:
        number[list(promise.tesserae)] = promise.number
    return number


def _assumptions(bench: BenchSet, plan: Plan) -> dict[str, Any]:
    """Return the figures of the adhesive that most sections take."""
    names = [p.adhesive for p in plan.promises]
    main = max(plan.capacities, key=names.count)
    found = plan.capacities[main]
    return {
        "working_time_s": found.working_time_s,
        "stir_s": found.stir_s,
        "spread_s": found.spread_s,
        "clean_s": found.clean_s,
        "reserve_s": found.reserve_s,
        "capacity_s": found.capacity_s,
        "sure": bench.sure,
        "prefer": bench.prefer,
        "pace_per_min": found.pace_per_min["p50"],
        "temperature_C": bench.temperature_C,
        **({"patch_cm2": bench.patch_cm2} if bench.by_patch else {}),
    }


def _section(measures: Sizer, promise: Any) -> dict[str, Any]:
    members = np.asarray(promise.tesserae, dtype=np.int32)
    batch = measures.batch(promise.adhesive, members)
    return {
        "number": promise.number,
        "adhesive": measures.products[promise.adhesive].name,
        "tessera_count": len(promise.tesserae),
        "area_mm2": measures.bed_mm2(members),
        "expected_s": promise.expected_s,
        "capacity_s": promise.capacity_s,
        "in_time": promise.in_time,
        "batch": {
            "resin_g": batch.resin_g,
            "hardener_g": batch.hardener_g,
            "total_g": batch.total_g,
            "worst_ratio_error": batch.worst_ratio_error,
            "scale_ok": batch.scale_ok,
        },
    }
