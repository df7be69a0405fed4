"""Good files of each kind, to be spoiled."""

from __future__ import annotations

import io
import json
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from PIL import Image

from bench.adhesive.product_file import shipped_products
from bench.pace.csv_file import COLUMNS
from tests.fakes.drawings import grid_svg
from tests.fakes.scans import drawn_grid, painted_halves


def _svgs() -> list[bytes]:
    curved = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60">'
        '<style>.a { fill: #2a5caa } #g { transform: translate(2px, 1px) }</style><defs><path id="leaf" '
        'd="M0 0C4 2 8 2 12 0 8 6 4 6 0 0Z"/></defs><g id="g" data-glass="clear" transform="rotate(3)">'
        '<use href="#leaf" x="5" y="9"/><use href="#leaf" x="30" y="9" transform="scale(1.2)"/></g>'
        '<path class="a" fill-rule="evenodd" d="M40 20h20v20h-20zM45 25h8v8h-8z"/>'
        '<circle cx="20" cy="45" r="6"/>'
        '<polygon points="70,5 80,5 85,15 65,15"/><ellipse cx="75" cy="45" rx="8" ry="4" data-board="B"/>'
        '<path data-panel-outline="true" d="M0 0H90V60H0Z"/></svg>'
    )
    return [grid_svg(4, 3), grid_svg(6, 4, clear=lambda c, r: c < 2), curved.encode()]


def _pictures() -> list[bytes]:
    out = []
    grid, halves = drawn_grid().resize((160, 120)), painted_halves((90, 60))
    exif = Image.Exif()
    exif[0x0112], exif[0x8825] = 6, {1: "N", 2: (48.0, 8.0, 3.0)}
    for image, kind, how in (
        (grid, "PNG", {}), (grid.convert("P"), "PNG", {"transparency": 3}), (halves, "JPEG", {"exif": exif}),
        (halves.convert("CMYK"), "JPEG", {}), (halves, "JPEG", {"progressive": True}),
        (halves, "WEBP", {"exif": exif}), (halves.convert("RGBA"), "WEBP", {"lossless": True}),
        (grid.convert("I;16"), "PNG", {}), (grid.convert("1"), "PNG", {"dpi": (300, 300)}),
    ):  # fmt: skip
        file = io.BytesIO()
        image.save(file, kind, **how)
        out.append(file.getvalue())
    return out


def _adhesives() -> list[bytes]:
    return [path.read_bytes() for path in shipped_products().values()]


def _bundles() -> list[bytes]:
    from bench.book import Store
    from bench.job.acts.bundling import bundle_panel
    from bench.job.drafts import begin_draft
    from tests.fakes.bundles import worked_panel

    with tempfile.TemporaryDirectory() as folder, Store.in_memory() as store:
        job = worked_panel(store)
        begin_draft(store, job.clock, "scan.png", _pictures()[0])
        bundle_panel(store, job.clock, 1, Path(folder) / "a.zip", with_drafts=True)
        bundle_panel(store, job.clock, 1, Path(folder) / "b.zip")
        return [(Path(folder) / name).read_bytes() for name in ("a.zip", "b.zip")]


def _plans() -> list[bytes]:
    tesserae = [{"id": f"c{c}r{r}", "section": 1 + c // 2} for r in range(3) for c in range(4)]
    return [json.dumps({"schema": 1, "tesserae": tesserae, "sections": []}).encode()]


def _glue_ups() -> list[bytes]:
    head = ",".join(COLUMNS)
    rows = (
        "2026-01-05T09:00:00Z,3,40,2,600,0,21,900,,yes",
        "2026-01-06T09:00:00Z,0,44,0,640,30,19.5,,1500,no",
        "2026-01-07T09:00:00Z,1,30,9,555,0,23,820,,yes",
    )
    return ["\n".join((head, *rows, "")).encode()]


def _sheets() -> list[bytes]:
    return [
        b"glass,width_mm,height_mm,sheets\nclear blue #2a5caa,300,300,2\nopaque yellow #e8c93a,200,150,1\n",
        b"used_cm2,laid_cm2\n900,600\n450.5,300\n",
    ]


_SEEDS: dict[str, Callable[[], list[bytes]]] = {
    "svg": _svgs,
    "picture": _pictures,
    "adhesive": _adhesives,
    "bundle": _bundles,
    "plan": _plans,
    "glue-ups": _glue_ups,
    "sheets": _sheets,
}


@cache
def seeds(kind: str) -> tuple[bytes, ...]:
    """Return good files of a kind."""
    return tuple(_SEEDS[kind]())
