"""A disk that fails for good, from a moment on: the system itself refuses to write or to sync.

A filter in the kernel (seccomp, see its manual page seccomp(2) and the kernel's userspace-api/seccomp_filter)
lets chosen calls of this process return an error; nothing takes it off again, so it is for a child process.
Linux on x86-64 and ARM only. The numbers of the calls are from the kernel's tables.
"""

from __future__ import annotations

import ctypes
import errno
import platform
import struct
import subprocess
import sys
from functools import cache
from pathlib import Path

HOUSE = Path(__file__).parents[2]

# call: (x86-64, ARM 64)
_CALLS = {
    "pwrite64": (18, 68),
    "fsync": (74, 82),
    "fdatasync": (75, 83),
    "ftruncate": (77, 46),
    "fallocate": (285, 47),
}
FAILURES = {
    "full": (("pwrite64", "ftruncate", "fallocate"), errno.ENOSPC),
    "no sync": (("fsync", "fdatasync"), errno.EIO),
    "broken": (("pwrite64", "fsync", "fdatasync", "ftruncate"), errno.EIO),
}
_COLUMN = {"x86_64": 0, "aarch64": 1}.get(platform.machine())
_PR_SET_NO_NEW_PRIVS, _PR_SET_SECCOMP, _MODE_FILTER = 38, 22, 2
_LOAD, _JUMP_IF_EQUAL, _RETURN = 0x20, 0x15, 0x06
_ALLOW, _ERRNO = 0x7FFF0000, 0x00050000

class _Program(ctypes.Structure):
    _fields_ = (("length", ctypes.c_ushort), ("filter", ctypes.c_void_p))


def fail_from_now_on(how: str) -> None:
    """Let the disk fail in one of the ways of FAILURES, for the rest of this process."""
    calls, number = FAILURES[how]
    numbers = [_CALLS[call][_COLUMN] for call in calls]
    steps = [struct.pack("HBBI", _LOAD, 0, 0, 0)]  # the number of the call
    for k, call in enumerate(numbers):
        steps.append(struct.pack("HBBI", _JUMP_IF_EQUAL, len(numbers) - k, 0, call))
    steps.append(struct.pack("HBBI", _RETURN, 0, 0, _ALLOW))
    steps.append(struct.pack("HBBI", _RETURN, 0, 0, _ERRNO | number))
    code = ctypes.create_string_buffer(b"".join(steps))
    program = _Program(len(steps), ctypes.cast(code, ctypes.c_void_p))
    libc = ctypes.CDLL(None, use_errno=True)
    for arguments in (
        (_PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0),
        (_PR_SET_SECCOMP, _MODE_FILTER, ctypes.byref(program), 0, 0),
    ):
        if libc.prctl(*arguments) != 0:
            raise OSError(ctypes.get_errno(), "the kernel takes no filter")


def _takes_a_filter() -> bool:
    """Try it in a process that is thrown away: a machine within a machine may be forbidden to."""
    code = "from tests.fakes.failing_disk import fail_from_now_on; fail_from_now_on('no sync')"
    return subprocess.run([sys.executable, "-c", code], cwd=HOUSE, capture_output=True).returncode == 0


@cache
def can_fail() -> bool:
    """Tell whether a disk can be made to fail here."""
    return sys.platform == "linux" and _COLUMN is not None and _takes_a_filter()
