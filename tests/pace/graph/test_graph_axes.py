"""Axes: round ticks, and from a value to a place."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.pace.graph import axis_over

values = st.floats(-1e6, 1e6).map(lambda v: round(v, 3))


def test_ticks_by_hand():
    """0 to 7.3 with at most six ticks: every 2; 18 to 26 °C with nine: every one."""
    assert axis_over(0.0, 7.3, most=6).ticks == (0, 2, 4, 6, 8)
    assert axis_over(0.0, 7.3, most=6).labels == ("0", "2", "4", "6", "8")
    assert axis_over(18.0, 26.0, most=9).labels == tuple(str(n) for n in range(18, 27))
    assert axis_over(0.0, 0.5, most=6).labels == ("0.0", "0.1", "0.2", "0.3", "0.4", "0.5")


def test_a_place_by_hand():
    axis = axis_over(0.0, 10.0, most=6).laid(100.0, 300.0)
    assert (axis.place(0.0), axis.place(5.0), axis.place(10.0)) == (100.0, 200.0, 300.0)


def test_one_value_alone_lies_in_the_middle():
    axis = axis_over(21.0, 21.0, most=7, least_span=6.0, to_ticks=False)
    assert axis.place(21.0) == pytest.approx(0.5)


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_what_is_not_finite_is_refused(bad):
    with pytest.raises(ValueError, match="cannot be"):
        axis_over(0.0, bad, most=5)


@given(values, values, st.integers(2, 15), st.booleans(), st.booleans())
def test_ticks_are_round_few_and_within_and_the_values_too(a, b, most, whole, to_ticks):
    axis = axis_over(a, b, most=most, whole=whole, to_ticks=to_ticks, least_span=0.01)
    assert axis.low <= min(a, b) + 1e-6
    assert axis.high >= max(a, b) - 1e-6
    assert len(axis.ticks) <= most + 1
    assert all(axis.low - 1e-6 <= tick <= axis.high + 1e-6 for tick in axis.ticks)
    if len(axis.ticks) > 1:
        step = axis.ticks[1] - axis.ticks[0]
        digit = step / 10 ** math.floor(math.log10(step) + 1e-9)
        assert min(abs(digit - d) for d in (1, 2, 5, 10)) < 1e-6
        assert step > 0.999 or not whole
    assert len(set(axis.labels)) == len(axis.labels)
