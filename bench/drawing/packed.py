"""A Panel as bytes and back, so that a drawing that was read once need not be read again."""

from __future__ import annotations

import json
from typing import Any

import numpy as np

from bench.drawing.panel import FloatArray, IntArray, Joints, LeftOut, Panel
from bench.sealed import arrays_of, sealed_arrays
from bench.speech import tongue

FORMAT = 2  # raised whenever a Panel has other fields, or the reader makes another panel of the same file

_ARRAYS: dict[str, type] = {
    "points_mm": np.float64,
    "ring_start": np.int32,
    "tessera_ring": np.int32,
    "area_mm2": np.float64,
    "centroid_mm": np.float64,
    "colour": np.uint8,
    "glass": np.uint8,
    "group": np.int32,
}
_JOINTS: dict[str, type] = {"pair": np.int32, "length_mm": np.float64, "gap_mm": np.float64}
_KINDS = _ARRAYS | {f"joints_{key}": kind for key, kind in _JOINTS.items()}
_KINDS |= {"told": np.uint8, "outline": np.float64}
_TOLD = (
    "width_mm",
    "height_mm",
    "ids",
    "adhesive",
    "group_names",
    "outline_area_mm2",
    "warnings",
    "board",
    "name",
)


def pack(panel: Panel) -> bytes:
    """Return a panel as bytes."""
    told: dict[str, Any] = {key: getattr(panel, key) for key in _TOLD}
    told["spoken"] = _spoken()
    told["left_out"] = [[x.what, x.count, x.why] for x in panel.left_out]
    told["outline"] = [len(ring) for ring in panel.outline_mm]
    arrays = {key: getattr(panel, key) for key in _ARRAYS}
    arrays |= {f"joints_{key}": getattr(panel.joints, key) for key in _JOINTS}
    outline = np.concatenate(panel.outline_mm) if panel.outline_mm else np.empty((0, 2))
    words = np.frombuffer(json.dumps(told).encode(), np.uint8)
    return sealed_arrays(told=words, outline=outline, **arrays)


def unpack(data: bytes) -> Panel | None:
    """Return the panel in such bytes; None for anything else, and for bytes that were damaged.

    What was packed in another language is none either: its warnings are sentences.
    """
    found = arrays_of(data, _KINDS)
    if found is None:
        return None
    try:
        told = json.loads(found["told"].tobytes())
        if told.pop("spoken") != _spoken():
            return None
        arrays = {key: found[key] for key in _ARRAYS}
        joints = Joints(**{key: found[f"joints_{key}"] for key in _JOINTS})
        outline = _rings(found["outline"], told.pop("outline"))
        left_out = tuple(LeftOut(what, int(count), why) for what, count, why in told.pop("left_out"))
        told = {key: tuple(v) if isinstance(v, list) else v for key, v in told.items()}
        panel = Panel(**told, **arrays, joints=joints, outline_mm=outline, left_out=left_out)
        return panel if _agrees(panel) else None
    except (ValueError, KeyError, TypeError, IndexError):
        return None


def _spoken() -> list[str]:
    """Return the language and the decimal mark that sentences are said in."""
    return [tongue().language, tongue().decimal_mark]


def _rings(points: FloatArray, counts: list[int]) -> tuple[FloatArray, ...]:
    return tuple(np.split(points, np.cumsum(counts)[:-1])) if counts else ()


def _agrees(panel: Panel) -> bool:
    """Tell whether all that is told of each tessera is told of as many."""
    n = len(panel.ids)
    each = (panel.area_mm2, panel.centroid_mm, panel.colour, panel.glass, panel.group, panel.adhesive)
    ends: IntArray = panel.tessera_ring
    return (
        all(len(one) == n for one in each)
        and len(ends) == n + 1
        and int(ends[-1]) + 1 == len(panel.ring_start)
        and int(panel.ring_start[-1]) == len(panel.points_mm)
    )
