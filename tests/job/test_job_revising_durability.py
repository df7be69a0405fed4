"""A process that dies while a revised drawing is accepted leaves the one drawing or the other, whole."""

import os

import pytest

from tests.fakes.stopping import found_at_every_instant


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="forks")
def test_stopping_before_or_after_any_statement_leaves_one_drawing_or_the_other(tmp_path):
    results = found_at_every_instant("tests.fakes.revising_writer", tmp_path)
    assert len(results) > 30
    assert (results[0]["revised"], results[-1]["accepted"], results[-1]["stopped"]) == (False, True, False)
    for result in results:
        assert result["whole"]
        assert result["dry"] == results[-1]["dry"]
        assert result["yellow"] == (results[-1]["yellow"] if result["revised"] else 0)
        assert result["revised"] or not result["accepted"]
    assert sum(r["revised"] and not r["accepted"] for r in results) == 1  # just after the commit
