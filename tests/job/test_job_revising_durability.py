"""A process that dies while a revised drawing is accepted leaves the one drawing or the other, whole."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="forks")
def test_stopping_before_or_after_any_statement_leaves_one_drawing_or_the_other(tmp_path):
    command = [sys.executable, "-m", "tests.fakes.revising_writer", str(tmp_path)]
    told = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=True).stdout
    results = [json.loads(line) for line in told.splitlines()]
    assert len(results) > 30
    assert (results[0]["revised"], results[-1]["accepted"], results[-1]["stopped"]) == (False, True, False)
    for result in results:
        assert result["whole"]
        assert result["dry"] == results[-1]["dry"]
        assert result["yellow"] == (results[-1]["yellow"] if result["revised"] else 0)
        assert result["revised"] or not result["accepted"]
    assert sum(r["revised"] and not r["accepted"] for r in results) == 1  # just after the commit
