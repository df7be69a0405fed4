"""The short form of the load campaign: the ladders can be climbed, and the slope is that of the figures."""

import pytest

from tests.campaigns.load import LADDERS, climb, exponent


@pytest.mark.parametrize("power", [0.5, 1.0, 2.0])
def test_the_exponent_is_the_slope_of_a_power_law(power):
    sizes = [10, 30, 100, 300]
    assert exponent(sizes, [0.01 * size**power for size in sizes]) == pytest.approx(power)


def test_what_takes_no_time_has_no_exponent():
    assert exponent([10, 100], [0.0, 0.004]) is None


@pytest.mark.slow
@pytest.mark.parametrize("name", LADDERS)
def test_each_ladder_measures_all_that_it_names_at_every_size(tmp_path, name):
    sizes = {"tesserae": [64, 196], "entries": [60, 240], "panels": [2, 5]}[name]
    rows, counted = climb(tmp_path, name, sizes)
    assert len(rows) > 6
    assert all(len(seconds) == 2 and min(seconds) >= 0 for _, seconds, _ in rows)
    assert sum(seconds[-1] for _, seconds, _ in rows) > 0
    assert all(least < most for least, most in counted.values())
    assert list(counted) == {"tesserae": ["sections"], "entries": ["entries found"], "panels": []}[name]
