"""Hostile files by the thousand: `python -m tests.campaigns.fuzz --inputs 50000` prints what came of them.

Drawings, pictures, adhesives, bundles, plans and tables, half of them good files changed by a seeded hand,
half made up from their grammar by Hypothesis (pictures and bundles are all of the first kind), after the
giants, each once. A batch runs in a process of its own: whatever is said must be a Fault; no input may take
longer than `MOST_S`, no process more than a gibibyte, and nothing may be written outside the data folder.
"""

from __future__ import annotations

import argparse
import json
import os
import queue
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

MOST_S = 10.0
START_S = 120.0
LOOK_S = 0.5
BATCH = 1250
# shares of the inputs
SHARES = {
    "svg": 0.3,
    "picture": 0.2,
    "bundle": 0.2,
    "adhesive": 0.1,
    "plan": 0.05,
    "glue-ups": 0.1,
    "sheets": 0.05,
}
MADE_UP = ("svg", "adhesive", "plan", "glue-ups", "sheets")


@dataclass
class Figures:
    """What a campaign came to. found: (kind, way, input, what)."""

    answers: Counter[tuple[str, str]] = field(default_factory=Counter)
    found: list[tuple[str, str, str, str]] = field(default_factory=list)
    slowest: dict[str, tuple[float, str]] = field(default_factory=dict)
    peak_mib: int = 0

    @property
    def inputs(self) -> int:
        return sum(self.answers.values())

    def take(self, kind: str, way: str, told: dict[str, object]) -> None:
        """Take in what a child said of one input."""
        name, seconds, what = str(told["done"]), float(str(told["seconds"])), str(told["found"])
        of = name.split(":")[0].split()[1] if way == "giants" else kind
        self.answers[of, str(told["answer"])] += 1
        self.peak_mib = max(self.peak_mib, int(str(told["mib"])))
        self.slowest[of] = max(self.slowest.get(of, (0.0, "")), (seconds, f"{way} {name}"))
        if what:
            self.found.append((of, way, name, what))

    def report(self) -> str:
        """Return the figures for a person to read."""
        lines = [f"{self.inputs} inputs, at most {self.peak_mib} MiB, {len(self.found)} found"]
        for kind in sorted({of for of, _ in self.answers}):
            told = ", ".join(
                f"{n} {answer}" for (of, answer), n in sorted(self.answers.items()) if of == kind
            )
            seconds, name = self.slowest.get(kind, (0.0, ""))
            lines.append(f"  {kind}: {told}; slowest {seconds:.2f} s ({name})")
        return "\n".join([*lines, *(" | ".join(one) for one in self.found)])


class Watch:
    """How long a child has been at one input: its processor's time, since others may keep it waiting.

    Where it only waits, the wall clock ends it, later.
    """

    def __init__(self, pid: int, most_s: float) -> None:
        self.pid, self.most_s = pid, most_s
        self.begin()

    def begin(self) -> None:
        self._cpu_s, self._wall_s = self._spent_s(), time.monotonic()

    def is_over(self, starting: bool) -> bool:
        most_s = START_S if starting else self.most_s
        return self._spent_s() - self._cpu_s > most_s or time.monotonic() - self._wall_s > 60 * most_s

    def _spent_s(self) -> float:
        try:
            words = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        except OSError:
            return 0.0
        return (int(words[11]) + int(words[12])) / os.sysconf("SC_CLK_TCK")


def batches(inputs: int) -> Iterator[tuple[str, str, int, int]]:
    """Yield kind, way, first and count of each batch: the giants first, then the kinds in turn."""
    yield "all", "giants", 0, 10**6
    left = {}
    for kind, share in SHARES.items():
        count = round(inputs * share)
        half = count // 2 if kind in MADE_UP else 0
        left[kind, "made up"], left[kind, "mutated"] = half, count - half
    first: Counter[tuple[str, str]] = Counter()
    while any(left.values()):
        for key, count in left.items():
            now = min(BATCH, count)
            if now:
                yield *key, first[key], now
                first[key] += now
                left[key] -= now


