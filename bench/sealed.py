"""Arrays as bytes behind their SHA-256, and back: of what was worked out once and may be lost at any time.

The seal, then the length of a JSON head that names each array with its kind and shape, then the arrays. A
start reads two such files: NumPy's own archive takes as long over each array as this over all.
"""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Mapping
from typing import Any

import numpy as np

_SEAL = hashlib.sha256().digest_size
_COUNT = 8  # bytes that tell how long the head is


def sealed_arrays(**arrays: Any) -> bytes:
    """Return named arrays as bytes."""
    whole = {name: np.asarray(array) for name, array in arrays.items()}
    head = json.dumps({name: [array.dtype.str, array.shape] for name, array in whole.items()}).encode()
    packed = b"".join([len(head).to_bytes(_COUNT), head, *(array.tobytes() for array in whole.values())])
    return hashlib.sha256(packed).digest() + packed


def arrays_of(data: bytes, kinds: Mapping[str, type]) -> dict[str, Any] | None:
    """Return the arrays in such bytes, each of the kind of number that is told for its name.

    None for anything else, and for bytes that were damaged.
    """
    packed = memoryview(data)[_SEAL:]
    if hashlib.sha256(packed).digest() != data[:_SEAL] or len(packed) < _COUNT:
        return None
    at = _COUNT + int.from_bytes(packed[:_COUNT])
    arrays = {}
    try:
        for name, (kind, shape) in json.loads(bytes(packed[_COUNT:at])).items():
            count = math.prod(shape)
            arrays[name] = np.frombuffer(packed, kind, count, at).reshape(shape).copy()
            at += arrays[name].nbytes
    except (ValueError, TypeError, AttributeError):
        return None
    whole = arrays.keys() == kinds.keys() and all(arrays[name].dtype == kinds[name] for name in kinds)
    return arrays if whole else None
