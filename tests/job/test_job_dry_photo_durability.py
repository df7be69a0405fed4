"""A process that dies while a photographed lay is kept leaves the count with its photo, or neither."""

import os

import pytest

from tests.fakes.stopping import found_at_every_instant


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="forks")
def test_stopping_before_or_after_any_statement_leaves_count_and_photo_or_neither(tmp_path):
    results = found_at_every_instant("tests.fakes.photo_writer", tmp_path)
    assert len(results) > 20
    assert (results[0]["dry"], results[-1]["accepted"], results[-1]["stopped"]) == (False, True, False)
    for result in results:
        assert result["dry"] == result["said"] == result["kept"]
        assert result["dry"] or not result["accepted"]
    assert sum(r["dry"] and not r["accepted"] for r in results) == 1  # just after the commit
