"""Print how the promise is kept by simulated makers, and what an update costs. Nothing is asserted.

    python -m tests.benchmarks.bench_promise [makers]

Makers' pace is log-normal about the stated (sd 0.35), σ 0.08 to 0.25, sizes weigh differently (sd 0.3), time
a piece falls with the glue-ups made (exponent 0 to 0.05) and rises with the mixes of the day (0 to 5 % each);
life is log-normal about the label (sd 0.10). Every glue-up is filled to capacity_s.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

import numpy as np

from bench.pace.capacity import capacity
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.life import learn_life
from bench.pace.routine import Routine
from tests.fakes.makers import a_maker, work

GLUE_UPS = 12


def promise(makers: int, sure: float, seed: int) -> None:
    rng = np.random.default_rng(seed)
    records = [work(a_maker(rng), rng, glue_ups=GLUE_UPS, sure=sure) for _ in range(makers)]
    kept = np.array([r.kept for r in records])
    share = np.array([r.share for r in records])
    # Glue-ups of one maker hang together, so the error is that of the makers' means.
    error = kept[:, 2:].mean(axis=1).std() / makers**0.5
    print(
        f"sure {sure:g}: kept from the third on {kept[:, 2:].mean():.4f} ± {error:.4f} (one standard error)"
    )
    print("   by glue-up", " ".join(f"{x:.3f}" for x in kept.mean(axis=0)))
    print(f"   of what is possible, from the sixth on {share[:, 5:].mean():.4f}; by glue-up", end=" ")
    print(" ".join(f"{x:.3f}" for x in share.mean(axis=0)))


def twice_the_true(makers: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    lost = [5 - sum(work(a_maker(rng, off_by=2.0), rng, glue_ups=5, sure=0.9).kept) for _ in range(makers)]
    beyond = np.mean(lost) - 0.5
    print(f"stated pace twice the true: {beyond:.3f} sections lost beyond the tenth over the first five")


def best_s(function: Callable[[], object], tries: int = 200) -> float:
    best = float("inf")
    for _ in range(tries):
        start = time.perf_counter()
        function()
        best = min(best, time.perf_counter() - start)
    return best


def update() -> None:
    rng = np.random.default_rng(3)
    book = [
        GlueUp(None, *map(int, n), float(12 * n.sum() * np.exp(0.15 * e)), 20.0, 21.0, 5000.0, None, True)
        for n, e in zip(rng.integers(5, 40, (501, 3)), rng.normal(size=501), strict=True)
    ]
    table = np.array(
        [(1, g.small, g.medium, g.large, g.paused_s, g.temperature_C) for g in book[:500]], dtype=float
    )
    log_s = np.log([g.seconds for g in book[:500]])
    peer = best_s(lambda: np.linalg.lstsq(table, log_s, rcond=None))
    hands = learn_hands(book[:500])
    life = learn_life(book, working_time_s=1500.0)
    told = {
        "one glue-up more after 500 (Hands.after)": lambda: hands.after(book[500]),
        "learning the pace of all 500 again": lambda: learn_hands(book[:500]),
        "learning the life of all 500 again": lambda: learn_life(book[:500], working_time_s=1500.0),
        "capacity": lambda: capacity(hands, life, working_time_s=1500.0, routine=Routine()),
    }
    print(f"numpy.linalg.lstsq of the same 500 rows: {1e6 * peer:.0f} µs; as a multiple of it:")
    for name, function in told.items():
        print(f"   {name}: {best_s(function, 50) / peer:.1f}")


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    update()
    promise(count, 0.9, seed=1)
    promise(count, 0.95, seed=2)
    twice_the_true(count, seed=3)
