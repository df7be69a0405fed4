"""Files are written whole or not at all, one or several: a disk that fills up leaves what was there."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from bench import whole
from bench.whole import CannotWrite, write_file, write_folder

ROOT = Path(__file__).parents[1]


class Full:
    """A disk that has room for so many writes, then none."""

    def __init__(self, opened, room):
        self._opened, self.room = opened, room

    def __call__(self, handle, mode):
        out = self._opened(handle, mode)
        write, full = out.write, self

        class Writer:
            def __enter__(self):
                return self

            def __exit__(self, *_):
                out.close()

            def write(self, data):
                full.room -= 1
                if full.room < 0:
                    write(data[: len(data) // 2])
                    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
                write(data)

            def flush(self):
                out.flush()

            def fileno(self):
                return out.fileno()

        return Writer()


@pytest.fixture
def full(monkeypatch):
    def fill(room: int) -> None:
        monkeypatch.setattr(whole.os, "fdopen", Full(os.fdopen, room))

    return fill


def test_a_disk_that_is_full_in_the_middle_leaves_what_was_there(tmp_path, full):
    path = tmp_path / "record.pdf"
    path.write_bytes(b"before")
    full(0)
    with pytest.raises(CannotWrite, match="No space left on device"):
        write_file(path, b"x" * 10_000)
    assert path.read_bytes() == b"before"
    assert [p.name for p in tmp_path.iterdir()] == ["record.pdf"]


@pytest.mark.parametrize("room", [0, 1, 2])
def test_of_several_files_all_are_written_or_none(tmp_path, full, room):
    full(room)
    with pytest.raises(CannotWrite):
        write_folder(tmp_path / "tables", {f"{k}.csv": b"y" * 5000 for k in range(3)})
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_was_there_keeps_what_others_wrote_into_it(tmp_path, full):
    (tmp_path / "note.txt").write_text("mine")
    (tmp_path / "0.csv").write_text("old")
    full(1)
    with pytest.raises(CannotWrite):
        write_folder(tmp_path, {"0.csv": b"new", "1.csv": b"new"})
    assert {p.name: p.read_text() for p in tmp_path.iterdir()} == {"note.txt": "mine", "0.csv": "old"}


def test_several_files_go_into_a_folder_made_for_them(tmp_path):
    write_folder(tmp_path / "a" / "b", {"one": b"1", "two": b"2"})
    assert {p.name: p.read_bytes() for p in (tmp_path / "a" / "b").iterdir()} == {"one": b"1", "two": b"2"}


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="a limit on the size of files")
def test_a_process_that_may_write_no_more_leaves_no_half_file(tmp_path):
    """The system's own limit, RLIMIT_FSIZE, cuts a true write short."""
    program = (
        "import resource, sys; from pathlib import Path; from bench.whole import *\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))\n"
        "try: write_file(Path(sys.argv[1]), b'z' * 100_000)\n"
        "except CannotWrite as fault: print(fault)\n"
    )
    path = tmp_path / "record.pdf"
    done = subprocess.run(
        [sys.executable, "-c", program, str(path)], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert "record.pdf: cannot be written (File too large)" in done.stdout
    assert done.stdout.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_is_told(tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(CannotWrite, match="Permission denied"):
        write_file(tmp_path / "record.pdf", b"x")


def test_a_file_where_a_folder_is_wanted_is_told(tmp_path):
    (tmp_path / "file").write_text("mine")
    for act in (lambda p: whole.make_folder(p), lambda p: write_folder(p, {"a": b""})):
        with pytest.raises(CannotWrite) as caught:
            act(tmp_path / "file" / "deeper")
        assert "\n" not in str(caught.value)
    assert (tmp_path / "file").read_text() == "mine"
