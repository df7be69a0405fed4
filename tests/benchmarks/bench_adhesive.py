"""A batch with its heat curve, beside scipy's solve_ivp on the same equations; and many random batches.

Run: python -m tests.benchmarks.bench_adhesive
"""

import math
import time
from collections.abc import Callable
from statistics import median

import numpy as np
from scipy.integrate import solve_ivp

from bench.adhesive import heat, kettle
from bench.adhesive.batch import Batch, ladder, prescribe, scale_advice
from bench.adhesive.cautions import cautions
from bench.adhesive.heat import exotherm
from bench.adhesive.poured import judge_poured
from bench.adhesive.product import Product
from bench.adhesive.product_file import find_product, shipped_products
from bench.adhesive.scale import Scale
from bench.adhesive.working_time import working_time_s

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


def random_product(rng: np.random.Generator, shipped: list[Product]) -> Product:
    """Return a shipped type with another label: ratio, densities, minutes, test mass, energy."""
    product = shipped[rng.integers(len(shipped))]
    timed = {"minutes": float(rng.uniform(5, 90)), "activation_kJ_per_mol": float(rng.uniform(31, 69))}
    if product.is_two_part:
        timed["test_mass_g"] = float(rng.uniform(10, 500))
    update: dict[str, object] = {"working_time": product.working_time.model_copy(update=timed)}
    if product.ratio is not None:
        parts = (100.0, float(rng.uniform(8, 110)))
        update["ratio"] = product.ratio.model_copy(update={"by_mass": parts, "by_volume": None})
    return product.model_copy(update=update)


def breaches(
    product: Product, room_C: float, batch: Batch, scale: Scale, rng: np.random.Generator
) -> list[str]:
    """Return what does not hold of one batch; empty when all does."""
    lasts_s = working_time_s(product, temperature_C=room_C, mass_g=batch.total_g)
    high_C = product.range_C[1]
    warmer_s = working_time_s(product, temperature_C=min(high_C, room_C + 3), mass_g=batch.total_g)
    larger_s = working_time_s(product, temperature_C=room_C, mass_g=2 * batch.total_g)
    bottles = {"temperature_C": room_C, "mass_g": batch.total_g}
    warm_s = working_time_s(product, **bottles, mix_C=min(high_C, room_C + 3))
    cold_s = working_time_s(product, **bottles, mix_C=max(product.range_C[0], room_C - 3))
    more = prescribe(product, bed_area_mm2=1.5 * batch.bed_area_mm2, scale=scale)
    found = {
        "mass balance": batch.resin_g + batch.hardener_g == batch.total_g,
        "working time": 0 < lasts_s <= product.working_time.minutes * 60,
        "warmer is no longer": warmer_s <= lasts_s * (1 + 1e-6),
        "warm bottles are no longer": warm_s <= lasts_s * (1 + 1e-6),
        "cold bottles gain nothing": cold_s == lasts_s,
        "what the scale cannot hold is answered": bool(scale_advice(product, batch, scale)) != batch.scale_ok,
        "larger is no longer": larger_s <= lasts_s * (1 + 1e-6),
        "more area takes no less": more.resin_g >= batch.resin_g and more.hardener_g >= batch.hardener_g,
        "scale": batch.scale_ok == (batch.worst_ratio_error <= product.tolerance),
        "cautions": bool(cautions(product, temperature_C=room_C, mass_g=batch.total_g, first_today=True)),
    }
    if product.is_two_part and batch.hardener_g > 0:
        slip_g = scale.nearest_g(batch.hardener_g * float(rng.uniform(0.6, 1.6)))
        if slip_g > 0:
            cup = judge_poured(product, resin_g=batch.resin_g, hardener_g=slip_g, scale=scale)
            resin_g, hardener_g = cup.resin_g + cup.resin_to_add_g, cup.hardener_g + cup.hardener_to_add_g
            off_g = abs(hardener_g - resin_g * product.mass_ratio)
            step_g = scale.step_g / 2 * max(1, product.mass_ratio)
            allowed_g = max(product.tolerance * resin_g * product.mass_ratio, step_g)
            found["what is added puts it right"] = off_g <= allowed_g + 1e-6
    return [what for what, holds in found.items() if not holds]


def many_batches(count: int = 10_000, seed: int = 0) -> None:
    """Prescribe random batches of random labels and check what must hold of each; a breach ends the run."""
    rng = np.random.default_rng(seed)
    shipped = [find_product(stem) for stem in shipped_products()]
    start = time.perf_counter()
    for k in range(count):
        product = random_product(rng, shipped)
        scale = Scale(float(rng.choice([0.01, 0.1, 1.0])), bool(rng.integers(2)))
        room_C = float(rng.uniform(*product.range_C))
        batch = prescribe(product, bed_area_mm2=float(rng.uniform(50, 30_000)), scale=scale)
        broken = breaches(product, room_C, batch, scale, rng)
        if broken:
            raise SystemExit(f"batch {k}: {', '.join(broken)}: {product} {batch}")
    taken = time.perf_counter() - start
    print(f"{count} random batches of random labels: all hold, {taken / count * 1e3:.2f} ms each")


if __name__ == "__main__":
    against_solve_ivp()
    many_batches()
