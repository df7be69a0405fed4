"""The short form of the soak: hours of acts leave no file open, and the growth told is of the readings."""

import sys

import pytest

from tests.campaigns.soak import Figures, open_files, soak


def test_growth_is_that_of_the_last_quarter_over_the_second():
    figures = Figures()
    assert figures.growth([500, 100, 100, 110]) == pytest.approx(0.1)
    assert figures.growth([500, 400, 100, 100, 90, 80, 105, 105]) == pytest.approx(0.05)


@pytest.mark.slow
@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="reads /proc")
def test_a_few_hours_of_work_leave_no_file_open(tmp_path):
    before = open_files()
    figures = soak(tmp_path, 3, seed=3, acts_an_hour=8)
    assert open_files() == before
    assert len(set(figures.files)) == 1
    assert figures.wrong == []
    assert figures.acts == 24
    assert figures.refused < figures.acts / 2
