"""How long the job takes: `python -m tests.benchmarks.bench_job`.

Replay of a long book beside its bare reading; dividing anew after a glue-up beside a first division;
`potwatch plan` as a whole process beside an interpreter that only imports numpy, pydantic and
scipy.spatial. Ratios are of medians, the two sides taking turns.
"""

import statistics
import subprocess
import sys
import time
from collections.abc import Callable

from bench.book import Store
from bench.job.acts import cup, dry, glueup, opening
from bench.job.advice import advise
from bench.job.fold import fold
from bench.job.planning import plan_ground
from bench.resources import resource
from tests.fakes.clock import FakeClock

EVENTS = 5000
IMPORTS = "import numpy, pydantic, scipy.spatial"


def medians(first: Callable[[], object], second: Callable[[], object], runs: int) -> tuple[float, float]:
    """Return the median time of each, run in turn after one run that does not count. [s]"""
    first(), second()
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs):
        for kept, run in zip(times, (first, second), strict=True):
            begun = time.perf_counter()
            run()
            kept.append(time.perf_counter() - begun)
    return statistics.median(times[0]), statistics.median(times[1])


def told(what: str, mine_s: float, peer: str, peer_s: float) -> None:
    print(f"{what}: {mine_s * 1e3:.0f} ms; {peer}: {peer_s * 1e3:.0f} ms; ratio {mine_s / peer_s:.2f}")


def worked_panel(store: Store, clock: FakeClock):
    """Return the demo with one glue-up done."""
    demo = resource("assets", "demo", "lemons.svg")
    job = opening.open_panel(store, clock, demo.read_bytes(), demo.name)
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    clock.advance(900)
    return job, mix


def main() -> None:
    clock = FakeClock()
    with Store.in_memory() as store:
        job, mix = worked_panel(store, clock)
        while store.last_seq(job.panel_id) < EVENTS:
            glueup.count(job, mix, 7)
        glueup.close(job, mix)
        entries = store.events(job.panel_id)
        replay_s, read_s = medians(
            lambda: fold(store.events(job.panel_id)), lambda: store.events(job.panel_id), 9
        )
        told(f"replay of {len(entries)} events", replay_s, "reading them", read_s)

        work = opening.prepare_division(job)
        fresh = {"keep": work.ground["keep"]}
        again_s, first_s = medians(
            lambda: plan_ground(work.sizer, **work.ground), lambda: plan_ground(work.sizer, **fresh), 5
        )
        told(
            f"dividing {job.panel.tessera_count} anew after a glue-up",
            again_s,
            "dividing them fresh",
            first_s,
        )

    demo = str(resource("assets", "demo", "lemons.svg"))
    plan = [sys.executable, "-m", "bench", "plan", demo, "--pace", "5"]
    bare = [sys.executable, "-c", IMPORTS]
    plan_s, bare_s = medians(
        lambda: subprocess.run(plan, check=True, capture_output=True),
        lambda: subprocess.run(bare, check=True, capture_output=True),
        7,
    )
    told("potwatch plan on the demo, whole process", plan_s, f"python -c '{IMPORTS}'", bare_s)


if __name__ == "__main__":
    main()
