"""The conjugate core, held against a published gamma update of the same precision."""

import numpy as np
import pytest

from bench.pace.mixture import log_variance_nodes
from bench.pace.moments import NormalInverseGamma, posterior


def seen(count: int, squares: float) -> np.ndarray:
    """Return the moments of so many log times about the prior's own middle, with this sum of squares."""
    moments = np.zeros((4, 4))
    moments[0, 0], moments[3, 3] = count, squares
    return moments


@pytest.mark.parametrize(
    ("events", "exposure", "shape", "rate", "mean", "above_one"),
    [(3, 2, 6, 7, 0.857, 0.30), (30, 20, 33, 25, 1.32, 0.93)],
)
def test_precision_is_updated_as_bda3_updates_a_rate(events, exposure, shape, rate, mean, above_one):
    """Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.6, asthma deaths: Gamma(3, 5) and y = 3 with
    exposure 2 give Gamma(6, 7), mean 0.86, P(θ > 1) = 0.30; ten years of the same Gamma(33, 25), 1.32, 0.93.

    Our precision 1/σ² is a gamma variable too: 2y normal log times with squares of 2x do to it what y deaths
    in an exposure of x do to the rate.
    """
    found = posterior(seen(2 * events, 2.0 * exposure), NormalInverseGamma(0.0, 1e9, 3.0, 5.0)).nig
    assert (found.alpha, found.beta) == pytest.approx((shape, rate))
    log_variance, weight = log_variance_nodes(found.alpha, found.beta, nodes=4001)
    precision = np.exp(-log_variance)
    assert weight @ precision == pytest.approx(mean, abs=0.005)
    assert weight @ (precision > 1) == pytest.approx(above_one, abs=0.005)
