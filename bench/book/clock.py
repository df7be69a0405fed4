"""Tell what time it is, in two ways that fail differently.

The wall clock says when something happened; people, time servers and daylight saving move it. The boot
clock counts the seconds since the machine was started, sleep included, and nobody can set it; it means
nothing once the machine has been started again, which the boot id tells.
"""

from __future__ import annotations

import os
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import Protocol
from uuid import uuid4

_LINUX_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


class Clock(Protocol):
    """What the countdown and the book ask of a clock."""

    def utc(self) -> datetime:
        """Return the wall clock, aware, in UTC."""

    def boot_s(self) -> float | None:
        """Return the time since the machine was started, sleep included, or None if unknown. [s]"""

    def boot_id(self) -> str | None:
        """Return a text that is the same until the machine is started again, or None if unknown."""


class SystemClock:
    """The clocks of this machine."""

    def __init__(self) -> None:
        self._boot_id: str | None = None

    def utc(self) -> datetime:
        return datetime.now(UTC)

    def boot_s(self) -> float | None:
        try:
            return _boot_s()
        except (AttributeError, OSError):
            return None

    def boot_id(self) -> str | None:
        """Return the system's own boot id; where there is none, an id that lives as long as this process.

        A process never outlives the boot it was started in, so within it the boot clock can be trusted;
        the next process finds another id, and the countdown calls itself unsure.
        """
        if self._boot_id is None:
            self._boot_id = _system_boot_id() or _PROCESS_ID
        return self._boot_id


_PROCESS_ID = f"process-{uuid4().hex}"


def _boot_s() -> float:
    if sys.platform == "win32":
        import ctypes

        ticks = ctypes.windll.kernel32.GetTickCount64
        ticks.restype = ctypes.c_ulonglong
        return float(ticks()) / 1000.0
    if sys.platform == "darwin":
        return time.clock_gettime(time.CLOCK_MONOTONIC)  # counts on through sleep there, unlike on Linux
    return time.clock_gettime(time.CLOCK_BOOTTIME)


def _system_boot_id() -> str | None:
    if sys.platform == "darwin":
        return _sysctl_text(b"kern.bootsessionuuid")
    try:
        return _LINUX_BOOT_ID.read_text(encoding="ascii").strip() or None
    except (OSError, ValueError):
        return None


def _sysctl_text(name: bytes) -> str | None:
    """Return a text that the system's kernel keeps under a name; None where it keeps none."""
    import ctypes

    try:
        sysctl = ctypes.CDLL(None, use_errno=True).sysctlbyname
    except (AttributeError, OSError):
        return None
    room = ctypes.create_string_buffer(256)
    size = ctypes.c_size_t(len(room))
    if sysctl(name, room, ctypes.byref(size), None, ctypes.c_size_t(0)) != 0:
        return None
    return os.fsdecode(room.value) or None
