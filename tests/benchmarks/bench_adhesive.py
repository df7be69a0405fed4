"""A batch with its heat curve, beside scipy's solve_ivp on the same equations; and many random batches.

Run: python -m tests.benchmarks.bench_adhesive
"""

import math
import time
from collections.abc import Callable
from statistics import median

import numpy as np
from scipy.integrate import solve_ivp

from bench.adhesive import (
    Scale,
    cautions,
    exotherm,
    find_product,
    heat,
    kettle,
    ladder,
    prescribe,
    shipped_products,
    working_time_s,
)

REPEATS = 30


def seconds(work: Callable[[], object]) -> float:
    """Return the median time of one call. [s]"""
    taken = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return median(taken)


def peer(cup: kettle.Kettle, until_s: float, method: str) -> object:
    """Return scipy's solution of the same cup, to its usual sixth digit."""

    def slope(_: float, state: np.ndarray) -> tuple[float, float]:
        alpha, kelvin = state
        speed = math.exp(cup.activation_K * (1 / cup.reference_K - 1 / kelvin))
        rate = cup.rate_per_s * (1 + kettle.AUTOCATALYSIS * alpha) * (1 - alpha) * speed
        return rate, cup.rise_K * rate - cup.cooling_per_s * (kelvin - cup.room_K)

    return solve_ivp(slope, (0, until_s), (0.0, cup.start_K), method=method, rtol=1e-6, atol=1e-8)


def against_solve_ivp() -> None:
    paste = find_product("white-paste")
    for mass_g in (8.0, 100.0):
        curve = exotherm(paste, mass_g=mass_g, temperature_C=25)
        cup = heat.kettle_of(paste, mass_g=mass_g, temperature_C=25)

        def whole_batch(mass_g: float = mass_g) -> None:
            kettle.fitted_rate_per_s.cache_clear()
            batch = prescribe(paste, bed_area_mm2=5000)
            ladder(paste, batch, Scale())
            working_time_s(paste, temperature_C=25, mass_g=mass_g)
            exotherm(paste, mass_g=mass_g, temperature_C=25)

        ours = seconds(whole_batch)
        print(f"{mass_g:5.0f} g: batch, fit, working time and curve {ours * 1e3:6.2f} ms")
        for method in ("RK45", "LSODA"):
            theirs = seconds(lambda method=method, cup=cup, curve=curve: peer(cup, curve.time_s[-1], method))
            print(f"         solve_ivp {method:5} {theirs * 1e3:6.2f} ms   ratio {ours / theirs:5.2f}")


def many_batches(count: int = 10_000, seed: int = 0) -> None:
    """Prescribe random batches and check what must hold of each; a breach ends the run."""
    rng = np.random.default_rng(seed)
    products = [find_product(stem) for stem in shipped_products()]
    start = time.perf_counter()
    for _ in range(count):
        product = products[rng.integers(len(products))]
        scale = Scale(float(rng.choice([0.01, 0.1, 1.0])), bool(rng.integers(2)))
        low_C, high_C = product.range_C
        room_C = float(rng.uniform(low_C, high_C))
        batch = prescribe(product, bed_area_mm2=float(rng.uniform(50, 30_000)), scale=scale)
        label_s = product.working_time.minutes * 60
        lasts_s = working_time_s(product, temperature_C=room_C, mass_g=batch.total_g)
        groups = cautions(product, temperature_C=room_C, mass_g=batch.total_g, first_today=True)
        if batch.resin_g + batch.hardener_g != batch.total_g:
            raise SystemExit(f"mass balance: {batch}")
        if not 0 < lasts_s <= label_s or not groups:
            raise SystemExit(f"working time {lasts_s} of {label_s} s: {batch}")
        if batch.scale_ok != (batch.worst_ratio_error <= product.tolerance):
            raise SystemExit(f"scale: {batch}")
    taken = time.perf_counter() - start
    print(
        f"{count} random batches with working time and cautions: all hold, {taken / count * 1e3:.2f} ms each"
    )


if __name__ == "__main__":
    against_solve_ivp()
    many_batches()
