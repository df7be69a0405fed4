"""A test of what is said may speak as it likes: English is spoken again after it."""

from collections.abc import Iterator

import pytest

from bench.speech import Tongue, speak, tongue


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    before = tongue()
    yield
    speak(before)


@pytest.fixture
def german() -> None:
    """Speak German."""
    speak(Tongue("de"))
