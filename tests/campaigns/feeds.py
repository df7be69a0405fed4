"""Where files from outside come in: each feed reads one as the app does, and uses what it got."""

from __future__ import annotations

import contextlib
import io
import os
import socket
import subprocess
import zlib
from collections.abc import Callable
from pathlib import Path

from bench.adhesive.batch import prescribe
from bench.adhesive.cautions import cautions
from bench.adhesive.product_file import parse_product, product_toml
from bench.adhesive.working_time import working_time_s
from bench.book import Store
from bench.commands import main
from bench.commands.draw import sections_of
from bench.drawing.dry import as_kept
from bench.drawing.photo import read_picture
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from bench.fault import Fault
from bench.finish.cut_waste import learned_cut_waste, read_used
from bench.finish.stock import read_stock
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.opening import open_panel
from bench.job.drafts import begin_draft
from bench.job.learning import Stated, learn_from_book
from bench.job.same_hands import say_hands
from bench.pace.csv_file import read_glue_ups
from bench.pace.hands import learn_hands
from bench.pace.life import learn_life
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

FEW_PIECES, FEW_PIXELS = 150, 60_000


def now_and_then(data: bytes, one_in: int) -> bool:
    """Choose by content, so that an input does the same each time."""
    return zlib.crc32(data) % one_in == 0


def svg(data: bytes, folder: Path) -> None:
    """Read a drawing; write it again and divide it now and then."""
    panel = read_drawing(data, "hostile.svg")
    if panel.tessera_count <= FEW_PIECES and now_and_then(data, 4):
        read_drawing(write_svg(panel), "again.svg")
    if panel.tessera_count <= FEW_PIECES and now_and_then(data, 40):
        with Store.in_memory() as store:
            open_panel(store, FakeClock(), data, "hostile.svg")


def picture(data: bytes, folder: Path) -> None:
    """Read a picture as a photo and a draft; as lines and as a study now and then."""
    found = read_picture(data, "hostile.png")
    as_kept(found, 1)
    with Store.in_memory() as store:
        begin_draft(store, FakeClock(), "hostile.png", data)
    if found.pixels.size <= 3 * FEW_PIXELS and now_and_then(data, 20):
        path = folder / "hostile.png"
        path.write_bytes(data)
        for way in ("lines", "study"):
            command("draw", path, "--as", way, "--width-mm", "90", "--svg", folder / "out.svg")


def adhesive(data: bytes, folder: Path) -> None:
    """Read an adhesive file, write it again, and mix it."""
    product = parse_product(data, "hostile.toml")
    assert parse_product(product_toml(product).encode(), "again") == product
    batch = prescribe(product, bed_area_mm2=4000.0, bed_mm=0.8)
    cautions(product, temperature_C=21.0, mass_g=batch.total_g, first_today=True)
    for temperature_C in (-10.0, 21.0, 60.0):
        with contextlib.suppress(Fault):
            assert working_time_s(product, temperature_C=temperature_C, mass_g=batch.total_g) > 0
    if now_and_then(data, 25):
        path = folder / "hostile.toml"
        path.write_bytes(data)
        command("batch", "--adhesive", path, "--area-cm2", "40", "--json", "-")


def plan(data: bytes, folder: Path) -> None:
    """Read a plan for a small drawing and draw its sections."""
    panel, path = read_drawing(grid_svg(4, 3), "grid.svg"), folder / "plan.json"
    path.write_bytes(data)
    label, numbers = sections_of(panel, path)
    write_svg(panel, label, numbers=numbers)


def glue_ups(data: bytes, folder: Path) -> None:
    """Read a table of glue-ups and learn from it."""
    path = folder / "glue-ups.csv"
    path.write_bytes(data)
    rows = read_glue_ups(path, now_utc=FakeClock().utc())
    learn_hands(rows, pace_per_min=5.0, now_utc=FakeClock().utc())
    learn_life(rows, working_time_s=1500.0)


def sheets(data: bytes, folder: Path) -> None:
    """Read a table of sheets on hand, and one of sheets used."""
    path = folder / "sheets.csv"
    path.write_bytes(data)
    if data.startswith(b"used"):
        assert 0 <= learned_cut_waste(read_used(path)) <= 1
    else:
        read_stock(path)


def bundle(data: bytes, folder: Path) -> None:
    """Open a bundle in a book of its own and learn from it; what is refused leaves nothing."""
    path = folder / "hostile.zip"
    path.write_bytes(data)
    with Store.in_memory() as store:
        try:
            brought = open_the_bundle(store, FakeClock(), path)
        except Fault:
            assert store.panels() == []
            assert store.all_events() == []
            raise
        say_hands(store, brought.ask_hands, same=True)
        learn_from_book(store, Stated(5.0), FakeClock().utc())
        assert open_the_bundle(store, FakeClock(), path).how == "nothing"


def command(*argv: object) -> None:
    """Run a command; it may refuse, and must say so."""
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        assert main([str(word) for word in argv]) in (0, 1, 2)


FEEDS: dict[str, Callable[[bytes, Path], None]] = {
    "svg": svg,
    "picture": picture,
    "adhesive": adhesive,
    "bundle": bundle,
    "plan": plan,
    "glue-ups": glue_ups,
    "sheets": sheets,
}


AMISS = (b"raise", b"hang", b"eat", b"write", b"speak", b"start", b"fall", b"two lines")


def amiss(data: bytes, folder: Path) -> None:
    """Do what no reader may, so that the watch itself is held to account."""
    if data == b"raise":
        raise KeyError("x")
    if data == b"hang":
        while True:
            pass
    if data == b"eat":
        assert bytes(5 * 2**30)
    if data == b"write":
        (folder.parent / "outside").write_text("x")
    if data == b"speak":
        socket.create_connection(("localhost", 9))
    if data == b"start":
        subprocess.run(["true"], check=True)
    if data == b"fall":
        os.abort()
    raise TwoLines


class TwoLines(Fault):
    def __init__(self) -> None:
        super().__init__("one")

    def __str__(self) -> str:
        return "one\ntwo"
