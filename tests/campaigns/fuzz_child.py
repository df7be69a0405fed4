"""Feed hostile files one after the other, in a process that may be killed: one batch of the fuzzer.

`python -m tests.campaigns.fuzz_child KIND WAY FIRST COUNT SEED FOLDER` prints a line of JSON before each
input, and one for each that ended in anything but a Fault. What is written outside the data folder is told
too; sockets are barred.
"""

from __future__ import annotations

import hashlib
import json
import os
import random
import resource
import sys
import time
import traceback
import warnings
from pathlib import Path

from bench.fault import Fault
from tests.campaigns import feeds
from tests.campaigns.giants import giants
from tests.campaigns.hostile import mutated
from tests.campaigns.hostile_seeds import seeds

MOST_MIB = 1024
KINDS = tuple(feeds.FEEDS)
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC
_CHANGES = tuple(
    f"os.{what}" for what in ["mkdir", "remove", "rename", "rmdir", "link", "symlink", "truncate", "chmod"]
)


class Outside(BaseException):
    """Something was written where nothing may be, or spoke to the network."""


def bar(*folders: Path) -> None:
    """Raise for every write outside these folders, every program started and every socket, from here on."""
    inside = tuple(str(folder.resolve()) + os.sep for folder in folders)

    def hook(event: str, args: tuple[object, ...]) -> None:
        if event.startswith("socket.") or event in ("subprocess.Popen", "os.system", "os.exec", "os.fork"):
            raise Outside(f"{event} {args!r}"[:200])
        wrote = event in _CHANGES or (event == "open" and isinstance(args[2], int) and args[2] & _WRITING)
        path = args[0] if args else None
        if wrote and isinstance(path, str | bytes | os.PathLike):
            real = os.path.realpath(os.fsdecode(path))
            if not (real + os.sep).startswith(inside) and real != os.devnull:
                raise Outside(f"{event} {real}"[:200])

    sys.addaudithook(hook)


def limit_memory() -> None:
    """Let the process take no more than `MOST_MIB` beyond what it has now."""
    now = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    most = now + MOST_MIB * 2**20
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


class Peak:
    """The most memory the process has held since an input began: the kernel's high-water mark, put back."""

    def __init__(self) -> None:
        self._reset = os.open("/proc/self/clear_refs", os.O_WRONLY)

    def begin(self) -> None:
        os.write(self._reset, b"5")

    def mib(self) -> int:
        for line in Path("/proc/self/status").read_text().splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) // 1024
        return 0


peak = Peak()


def say(**told: object) -> None:
    print(json.dumps(told), flush=True)


def try_one(kind: str, name: str, data: bytes, folder: Path) -> None:
    """Feed one file; say what came of it where that is no fair answer."""
    say(at=name)
    peak.begin()
    began, found = time.process_time(), ""
    try:
        (feeds.FEEDS.get(kind) or feeds.amiss)(data, folder)
        answer = "read"
    except Fault as fault:
        answer = "refused"
        if "\n" in str(fault) or not str(fault).strip():
            found = f"a fault of more than one line: {fault!s}"[:300]
    except Outside as error:
        answer, found = "outside", str(error)
    except BaseException as error:
        last = traceback.extract_tb(error.__traceback__)[-1]
        ours = [f for f in traceback.extract_tb(error.__traceback__) if "/bench/" in f.filename]
        at = ours[-1] if ours else last
        told = " ".join(str(error).split())[:160]
        answer = "traceback"
        found = f"{type(error).__name__}: {told} at {Path(at.filename).name}:{at.lineno} {at.name}"
    seconds, mib = time.process_time() - began, peak.mib()
    if mib > MOST_MIB:
        answer, found = "memory", f"{mib} MiB {found}"
    say(done=name, answer=answer, seconds=round(seconds, 3), mib=mib, found=found)
    if found:
        kept = folder.parent / "found" / f"{kind}-{hashlib.sha256(data).hexdigest()[:12]}"
        os.write(_keep_at(kept), data)


def _keep_at(path: Path) -> int:
    path.parent.mkdir(exist_ok=True)
    return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)


def run(kind: str, way: str, first: int, count: int, seed: int, folder: Path) -> None:
    """Feed `count` files of a kind from the one numbered `first` on."""
    data_folder = folder / "data"
    data_folder.mkdir(exist_ok=True)
    if way == "mutated":
        for number in range(first, first + count):
            of = KINDS[number % len(KINDS)] if kind == "all" else kind
            rng = random.Random(f"{seed} {of} {number}")
            try_one(of, str(number), mutated(of, rng), data_folder)
    elif way == "amiss":
        for number, data in enumerate(feeds.AMISS):
            if number >= first:
                try_one("amiss", str(number), data, data_folder)
    elif way == "giants":
        for number, (of, name, data) in enumerate(giants(light=kind == "light")):
            if number >= first:
                try_one(of, f"{number} {of}: {name}", data, data_folder)
    else:
        made_up(kind, first, count, seed, data_folder)


def made_up(kind: str, first: int, count: int, seed: int, folder: Path) -> None:
    """Feed files that Hypothesis makes up; what it makes hangs on the seed and on `first` alone."""
    from hypothesis import HealthCheck, Phase, given, settings
    from hypothesis import seed as seeded

    from tests.campaigns.made_up import MADE_UP

    number = iter(range(first, 10**9))

    @seeded(seed * 1_000_003 + first)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(MADE_UP[kind])
    def feed(data: bytes) -> None:
        try_one(kind, str(next(number)), data, folder)

    feed()


def main() -> None:
    kind, way, first, count, seed, folder = sys.argv[1:]
    warnings.simplefilter("error")
    Path(folder).mkdir(parents=True, exist_ok=True)
    os.chdir(folder)
    warm(Path(folder))
    limit_memory()
    bar(Path(folder) / "data", Path(folder) / "found")
    run(kind, way, int(first), int(count), int(seed), Path(folder))
    say(ended=True)


def warm(folder: Path) -> None:
    """Feed one good file of each kind, so that all libraries are in memory before it is limited."""
    (folder / "data").mkdir(exist_ok=True)
    for kind, feed in feeds.FEEDS.items():
        feed(seeds(kind)[0], folder / "data")


if __name__ == "__main__":
    main()
