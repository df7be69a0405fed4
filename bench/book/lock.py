"""Let one program at a time write a book.

The system drops the lock when the program ends, however it ends, so that nothing stale is left behind.
"""

from __future__ import annotations

import errno
import os
import sys
from pathlib import Path

from bench.book.faults import InUse, NotWritable

LOCK_NAME = "potwatch.lock"
_TAKEN = {errno.EACCES, errno.EAGAIN, errno.EDEADLK}
_NO_LOCKS_HERE = {errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL}


class FolderLock:
    """Hold `potwatch.lock` in a folder until released.

    Raises InUse where another program holds it, NotWritable where the folder cannot be written. On a
    file system without locks it holds nothing; SQLite's own locks are then all there is.
    """

    def __init__(self, folder: Path) -> None:
        try:
            self._file: int | None = os.open(folder / LOCK_NAME, os.O_RDWR | os.O_CREAT, 0o600)
            if os.name == "posix" and os.fstat(self._file).st_mode & 0o777 != 0o600:
                os.fchmod(self._file, 0o600)
        except OSError as error:
            raise NotWritable(str(folder), error.strerror or str(error)) from error
        try:
            _take(self._file)
        except OSError as error:
            if error.errno in _NO_LOCKS_HERE:
                return
            self.release()
            if error.errno in _TAKEN:
                raise InUse(str(folder)) from error
            raise NotWritable(str(folder), error.strerror or str(error)) from error

    def release(self) -> None:
        """Let the next program in; a second call does nothing."""
        if self._file is not None:
            os.close(self._file)
            self._file = None


def _take(file: int) -> None:
    if sys.platform == "win32":
        import msvcrt

        msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
