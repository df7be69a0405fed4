"""The machine's own clocks, and where the book is kept."""

import subprocess
import sys
import time
from datetime import timedelta
from pathlib import Path

import pytest

from bench.book import clock as clock_module
from bench.book.clock import SystemClock
from bench.book.home import data_folder


def test_the_wall_clock_knows_its_time_zone():
    assert SystemClock().utc().utcoffset() == timedelta(0)


@pytest.mark.skipif(sys.platform != "linux", reason="/proc/uptime is Linux's")
def test_the_boot_clock_agrees_with_the_uptime_the_kernel_tells():
    """/proc/uptime, field 1, is seconds since boot, sleep included: proc(5)."""
    told_s = float(Path("/proc/uptime").read_text().split()[0])
    assert SystemClock().boot_s() == pytest.approx(told_s, abs=2.0)


def test_the_boot_clock_goes_on():
    clock = SystemClock()
    before_s = clock.boot_s()
    time.sleep(0.02)
    assert clock.boot_s() - before_s >= 0.02


@pytest.mark.skipif(sys.platform != "linux", reason="reads the kernel's own boot id")
def test_two_processes_of_one_boot_agree_on_its_id():
    told = subprocess.run(
        [sys.executable, "-c", "from bench.book.clock import SystemClock; print(SystemClock().boot_id())"],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    ).stdout.strip()
    assert told == SystemClock().boot_id()


def test_a_system_without_boot_id_gets_one_that_lives_as_long_as_the_process(monkeypatch, tmp_path):
    monkeypatch.setattr(clock_module, "_LINUX_BOOT_ID", tmp_path / "none")
    monkeypatch.setattr(clock_module.sys, "platform", "linux")
    assert SystemClock().boot_id() == SystemClock().boot_id()
    assert SystemClock().boot_id().startswith("process-")


def test_a_system_without_boot_clock_says_so(monkeypatch):
    monkeypatch.delattr(clock_module.time, "CLOCK_BOOTTIME", raising=False)
    monkeypatch.setattr(clock_module.sys, "platform", "linux")
    assert SystemClock().boot_s() is None


def test_the_book_is_kept_where_potwatch_home_says(monkeypatch, tmp_path):
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "shed"))
    assert data_folder() == tmp_path / "shed"


def test_a_tilde_in_potwatch_home_is_the_users_home(monkeypatch, tmp_path):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    monkeypatch.setenv("POTWATCH_HOME", "~/shed")
    assert data_folder() == tmp_path / "shed"


@pytest.mark.parametrize("value", [None, "", "  "])
def test_without_potwatch_home_the_book_is_in_the_users_data_folder(monkeypatch, tmp_path, value):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv("POTWATCH_HOME", raising=False)
    if value is not None:
        monkeypatch.setenv("POTWATCH_HOME", value)
    folder = data_folder()
    assert folder.name == "potwatch"
    assert not folder.exists()
    if sys.platform == "linux":  # the XDG base directory specification: $XDG_DATA_HOME
        assert folder == tmp_path / "data" / "potwatch"
