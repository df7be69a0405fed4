"""Lengths, areas, masses and temperatures in the units of their reader."""

import pytest

from bench.finish.units import Units

INCH = Units("inch", "F")


@pytest.mark.parametrize(
    ("told", "metric", "inches"),
    [
        (lambda u: u.side(304.8), "305 mm", "12.0 in"),
        (lambda u: u.size(304.8, 203.2), "305 × 203 mm", "12.0 × 8.0 in"),
        (lambda u: u.thickness(12.7), "12.7 mm", "0.50 in"),
        (lambda u: u.area(92903.04), "929 cm²", "144.0 in²"),  # a square foot, exact
        (lambda u: u.weight(4535.9237), "4.54 kg (10.0 lb)", "10.0 lb (4.54 kg)"),
        (lambda u: u.temperature(100), "100 °C", "212 °F"),
        (lambda u: u.temperature(-40), "-40 °C", "-40 °F"),
    ],
)
def test_each_is_told_in_both_systems(told, metric, inches):
    """The inch of 1959 is 25.4 mm; water boils at 212 °F, and both scales meet at 40 below."""
    assert (told(Units()), told(INCH)) == (metric, inches)
