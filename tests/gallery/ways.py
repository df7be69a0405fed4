"""Steps to a view that are more than a tap: what is typed, set, photographed and waited for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np

from bench.drawing.dry import as_kept
from bench.drawing.photo import Picture
from bench.job.acts import attach, dry, edge, glueup, record, stock
from bench.job.advice import advise
from bench.job.faults import BesideSoftWork
from bench.job.settings import OWED, TRANSFER_OWED
from bench.job.words import book_lines
from bench.resources import resource
from bench.screens.offscreen import NotOnScreen
from tests.fakes import areas, photographing, tracing
from tests.fakes.benches import changed, set_section, settle, start_mix
from tests.fakes.bundles import bundled
from tests.fakes.edges import photo_of_set
from tests.fakes.photographed import photograph


def tap(stage: Any, name: str) -> None:
    """Tap what is called so, on whichever page it lies."""
    while name not in stage.names() and "page_on" in stage.names() and not stage.find("page_on").disabled:
        stage.tap("page_on")
        stage.frame(2)
    if name not in stage.names():
        raise NotOnScreen(name, stage.names())
    stage.tap(name)
    stage.run(0.5)
    stage.frame(2)


def rest(stage: Any, _desk: Any) -> None:
    tracing.rest(stage)


def letters(text: str) -> Callable[[Any, Any], None]:
    """Return a step that types words on a pad of letters, turning its pages where it has some."""

    def step(stage: Any, _desk: Any) -> None:
        for sign in text.upper():
            key = "lot_space" if sign == " " else f"lot_{sign}"
            for _ in range(3):
                if key in stage.names():
                    break
                stage.tap("lot_turn")
            stage.tap(key)
            stage.run(0.1)  # a finger that bounces within this types once

    return step


def type_in(keys: str) -> Callable[[Any, Any], None]:
    """Return a step that types a number and takes it."""

    def step(stage: Any, _desk: Any) -> None:
        for key in keys:
            stage.tap("pad_mark" if key == "." else f"pad_{key}")
        stage.tap("pad_use")
        stage.run(0.5)

    return step


def minutes(count: float) -> Callable[[Any, Any], None]:
    """Return a step that lets time pass on the bench's clock."""

    def step(stage: Any, desk: Any) -> None:
        with stage.followed_by(desk.job.clock.advance):
            stage.run(60 * count, dt_s=10.0)

    return step


def _tap_piece(stage: Any, desk: Any, number: int) -> None:
    section, panel = desk.job.section(number), desk.job.panel
    places = panel.centroid_mm[list(section.tesserae)]
    x_mm, y_mm = places[np.argmin(np.hypot(*(places - places.mean(axis=0)).T))]
    picture = stage.find("picture")
    x, y = picture.view.to_px(x_mm, y_mm)
    stage.tap_at(picture.x + x, picture.y + y)
    stage.frame(3)


def tap_section(stage: Any, desk: Any) -> None:
    _tap_piece(stage, desk, max(s.number for s in desk.job.state.with_stage("drawn")))


def tap_set(stage: Any, desk: Any) -> None:
    _tap_piece(stage, desk, desk.job.state.with_stage("set")[-1].number)


def set_some(stage: Any, desk: Any) -> None:
    """Set two sections, a day between them; the second is still soft."""
    for _ in range(2):
        desk.job.clock.advance(20 * 3600)
        set_section(desk.job, advise(desk.job).section, minutes=20)
    changed(desk)
    stage.run(1)
    settle(stage, desk)


def too_slow(_stage: Any, desk: Any) -> None:
    """Lay a section dry for a hand so slow that not one piece is sure."""
    desk.section = advise(desk.job).section
    dry.lay(desk.job, int(desk.section))
    desk.job.write(desk.job.state.bench.model_copy(update={"pace_per_min": 0.02}))
    changed(desk)


def split_in_vain(stage: Any, desk: Any) -> None:
    """Ask for a split that cannot be had."""
    desk.attempt(dry.split, int(desk.section))
    rest(stage, desk)


def setting(stage: Any, desk: Any) -> None:
    """Stir, spread, set, and count twice."""
    job, mix = desk.job, int(desk.mix)
    for step, wait_s in (("spread", 70), ("set", 60)):
        job.clock.advance(wait_s)
        glueup.begin_step(job, mix, step)
    for placed in (18, 40):
        job.clock.advance(90)
        glueup.count(job, mix, placed)
    changed(desk)


def mistake(_stage: Any, desk: Any) -> None:
    """Let a mistake be told, as long as they come."""
    desk.tell(BesideSoftWork(7, (4,)))


def bottles(_stage: Any, desk: Any) -> None:
    """Have a bottle of the adhesive in use, and one that stands unopened."""
    name = desk.job.product(desk.job.state.bench.adhesive).name
    stock.open_bottle(desk.job, name, "resin", net_g=125.5, lot="A12-7X")
    stock.buy_bottle(desk.job, name, "hardener", net_g=90.0, lot="B3", best_before=date(2027, 1, 1))
    changed(desk)


