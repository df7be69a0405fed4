"""Let the disk fill up, refuse to sync, or break, at a random moment of a maker's day.

Acts are then refused in one line, what was acknowledged stays, and the next day finds it. Linux only.
"""

from __future__ import annotations

import json
import os
import random
import resource
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bench.fault import Fault
from tests.campaigns.figures import Figures
from tests.campaigns.telling import Told, check, work
from tests.fakes.failing_disk import FAILURES, fail_from_now_on


def failures(folder: Path, times: int, seed: int) -> Figures:
    """Let the disk fail in so many lives of a maker, and look at what is left."""
    figures, rng = Figures(), random.Random(seed)
    for life in range(times):
        how = rng.choice([*FAILURES, "no room"])
        book = folder / f"book-{life // 20}"
        if life % 20 == 0:
            before: list[tuple[str, str, int]] = []
        told, refused = _life(book, seed * 1_000_003 + life, how, rng.uniform(0.0, 1.0))
        found, before = check(book, before, told)
        figures.done[f"{how}: lives"] += 1
        figures.done["acts acknowledged"] += len(told.acts)
        figures.done["acts refused in one line"] += refused["in one line"]
        figures.done["acts in doubt, said so"] += refused["in doubt"]
        figures.done["acts in doubt that the book has"] += found.kept_untold
        figures.wrong += [f"life {life}, {how}: {what}" for what in found.wrong]
        figures.wrong += [f"life {life}, {how}: {what}" for what in refused["badly"]]
    return figures


def _life(folder: Path, seed: int, how: str, after: float) -> tuple[Told, dict[str, Any]]:
    """Let one process work until the disk fails and a while on; return what it told."""
    listens, tells = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(listens)
        _live(folder, seed, how, after, lambda said: os.write(tells, json.dumps(said).encode() + b"\n"))
    os.close(tells)
    told, refused = Told(), {"in one line": 0, "in doubt": 0, "badly": []}
    with os.fdopen(listens) as lines:
        for line in lines:
            said = json.loads(line)
            if "badly" in said:
                refused["badly"].append(said["badly"])
                continue
            refused["in one line"] += said.get("stepped") == "refused"
            refused["in doubt"] += said.get("stepped") == "in doubt"
            told.hear(line)
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0:
        refused["badly"].append("the process fell")
    return told, refused


def _live(folder: Path, seed: int, how: str, after: float, tell: Callable[[dict[str, Any]], object]) -> None:
    code = 1
    told = 0

    def tell_and_fail(said: dict[str, Any]) -> None:
        nonlocal told
        tell(said)
        told += 1
        if told == int(1 + 24 * after):
            _fail(folder, how)

    try:
        work(folder, seed, tell_and_fail, 20)
        code = 0
    except Fault as fault:  # the book could not even be opened, or no panel be made
        code = 0 if "\n" not in str(fault) else 1
    except BaseException as error:
        tell({"badly": f"{type(error).__name__}: {error}"})
    finally:
        os._exit(code)


def _fail(folder: Path, how: str) -> None:
    if how == "no room":
        size = max((path.stat().st_size for path in folder.glob("potwatch.sqlite3*")), default=0)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size + 3000, size + 3000))
    else:
        fail_from_now_on(how)
