"""Kill a maker's process at random moments and look at what is left.

`python -m tests.campaigns.kill --times 1000`. Each life opens the book, works it by chance (`walk`) and
tells of every act over a pipe; SIGKILL comes after a random while, now and then while the book is still
being opened. The next life goes on with what it finds. POSIX only.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from tests.campaigns.telling import Acts, Found, Told, check, work

LONGEST_S = 0.9  # of a life after its first act was told
BOOKS_LIVES = 40  # after which a new book is begun: a long one takes long to check


@dataclass
class Figures:
    """What a campaign has seen."""

    kills: int = 0
    while_opening: int = 0
    acts: int = 0
    kept_untold: int = 0
    running: int = 0
    off_s: float = 0.0
    wrong: list[str] = field(default_factory=list)

    def add(self, found: Found, told: Told, where: str) -> None:
        self.kills += 1
        self.while_opening += told.true is None
        self.acts += len({act_id for act_id, _, _ in told.acts})
        self.kept_untold += found.kept_untold
        self.running += found.running
        self.off_s = max(self.off_s, found.off_s)
        self.wrong += [f"{where}: {what}" for what in found.wrong]

    def lines(self) -> list[str]:
        found = Counter(self.wrong)
        return [
            f"kills: {self.kills}, of them {self.while_opening} before the book was open",
            f"acts acknowledged: {self.acts}; kept though nobody was told yet: {self.kept_untold}",
            f"countdowns read after a kill: {self.running}, at most {self.off_s:.3f} s off",
            f"wrong: {len(self.wrong)}",
            *(f"  {what}" + (f" × {count}" if count > 1 else "") for what, count in found.items()),
        ]


def live_and_die(folder: Path, seed: int, rng: random.Random, *, acts: int = 0) -> Told:
    """Let one process work and kill it, after so many acts if not at random; return what it was told."""
    listens, tells = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(listens)

        def tell(said: dict[str, object]) -> None:
            os.write(tells, json.dumps(said).encode() + b"\n")

        try:
            work(folder, seed, tell, 100_000)
        finally:
            os._exit(3)  # a life never ends by itself
    os.close(tells)
    told = Told()
    with os.fdopen(listens) as lines:
        if acts:
            for _ in range(acts):
                told.hear(lines.readline())
        elif rng.random() < 0.1:
            time.sleep(rng.uniform(0.0, 0.08))
        else:
            told.hear(lines.readline())
            time.sleep(rng.uniform(0.0, LONGEST_S))
        os.kill(child, signal.SIGKILL)
        ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        if ended != -signal.SIGKILL:
            raise RuntimeError(f"a life ended by itself, code {ended}")
        for line in lines:
            if line.endswith("\n"):  # the last may be cut
                told.hear(line)
    return told


def campaign(folder: Path, times: int, seed: int) -> Figures:
    """Kill so many lives and return what was seen."""
    rng, figures = random.Random(seed), Figures()
    for life in range(times):
        book = folder / f"book-{life // BOOKS_LIVES}"
        if life % BOOKS_LIVES == 0:
            before: Acts = []
        told = live_and_die(book, seed * 1_000_003 + life, rng)
        found, before = check(book, before, told)
        figures.add(found, told, f"life {life}")
    return figures


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        figures = campaign(Path(folder), args.times, args.seed)
    print("\n".join([*figures.lines(), f"took {time.perf_counter() - begun:.0f} s, seed {args.seed}"]))
    raise SystemExit(bool(figures.wrong))


if __name__ == "__main__":
    main()
