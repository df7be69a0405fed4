"""Let the disk do its worst: `python -m tests.campaigns.disk --flips 1000 --failures 200`.

*Flips*: a worked book, some days old, gets bits flipped, pages blanked, bytes overwritten, its end cut off.
It is then opened as the app opens it; whatever it holds afterwards must be what was written, and whatever
is missing must have been told. *Failures*: the disk is full, or refuses to sync, or breaks, at a random
moment of a maker's day (`tests.fakes.failing_disk`; file sizes limited besides); acts are then refused in
one line, what was acknowledged stays, and the next day finds it. Failures need Linux.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from pathlib import Path

from bench.book.schema import KNOWN_VERSION
from tests.campaigns.disk_failing import failures
from tests.campaigns.disk_spoiled import flips


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--flips", type=int, default=1000)
    parser.add_argument("--failures", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    begun, wrong = time.perf_counter(), 0
    for head, campaign, times in (("flips", flips, args.flips), ("failures", failures, args.failures)):
        with tempfile.TemporaryDirectory() as folder:
            figures = campaign(Path(folder), times, args.seed)
        print("\n".join(figures.lines(f"{head}, {times} times, version {KNOWN_VERSION}")))
        wrong += len(figures.wrong)
    print(f"took {time.perf_counter() - begun:.0f} s, seed {args.seed}")
    raise SystemExit(bool(wrong))


if __name__ == "__main__":
    main()
