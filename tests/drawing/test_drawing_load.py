"""A drawing is read from disk, or it is said why not."""

from pathlib import Path

import pytest

from bench.drawing import faults as f
from bench.drawing import load as loading
from bench.drawing.load import load_drawing
from tests.fakes.shapes import page, square

DATA = page(square(0, 0))


def test_the_file_comes_back_as_it_is_beside_its_panel(tmp_path):
    path = tmp_path / "bowl of lemons.svg"
    path.write_bytes(DATA)
    data, panel = load_drawing(path, width_mm=50)
    assert data == DATA
    assert panel.name == "bowl of lemons.svg"
    assert panel.width_mm == 50


def test_no_file(tmp_path):
    with pytest.raises(f.DrawingMissing, match=r"none\.svg: there is no such file; check the name"):
        load_drawing(tmp_path / "none.svg")


def test_a_folder(tmp_path):
    with pytest.raises(f.DrawingIsNoFile, match="a folder or a device"):
        load_drawing(tmp_path)


def test_a_device_is_not_read_for_ever():
    with pytest.raises(f.DrawingIsNoFile):
        load_drawing(Path("/dev/zero"))


def test_an_empty_file(tmp_path):
    (tmp_path / "a.svg").touch()
    with pytest.raises(f.DrawingEmpty):
        load_drawing(tmp_path / "a.svg")


def test_a_file_that_is_too_large(tmp_path, monkeypatch):
    monkeypatch.setattr(loading, "MOST_BYTES", 100)
    (tmp_path / "a.svg").write_bytes(DATA)
    with pytest.raises(f.DrawingTooLarge, match="larger than"):
        load_drawing(tmp_path / "a.svg")


def test_a_file_that_may_not_be_opened(tmp_path, monkeypatch):
    path = tmp_path / "a.svg"
    path.write_bytes(DATA)

    def refuse(self, *args):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", refuse)
    with pytest.raises(f.DrawingUnreadable, match="Permission denied"):
        load_drawing(path)


@pytest.mark.parametrize("name", ["a\0b.svg", "x" * 5000])
def test_a_name_that_no_file_can_have(tmp_path, name):
    with pytest.raises((f.DrawingMissing, f.DrawingUnreadable)):
        load_drawing(tmp_path / name)
