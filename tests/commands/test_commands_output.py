"""Where results are written: files whole or not at all, devices and links left what they are."""

import io
import json
import os
import sys

import pytest

from bench.commands.output import CannotWrite, write_file
from tests.fakes.drawings import grid_svg


def test_a_link_keeps_pointing_where_it_did(tmp_path):
    true = tmp_path / "true.json"
    true.write_text("before")
    link = tmp_path / "link.json"
    link.symlink_to(true)
    write_file(link, b"after")
    assert link.is_symlink()
    assert true.read_text() == "after"


def test_a_pipe_is_written_to_and_stays_a_pipe(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    try:
        write_file(pipe, b"through")
        assert os.read(reader, 100) == b"through"
    finally:
        os.close(reader)
    assert pipe.is_fifo()


def test_a_pipe_that_nobody_reads_is_an_error_and_no_wait_without_end(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(CannotWrite) as caught:
        write_file(pipe, b"lost")
    assert caught.value.path == pipe
    assert pipe.is_fifo()


def test_a_folder_is_refused_and_nothing_is_left_beside_it(tmp_path):
    (tmp_path / "folder").mkdir()
    with pytest.raises(CannotWrite):
        write_file(tmp_path / "folder", b"x")
    assert [p.name for p in tmp_path.iterdir()] == ["folder"]


def test_a_terminal_of_plain_ascii_gets_the_plan_with_signs_it_has(run, tmp_path, monkeypatch):
    drawing = tmp_path / "grid.svg"
    drawing.write_bytes(grid_svg(8, 6))
    plain = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", plain)
    code, _, _ = run("plan", drawing, "--pace", 5)
    plain.flush()
    assert code == 0
    assert b"48 tesserae" in plain.buffer.getvalue()


def test_json_on_a_terminal_of_plain_ascii_keeps_every_sign(run, tmp_path, monkeypatch):
    drawing = tmp_path / "lemon.svg"
    drawing.write_text(
        "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='40mm' viewBox='0 0 40 40'>"
        "<rect id='zitrone-ü' x='5' y='5' width='8' height='8' fill='#dd0'/></svg>",
        encoding="utf-8",
    )
    plain = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", plain)
    code, _, _ = run("plan", drawing, "--pace", 5, "--json", "-")
    plain.flush()
    assert code == 0
    assert [t["id"] for t in json.loads(plain.buffer.getvalue())["tesserae"]] == ["zitrone-ü"]
