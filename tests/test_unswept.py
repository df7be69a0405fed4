"""The collector rests where it is told to, and is then as it was."""

import gc

import pytest

from bench.unswept import unswept


def test_it_rests_within_and_not_after():
    with unswept():
        assert not gc.isenabled()
        with unswept():
            assert not gc.isenabled()
        assert not gc.isenabled()
    assert gc.isenabled()


def test_it_is_as_it_was_after_a_mistake():
    with pytest.raises(ValueError, match="mistake"), unswept():
        raise ValueError("mistake")
    assert gc.isenabled()


def test_where_it_rested_before_it_rests_after():
    gc.disable()
    try:
        with unswept():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
