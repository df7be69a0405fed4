"""A Panel → plain SVG in mm, at true size, that `read_drawing` takes back as the same panel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape, quoteattr

import numpy as np
from numpy.typing import NDArray

from bench.drawing.evenodd import measure
from bench.drawing.panel import GLASS_KINDS, FloatArray, Panel
from bench.drawing.spot import number_spot_mm

_DIGITS = 5  # of a mm: the area of a large piece is then true to 0.01 mm²
_SAME_MM2 = 1e-3
_PLATE, _INK = "#f5f5f5", "#101010"
_NUMBER_SHARE = 0.022  # of the longer side, and not below what can be read on paper
_LEAST_NUMBER_MM = 2.5
_WIDE, _STEP = 0.52, 0.78  # of a figure's height: how wide it is, and from one to the next

# The strokes of each figure, through spots of a grid of three columns and five rows, numbered row by row.
_SPOTS = "0123456789abcde"
_FIGURES = {
    "0": "02ec0",
    "1": "31d ce",
    "2": "0286ce",
    "3": "02ec 68",
    "4": "068 2e",
    "5": "2068ec",
    "6": "20ce86",
    "7": "02d",
    "8": "02ec0 68",
    "9": "8602ec",
}


def write_svg(
    panel: Panel, label: NDArray[np.integer] | None = None, *, numbers: Sequence[int] | None = None
) -> bytes:
    """Return the panel as an SVG file (UTF-8), one path a tessera, groups as groups, lengths in mm.

    label: (n,) the section of each tessera, -1 for none; each is marked `data-section` and its number
    stands on a plate in its middle: numbers[label], or label + 1. Plates have no fill that a drawing
    would take for glass. Tesserae of one group stand together, otherwise in their order.
    """
    body = [*_outline(panel), *_tesserae(panel, _told(panel, label, numbers))]
    if label is not None:
        body += _plates(panel, np.asarray(label, np.int32), numbers)
    width, height = number_text(panel.width_mm), number_text(panel.height_mm)
    head = (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:of="urn:potwatch" '
        f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
    )
    title = [f"<title>{escape(printable(panel.name))}</title>"] if panel.name else []
    text = "\n".join(['<?xml version="1.0" encoding="UTF-8"?>', head, *title, *body, "</svg>", ""])
    return text.encode()


def in_groups(group: NDArray[np.integer]) -> list[list[int]]:
    """Return the tesserae in the order in which they are written: a group together, where its first comes.

    group: (n,), -1 for none; a tessera of no group stands alone.
    """
    members: dict[int, list[int]] = {}
    for k, one in enumerate(group.tolist()):
        members.setdefault(one if one >= 0 else -1 - k, []).append(k)
    return list(members.values())


def number_text(value: float) -> str:
    """Write a length without needless zeros: '12.5', '0', '-3'."""
    text = f"{value:.{_DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def printable(text: str) -> str:
    """Leave out what XML has no sign for."""
    return "".join(c for c in text if c.isprintable())


def _quoted(text: str) -> str:
    return quoteattr(printable(text))


def path_text(rings: Sequence[FloatArray]) -> str:
    return "".join(
        "M" + "L".join(f"{number_text(x)} {number_text(y)}" for x, y in ring.tolist()) + "Z" for ring in rings
    )


def _outline(panel: Panel) -> Iterator[str]:
    """Write the marked outline: one shape with holes, or one for each ring where they merely add up."""
    rings = panel.outline_mm
    if not rings:
        return
    one = abs(measure(rings)[0] - panel.outline_area_mm2) <= _SAME_MM2
    for shape in [list(rings)] if one else [[ring] for ring in rings]:
        yield f'<path data-panel-outline="true" fill="none" fill-rule="evenodd" d="{path_text(shape)}"/>'


def _told(panel: Panel, label: NDArray[np.integer] | None, numbers: Sequence[int] | None) -> list[str]:
    """Return for each tessera the attribute that names its section, "" where it has none."""
    if label is None:
        return [""] * panel.tessera_count
    told = [k + 1 if numbers is None else numbers[k] for k in range(int(max(label, default=-1)) + 1)]
    return [f' data-section="{told[k]}"' if k >= 0 else "" for k in np.asarray(label).tolist()]


def _tesserae(panel: Panel, section: Sequence[str]) -> Iterator[str]:
    """Write the tesserae, each group where its first one comes."""
    for some in in_groups(panel.group):
        group = int(panel.group[some[0]])
        if group >= 0:
            yield f"<g of:label={_quoted(panel.group_names[group])}>"
        for k in some:
            yield _tessera(panel, k, section[k])
        if group >= 0:
            yield "</g>"


def _tessera(panel: Panel, k: int, section: str) -> str:
    red, green, blue = panel.colour[k].tolist()
    marks = [f"id={_quoted(panel.ids[k])}", f'fill="#{red:02x}{green:02x}{blue:02x}"']
    if panel.glass[k]:
        marks.append(f'data-glass="{GLASS_KINDS[panel.glass[k]]}"')
    if panel.adhesive[k]:
        marks.append(f"data-adhesive={_quoted(panel.adhesive[k])}")
    if panel.board and panel.board[k]:
        marks.append(f"data-board={_quoted(panel.board[k])}")
    rings = panel.rings_mm(k)
    if len(rings) > 1:
        marks.append('fill-rule="evenodd"')
    return f'<path {" ".join(marks)}{section} d="{path_text(rings)}"/>'


def _plates(panel: Panel, label: NDArray[np.int32], numbers: Sequence[int] | None) -> Iterator[str]:
    """Write each section's number on a light plate: strokes alone, which are no glass."""
    size = max(_LEAST_NUMBER_MM, _NUMBER_SHARE * max(panel.width_mm, panel.height_mm))
    yield '<g fill="none" stroke-linecap="round" stroke-linejoin="round">'
    for section in np.unique(label[label >= 0]).tolist():
        told = str(section + 1 if numbers is None else numbers[section])
        x, y = number_spot_mm(panel, np.flatnonzero(label == section)).tolist()
        half = max(1e-3, (len(told) - 1) * size * _STEP / 2)
        plate = f"M{number_text(x - half)} {number_text(y)}L{number_text(x + half)} {number_text(y)}"
        yield f'<path stroke="{_PLATE}" stroke-width="{number_text(size * 1.7)}" d="{plate}"/>'
        ink = f'<path data-number="{told}" stroke="{_INK}" stroke-width="{number_text(size * 0.13)}"'
        yield f'{ink} d="{_strokes(told, x, y, size)}"/>'
    yield "</g>"


def _strokes(told: str, x: float, y: float, size: float) -> str:
    """Return figures as lines about a middle, so that no renderer needs a font for them."""
    out = []
    for k, figure in enumerate(told):
        left = x + ((k - (len(told) - 1) / 2) * _STEP - _WIDE / 2) * size
        for stroke in _FIGURES[figure].split():
            spots = [divmod(_SPOTS.index(spot), 3) for spot in stroke]
            out.append(
                "M"
                + "L".join(
                    f"{number_text(left + column * _WIDE / 2 * size)} "
                    f"{number_text(y + (row / 4 - 0.5) * size)}"
                    for row, column in spots
                )
            )
    return "".join(out)
