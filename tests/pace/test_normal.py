"""The normal distribution, its mixtures and the root finder, against scipy."""

import math

import numpy as np
import pytest

from bench.pace.mixture import Mixture, log_variance_nodes
from bench.pace.normal import cdf, log_tail
from bench.pace.root import crossing


def test_cdf_and_log_tail_agree_with_scipy():
    """scipy.stats.norm."""
    from scipy import stats

    z = np.concatenate([np.linspace(-60, 60, 4001), np.random.default_rng(1).normal(size=500)])
    assert cdf(z).tolist() == pytest.approx(stats.norm.cdf(z).tolist(), abs=1e-8)
    found, expected = log_tail(z), stats.norm.logsf(z)
    assert np.abs(found - expected).max() < 1e-5
    near = z < 37
    assert np.abs(found - expected)[near].max() < 1e-8


@pytest.mark.parametrize("alpha", [0.5, 2.0, 4.5, 30.0, 250.0])
def test_a_normal_of_inverse_gamma_variance_is_students_t(alpha):
    """scipy.stats.t with 2α degrees of freedom."""
    from scipy import stats

    log_variance, weight = log_variance_nodes(alpha, 0.05 * alpha, nodes=61)
    one = Mixture(np.array([1.0]), np.exp(0.5 * log_variance)[None], weight)
    t = stats.t(2 * alpha, 1.0, math.sqrt(0.05))
    x = np.linspace(-1, 3, 41)
    assert one.cdf(x[None])[0].tolist() == pytest.approx(t.cdf(x).tolist(), abs=2e-4 if alpha < 1 else 1e-6)
    found = [one.quantile(p) for p in (0.1, 0.5, 0.9)]
    assert found == pytest.approx(t.ppf([0.1, 0.5, 0.9]).tolist(), abs=2e-3 if alpha < 1 else 1e-5)


@pytest.mark.parametrize(
    ("function", "low", "high", "root"),
    [
        (lambda x: x**3 - 2, 0.0, 8.0, 2 ** (1 / 3)),
        (lambda x: 0.1 - math.exp(-x), 0.0, 100.0, math.log(10)),
        (lambda x: math.copysign(1.0, 3 - x), 0.0, 10.0, 3.0),
        (lambda x: 5 - x, 5.0, 9.0, 5.0),
        (lambda x: 9 - x, 5.0, 9.0, 9.0),
    ],
)
def test_a_crossing_is_found_from_the_side_of_the_lower_end(function, low, high, root):
    found = crossing(function, low, high)
    assert root - 1e-8 <= found <= root + 1e-12
