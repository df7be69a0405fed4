"""The state machine of the job, for long: `python -m tests.campaigns.machine --examples 2000 --steps 60`.

The same rules and invariants as in the tests (`tests/job/test_job_machine.py`), from other seeds each time;
prints what was tried and ends with the shortest way to a failure, if one was found. With `--minutes 20` no
further examples are begun after that time.
"""

from __future__ import annotations

import argparse
import time
from collections import Counter

from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.job.test_job_machine import Bench

AT_ONCE = 25  # examples; hypothesis looks for ever new ones within these
COUNTS: Counter[str] = Counter()


class Counted(Bench):
    """Counts what was tried, refused and written."""

    def attempt(self, act, *args, **kwargs):
        COUNTS["acts tried"] += 1
        return super().attempt(act, *args, **kwargs)

    def teardown(self):
        COUNTS["panels"] += 1
        COUNTS["acts refused"] += self.refused
        COUNTS["entries written"] += len(self.written)
        super().teardown()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--examples", type=int, default=2000)
    parser.add_argument("--steps", type=int, default=60)
    parser.add_argument("--minutes", type=float, default=float("inf"))
    args = parser.parse_args()
    how = settings(
        max_examples=min(AT_ONCE, args.examples),
        stateful_step_count=args.steps,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    ends_s = time.monotonic() + 60 * args.minutes
    try:
        while COUNTS["panels"] < args.examples and time.monotonic() < ends_s:
            run_state_machine_as_test(Counted, settings=how)
    finally:
        print("; ".join(f"{what}: {count:,}" for what, count in COUNTS.items()))


if __name__ == "__main__":
    main()