def campaign(
    inputs: int,
    *,
    seed: int = 1,
    folder: Path,
    most_s: float = MOST_S,
    part: int = 0,
    parts: int = 1,
    told: bool = False,
) -> Figures:
    """Run a campaign and return its figures."""
    figures = Figures()
    for number, batch in enumerate(batches(inputs)):
        if number % parts != part:
            continue
        run_batch(figures, batch, seed, folder, most_s)
        if told:
            print(*batch, "|", figures.report().splitlines()[0], flush=True)
    return figures


def run_batch(
    figures: Figures, batch: tuple[str, str, int, int], seed: int, folder: Path, most_s: float = MOST_S
) -> None:
    """Run a batch; an input that hangs, or takes its process down, is told, and the rest goes on after it."""
    kind, way, first, count = batch
    end = first + count
    while first < end:
        said, stopped_at = _run_child(figures, (kind, way, first, end - first), seed, folder, most_s)
        if stopped_at is None:
            return
        figures.found.append((kind, way, stopped_at, said))
        figures.answers[kind, "hang or fall"] += 1
        if not stopped_at:
            return  # it did not come to its first input: the next would not either
        first = int(stopped_at.split()[0]) + 1


def _run_child(
    figures: Figures, batch: tuple[str, str, int, int], seed: int, folder: Path, most_s: float
) -> tuple[str, str | None]:
    """Return what stopped a child, and at which input; None where it came to its end."""
    kind, way, first, count = batch
    words = [kind, way, str(first), str(count), str(seed), str(folder)]
    env = {
        **os.environ,
        "POTWATCH_HOME": str(folder / "data"),
        "HOME": str(folder / "home"),
        "OPENBLAS_NUM_THREADS": "1",
        "PYTHONHASHSEED": "0",
        "PYTHONDONTWRITEBYTECODE": "1",
        "TMPDIR": str(folder / "data"),
        "HYPOTHESIS_STORAGE_DIRECTORY": str(folder / "data" / "hypothesis"),
        "PYTHONPATH": os.pathsep.join(["", str(Path(__file__).parents[2])]).lstrip(os.pathsep),
    }
    child = subprocess.Popen(
        [sys.executable, "-m", "tests.campaigns.fuzz_child", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=env,
        cwd=Path(__file__).parents[2],
    )
    lines: queue.Queue[str | None] = queue.Queue()
    errors: list[str] = []
    readers = [
        threading.Thread(target=_pass_on, args=(child.stdout, lines), daemon=True),
        threading.Thread(target=lambda: errors.extend(child.stderr or ()), daemon=True),
    ]
    for reader in readers:
        reader.start()
    at, ended, watch = None, False, Watch(child.pid, most_s)
    try:
        while True:
            try:
                line = lines.get(timeout=LOOK_S)
            except queue.Empty:
                if watch.is_over(at is None):
                    return f"no answer in {watch.most_s:g} s", at or ""
                continue
            if line is None:
                break
            watch.begin()
            told = json.loads(line)
            if "at" in told:
                at = str(told["at"])
            elif "done" in told:
                figures.take(kind, way, told)
                at = None
            else:
                ended = True
    finally:
        child.kill()
        code = child.wait()
        for reader in readers:
            reader.join()
        for pipe in (child.stdout, child.stderr):
            if pipe is not None:
                pipe.close()
    if ended:
        return "", None
    why = signal.Signals(-code).name if code < 0 else f"exit {code}"
    return f"the process fell ({why}) {' '.join(errors[-3:])}"[:400], at or ""


def _pass_on(stream: object, lines: queue.Queue[str | None]) -> None:
    for line in stream:  # type: ignore[attr-defined]
        lines.put(line)
    lines.put(None)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the long form; exit 1 where anything was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--inputs", type=int, default=50_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--part", default="0/1", help="every so many batches only, e.g. 1/4 and its like")
    parser.add_argument("--keep", type=Path, help="a folder to keep what was found in")
    args = parser.parse_args(argv)
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch).resolve() if args.keep is None else args.keep.resolve()
        part, parts = (int(n) for n in args.part.split("/"))
        figures = campaign(args.inputs, seed=args.seed, folder=folder, part=part, parts=parts, told=True)
    print(figures.report())
    return 1 if figures.found else 0


if __name__ == "__main__":
    sys.exit(main())
