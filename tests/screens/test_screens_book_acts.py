"""The keys beside the book: even rows at every size, while a mix runs as well."""

from itertools import groupby

import pytest

from bench.screens.offscreen import Stage
from tests.fakes.benches import changed
from tests.fakes.gloves import complaints
from tests.fakes.gluing import gluing, minutes
from tests.gallery.views import View

KEYS = ("some", "find", "write_note", "bundle", "what_it_learned", "backups", "cup_went", "weigh_cup", "undo")


def rows_of(stage: Stage, names) -> list[list]:
    """Return the keys that are shown, row by row from the top."""
    shown = [stage.find(name) for name in names if name in stage.names()]
    by_row = sorted(shown, key=lambda key: (-round(key.top), key.x))
    return [list(row) for _, row in groupby(by_row, key=lambda key: round(key.top))]


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        minutes(stage, 3)
        desk.go("book")
        changed(desk)
        yield desk
        View("1280x800").take(stage)


@pytest.mark.parametrize(("size", "most"), [("1280x800", 2), ("1024x600", 3), ("800x1280", 4)])
@pytest.mark.parametrize("scale", [1.0, 1.5])
def test_rows_are_as_wide_as_each_other_while_a_mix_runs(
    stage: Stage, desk, size: str, most: int, scale: float
) -> None:
    View(size, text=scale).take(stage)
    rows = rows_of(stage, KEYS)
    assert max(map(len, rows)) <= (most if scale == 1.0 else most + 1)
    assert len({(round(row[0].x), round(row[-1].right)) for row in rows}) == 1
    assert complaints(stage) == {}


def test_what_cannot_be_done_gives_its_room_where_there_is_little_height(stage: Stage, desk) -> None:
    assert "bundle" not in stage.names()
    View("800x1280").take(stage)
    assert stage.find("bundle").disabled