def past_date(_stage: Any, desk: Any) -> None:
    """Have a bottle in use that is past its date, and a fresh one that stands unopened."""
    name = desk.job.product(desk.job.section(int(desk.section)).adhesive).name
    stock.open_bottle(desk.job, name, "hardener", net_g=90.0, lot="A12-7X", best_before=date(2026, 4, 30))
    stock.buy_bottle(desk.job, name, "hardener", net_g=90.0, lot="B3", best_before=date(2027, 1, 1))
    changed(desk)


def owe_transfer(_stage: Any, desk: Any) -> None:
    """Have it still to be asked how pieces go over."""
    desk.keep_setting(TRANSFER_OWED, OWED)


def attached(stage: Any, desk: Any) -> None:
    """Look at a photo that was attached to the newest glue-up."""
    line = next(x for x in book_lines(desk.job) if x.section is not None and x.may_have_photo)
    y, x = np.mgrid[0:600, 0:800]
    pixels = np.stack([x * 255 // 800, y * 255 // 600, (x // 40 + y // 40) % 2 * 90 + 80], axis=2)
    attach.attach_photo(desk.job, line.seq, Picture(pixels.astype(np.uint8), None, "x"))
    changed(desk)
    stage.run(1)
    tap(stage, f"entry_{line.seq}")
    photographing.until(stage, "kept_photo")


def long_note(stage: Any, desk: Any) -> None:
    """Read a note that is longer than the page shows."""
    told = "The third sheet of blue is darker at its lower end: shadow from there, lights from its top. "
    record.note(desk.job, 12 * told)
    changed(desk)
    stage.run(1)
    tap(stage, f"entry_{book_lines(desk.job)[0].seq}")


def redrawn(_stage: Any, desk: Any) -> None:
    """Have a revised drawing of the panel among the documents; a section that lies dry stays."""
    dry.lay(desk.job, advise(desk.job).section)
    changed(desk)
    fresh = resource("assets", "demo", "lemons.svg").read_bytes().replace(b'data-glass="clear"', b"")
    (Path.home() / "Documents" / "redrawn.svg").write_bytes(fresh)


def another(_stage: Any, _desk: Any) -> None:
    """Have a panel of another tablet among the documents."""
    bundled(Path.home() / "Documents", name="another.zip")


def practise(stage: Any, desk: Any) -> None:
    desk.practise()
    stage.run(1)


def upto(step: str) -> tuple[Any, ...]:
    """Return the steps from the drawings to a step of the way from a picture to a panel."""
    return ("go open", lambda stage, desk: tracing.begin(stage, desk, "lemons", upto=step))


def _areas(stage: Any, desk: Any) -> None:
    tracing.begin(stage, desk, "study", upto="kind")
    stage.tap("kind_study")
    tracing.rest(stage)


to_areas = ("go open", _areas)


def tap_area(stage: Any, _desk: Any) -> None:
    areas.tap_area(stage, areas.LEMON)


def sized(stage: Any, desk: Any) -> None:
    """Say how large an empty panel is."""
    for name, keys in (("size_width", "200"), ("size_height", "160")):
        tap(stage, name)
        type_in(keys)(stage, desk)


def to_corners(stage: Any, desk: Any) -> None:
    """Go to the corners of a photo of section 1."""
    photo = photographing.photo_of(desk, 1)
    (Path.home() / "lay.jpg").write_bytes(photo.data)
    desk.go("dry", section=1)
    stage.frame(3)
    stage.tap("photograph")
    stage.tap("photo_lay")
    photographing.until(stage, "corner_name")


def to_pieces(stage: Any, desk: Any) -> None:
    members = desk.job.section(1).tesserae
    photographing.to_pieces(stage, desk, Path.home(), 1, missing=members[4:6])


def to_edge(stage: Any, desk: Any) -> None:
    """Go to the edge that is found in a photo of what is set."""
    set_section(desk.job, 1)
    changed(desk)
    photo = photo_of_set(desk.job.panel, edge.task_for(desk.job).tesserae.tolist())
    (Path.home() / "set.jpg").write_bytes(photo.data)
    desk.go("edge")
    stage.frame(3)
    stage.tap("photo_set")
    photographing.until(stage, "corner_name")
    stage.find("corners").corners = list(photo.corner_px)
    stage.tap("go_on")
    photographing.until(stage, "edge_keep")


def kept_photo(stage: Any, desk: Any) -> None:
    """Be at the glue with a photo of the lay beside the time."""
    number = advise(desk.job).section
    pixels = np.random.default_rng(0).integers(0, 256, (320, 420, 3), np.uint8)
    photograph(desk.job, number, 50, data=as_kept(Picture(pixels, None, "x")))
    desk.go("glueup", mix=start_mix(desk.job, number))
    changed(desk)
    stage.frame(4)
    stage.tap("step_spread")
    photographing.until(stage, "lay_photo")
