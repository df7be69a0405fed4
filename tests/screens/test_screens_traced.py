"""The lines between sections are kept beside the book, and believed only for what they are of."""

from pathlib import Path

import numpy as np
import pytest

from bench.book.readings import Readings
from bench.screens.picture import traced
from bench.screens.picture.traced import Border, Traced
from tests.fakes.panels import blocks, courses

PANEL = courses(12, 8)
LABEL = (blocks(PANEL, 3, 2) - 1).astype(np.int32)
WHOLE = np.zeros_like(LABEL)


def told(borders: list[Border]) -> list[tuple[object, ...]]:
    return [(b.points_mm.tolist(), b.left, b.right, b.closed) for b in borders]


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """What was drawn anew, map after map."""
    panels: list[object] = []
    true = traced.tessera_map

    def counted(panel):
        panels.append(panel)
        return true(panel)

    monkeypatch.setattr(traced, "tessera_map", counted)
    return panels


def files(folder: Path, kind: str) -> list[Path]:
    return sorted(folder.glob(f"*.{kind}"))


def test_what_was_kept_is_what_was_found_and_needs_no_map(tmp_path: Path, drawn: list[object]) -> None:
    for label in (LABEL, WHOLE, np.full_like(LABEL, -1)):
        found = told(Traced(PANEL, Readings(tmp_path)).borders(label, keep=True))
        drawn.clear()
        for path in files(tmp_path, "map"):
            path.unlink()
        assert told(Traced(PANEL, Readings(tmp_path)).borders(label)) == found
        assert drawn == []


def test_a_map_that_was_kept_is_the_same_map(tmp_path: Path, drawn: list[object]) -> None:
    found = Traced(PANEL, Readings(tmp_path)).map
    again = Traced(PANEL, Readings(tmp_path)).map
    assert np.array_equal(again.at, found.at)
    assert (again.at.dtype, again.px_per_mm) == (found.at.dtype, found.px_per_mm)
    assert drawn == [PANEL]


def test_another_division_and_another_panel_find_their_own_lines(tmp_path: Path) -> None:
    Traced(PANEL, Readings(tmp_path)).borders(LABEL, keep=True)
    other, wide = (LABEL + 1) % 6, courses(12, 9)
    of_wide = (blocks(wide, 3, 2) - 1).astype(np.int32)
    for panel, label in ((PANEL, other), (PANEL, WHOLE), (wide, of_wide)):
        assert told(Traced(panel, Readings(tmp_path)).borders(label)) == told(Traced(panel).borders(label))


def test_only_what_is_to_be_kept_takes_the_place_of_what_was(tmp_path: Path) -> None:
    Traced(PANEL, Readings(tmp_path)).borders(LABEL, keep=True)
    (path,) = files(tmp_path, "lines")
    before = path.read_bytes()
    Traced(PANEL, Readings(tmp_path)).borders(WHOLE)
    assert path.read_bytes() == before
    Traced(PANEL, Readings(tmp_path)).borders(WHOLE, keep=True)
    assert path.read_bytes() != before
    assert files(tmp_path, "lines") == [path]


@pytest.mark.parametrize("kind", ["map", "lines"])
@pytest.mark.parametrize(
    "spoil", [lambda data: b"", lambda data: data[:-9], lambda data: data[:50] + b"!" + data[51:]]
)
def test_what_is_spoiled_is_found_anew(tmp_path: Path, kind: str, spoil) -> None:
    found = told(Traced(PANEL, Readings(tmp_path)).borders(LABEL, keep=True))
    (path,) = files(tmp_path, kind)
    path.write_bytes(spoil(path.read_bytes()))
    if kind == "map":
        files(tmp_path, "lines")[0].unlink()
    assert told(Traced(PANEL, Readings(tmp_path)).borders(LABEL)) == found


def test_the_lines_of_one_panel_under_the_name_of_another_with_as_many_pieces_are_not_asked_for(
    tmp_path: Path,
) -> None:
    """A panel is named by its outlines: moved by a tenth of a millimetre it is another."""
    Traced(PANEL, Readings(tmp_path)).borders(LABEL, keep=True)
    names = {path.name for path in tmp_path.iterdir()}
    moved = courses(12, 8)
    object.__setattr__(moved, "points_mm", moved.points_mm + 0.1)
    Traced(moved, Readings(tmp_path)).borders(LABEL, keep=True)
    assert len({path.name for path in tmp_path.iterdir()} - names) == 2
