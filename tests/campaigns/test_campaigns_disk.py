"""The campaign with the disk in short."""

import pytest

from tests.campaigns.disk_failing import failures
from tests.campaigns.disk_spoiled import flips
from tests.fakes.failing_disk import can_fail

pytestmark = [
    pytest.mark.slow,
    pytest.mark.filterwarnings("ignore:This process .* is multi-threaded:DeprecationWarning"),
]


def test_a_spoiled_book_holds_nothing_but_what_was_written_and_says_what_is_missing(tmp_path):
    figures = flips(tmp_path, 25, seed=4)
    assert figures.wrong == []
    assert figures.done["mended with backups"] > 3


@pytest.mark.skipif(not can_fail(), reason="a disk that fails for good is made with Linux")
def test_a_disk_that_fails_refuses_acts_and_keeps_those_that_were_acknowledged(tmp_path):
    figures = failures(tmp_path, 8, seed=4)
    assert figures.wrong == []
    assert figures.done["acts refused in one line"] > 0
