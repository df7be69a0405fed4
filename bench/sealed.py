"""Arrays as bytes behind their SHA-256, and back: of what was worked out once and may be lost at any time."""

from __future__ import annotations

import hashlib
import io
import zipfile
from collections.abc import Mapping
from typing import Any

import numpy as np

_SEAL = hashlib.sha256().digest_size


def sealed_arrays(**arrays: Any) -> bytes:
    """Return named arrays as bytes."""
    out = io.BytesIO()
    np.savez(out, **arrays)
    return _sealed(out.getvalue())


def arrays_of(data: bytes, kinds: Mapping[str, type]) -> dict[str, Any] | None:
    """Return the arrays in such bytes, each of the kind of number that is told for its name.

    None for anything else, and for bytes that were damaged.
    """
    packed = data[_SEAL:]
    if _sealed(packed) != data:
        return None
    try:
        with np.load(io.BytesIO(packed), allow_pickle=False) as found:
            arrays = {name: found[name] for name in kinds}
    except (ValueError, KeyError, TypeError, OSError, EOFError, zipfile.BadZipFile):
        return None
    return arrays if all(arrays[name].dtype == kind for name, kind in kinds.items()) else None


def _sealed(packed: bytes) -> bytes:
    return hashlib.sha256(packed).digest() + packed
