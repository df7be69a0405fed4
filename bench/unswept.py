"""Keep Python's collector from looking again and again through what is being built to stay."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def unswept() -> Iterator[None]:
    """Within, or in a function decorated with it, look for no unreachable cycles; afterwards as it was.

    The collector looks through all that lives each time it has grown by a quarter (docs.python.org, gc):
    where tens of thousands of entries are read that all stay, that is half the time, and finds nothing.
    """
    if not gc.isenabled():
        yield
        return
    gc.disable()
    try:
        yield
    finally:
        gc.enable()
