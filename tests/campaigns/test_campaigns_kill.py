"""The campaigns with killed processes and stopped writes in short, and that they see what they look for."""

import os
import random
import sqlite3
from contextlib import closing

import pytest

from bench.book.files import BOOK_NAME
from tests.campaigns import kill, writes
from tests.campaigns.telling import check

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name != "posix", reason="kills and forks as POSIX does"),
    pytest.mark.filterwarnings("ignore:This process .* is multi-threaded:DeprecationWarning"),
]


def test_a_killed_maker_finds_every_act_that_was_acknowledged(tmp_path):
    figures = kill.campaign(tmp_path, 8, seed=3)
    assert figures.wrong == []
    assert figures.kills == 8
    assert figures.acts > 0


@pytest.mark.parametrize(
    "spoil",
    [
        "DELETE FROM event WHERE act_id = (SELECT act_id FROM acknowledged ORDER BY said DESC LIMIT 1)",
        "DELETE FROM event WHERE seq = (SELECT max(seq) FROM event WHERE act_id IN (SELECT act_id "
        "FROM event JOIN acknowledged USING (act_id) GROUP BY act_id HAVING count(*) > 1))",
        "UPDATE setting SET value = '-1', seal = NULL WHERE key = 'walk'",
    ],
    ids=["an act is gone", "an act is half there", "a setting is older"],
)
def test_the_campaign_sees_what_is_missing(tmp_path, spoil):
    """Without it a campaign that finds nothing wrong would say nothing.

    Only acts that were acknowledged are missed: the kill may leave one more, of which nobody was told.
    """
    told = kill.live_and_die(tmp_path, 5, random.Random(1), acts=25)
    assert check(tmp_path, [], told)[0].wrong == []
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection, connection:
        trigger = "SELECT sql FROM sqlite_master WHERE name = 'event_is_kept'"
        (as_made,) = connection.execute(trigger).fetchone()
        connection.execute("DROP TRIGGER event_is_kept")
        connection.execute("CREATE TEMP TABLE acknowledged (said INTEGER PRIMARY KEY, act_id TEXT UNIQUE)")
        going_on = {act_id for act_id, _, _ in told.in_flight}
        for act_id in dict.fromkeys(act_id for act_id, _, _ in told.acts if act_id not in going_on):
            connection.execute("INSERT INTO acknowledged (act_id) VALUES (?)", (act_id,))
        assert connection.execute(spoil).rowcount > 0
        connection.execute(as_made)  # nothing else may be told of
    wrong = check(tmp_path, [], told)[0].wrong
    assert wrong
    assert not any("mended" in what for what in wrong)


def test_a_stop_at_any_write_leaves_whole_acts_and_those_that_were_told(tmp_path):
    figures = writes.snapshots(tmp_path, 6, seed=2)
    assert figures.wrong == []
    assert figures.commits > 5


def test_what_raises_at_any_write_leaves_the_job_as_the_book_has_it(tmp_path):
    figures = writes.raises(tmp_path, 5, seed=2)
    assert figures.wrong == []
    assert figures.commits > 5
