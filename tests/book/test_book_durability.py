"""Nothing that was acknowledged is lost, and nothing is half there, however the process ends."""

import json
import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.fakes.book_writer import ACTS, found

ROOT = Path(__file__).parents[2]
KILLS = 15

pytestmark = pytest.mark.skipif(os.name != "posix", reason="kills and forks as POSIX does")


def _writer(folder: Path, *more: str) -> subprocess.Popen:
    command = [sys.executable, "-m", "tests.fakes.book_writer", str(folder), *more]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT)


def _kill_while_writing(folder: Path, rng: random.Random) -> int:
    """Kill a writer at a random moment after its first act, and return how many acts it was told of."""
    with _writer(folder) as writer:
        first = int(writer.stdout.readline())
        time.sleep(rng.uniform(0.0, 0.08))
        writer.kill()
        return max([first, *map(int, writer.stdout.read().split())]) + 1


@pytest.mark.slow
def test_a_killed_process_loses_no_act_it_was_told_is_kept(tmp_path):
    rng = random.Random(20260504)
    written = 0
    for _ in range(KILLS):
        acknowledged = _kill_while_writing(tmp_path, rng)
        after = found(tmp_path)
        assert (after["whole"], after["mark stands"]) == (True, True)
        assert acknowledged <= after["acts"] <= acknowledged + 1  # one may be kept and not yet told
        assert after["acts"] > written
        written = after["acts"]


@pytest.mark.slow
def test_a_process_killed_while_it_makes_the_book_leaves_one_that_opens(tmp_path):
    rng = random.Random(7)
    for number in range(5):
        folder = tmp_path / str(number)
        with _writer(folder) as writer:
            while writer.poll() is None and not folder.exists():
                time.sleep(0.0005)
            time.sleep(rng.uniform(0.0, 0.015))
            writer.kill()
            told = writer.stdout.read().split()
        after = found(folder)
        assert (after["whole"], after["mark stands"]) == (True, True)
        assert len(told) <= after["acts"] <= len(told) + 1


@pytest.mark.slow
def test_stopping_before_or_after_any_statement_leaves_whole_acts(tmp_path):
    with _writer(tmp_path, "every-instant") as writer:
        results = [json.loads(line) for line in writer.stdout]
    assert writer.returncode == 0
    assert len(results) > 50
    assert results[-1]["acts"] == ACTS
    for result in results:
        assert (result["whole"], result["mark stands"]) == (True, True)
        assert result["acknowledged"] <= result["acts"] <= result["acknowledged"] + 1
    kept_untold = [result for result in results if result["acts"] > result["acknowledged"]]
    assert len(kept_untold) == ACTS  # only the instant after a commit: kept, and the process stopped
