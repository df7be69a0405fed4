"""Log-normal fits of censored times against published and independent ones."""

import numpy as np
import pytest

from bench.pace.censored import TooFewToFit, fit_censored

# Hooper & Amster, in Meeker & Escobar, Statistical Methods for Reliability Data (1998), example 19.5,
# "Device A": hours to failure at three temperatures [K]; all others, and 30 at 283.15 K, ran 5000 h.
DEVICE_A = {
    313.15: ([1298, 1390, 3187, 3241, 3261, 3313, 4501, 4568, 4841, 4982], 90),
    333.15: ([581, 925, 1432, 1586, 2452, 2734, 2772, 4106, 4674], 11),
    353.15: ([283, 361, 515, 638, 854, 1024, 1030, 1045, 1767, 1777, 1856, 1951, 1964, 2884], 1),
    283.15: ([], 30),
}


def test_device_a_gives_the_published_temperature_law():
    """Meeker & Escobar: log-normal, μ = −13.469 + 0.6279·11605/T, σ = 0.9778, log-likelihood −321.70."""
    time, exact, kelvin = [], [], []
    for temperature, (failures, held) in DEVICE_A.items():
        time += failures + [5000] * held
        exact += [True] * len(failures) + [False] * held
        kelvin += [temperature] * (len(failures) + held)
    x = np.column_stack([np.ones(len(time)), 11605 / np.array(kelvin)])
    fit = fit_censored(x, np.array(time, dtype=float), np.array(exact))
    assert fit.coefficient.tolist() == pytest.approx([-13.469, 0.6279], rel=1e-3)
    assert fit.sd == pytest.approx(0.9778, rel=1e-3)
    assert fit.log_likelihood == pytest.approx(-321.70, abs=0.01)


def test_lung_survival_gives_the_fit_of_lifelines():
    """lifelines, load_lung, log-normal: μ 5.6633, σ 1.0976, log-likelihood −1169.269."""
    from lifelines.datasets import load_lung

    lung = load_lung()
    time, exact = lung["T" if "T" in lung else "time"], lung["E" if "E" in lung else "status"]
    dead = (exact == exact.max()).to_numpy()
    fit = fit_censored(np.ones((len(time), 1)), time.to_numpy(dtype=float), dead)
    assert (fit.coefficient[0], fit.sd, fit.log_likelihood) == pytest.approx(
        (5.6633, 1.0976, -1169.269), abs=1e-4
    )


def test_without_censoring_it_is_least_squares():
    """numpy.linalg.lstsq; the maximum likelihood of σ divides by n."""
    rng = np.random.default_rng(5)
    x = np.column_stack([np.ones(40), rng.normal(size=40)])
    y = x @ [1.0, -0.4] + 0.3 * rng.normal(size=40)
    expected, squares, *_ = np.linalg.lstsq(x, y, rcond=None)
    fit = fit_censored(x, np.exp(y), np.ones(40, dtype=bool))
    assert fit.coefficient.tolist() == pytest.approx(expected.tolist(), abs=1e-8)
    assert fit.sd == pytest.approx(np.sqrt(squares[0] / 40))
    assert np.sqrt(np.diag(fit.covariance)[:2]) == pytest.approx(
        fit.sd * np.sqrt(np.diag(np.linalg.inv(x.T @ x))), rel=1e-6
    )


def test_too_few_exact_times_are_told():
    with pytest.raises(TooFewToFit, match="1 exact times cannot tell"):
        fit_censored(np.ones((5, 1)), np.arange(1.0, 6.0), np.array([True, False, False, False, False]))
