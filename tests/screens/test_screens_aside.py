"""Work beside the screens: its result comes between two frames, and nobody hears of what was dropped."""

import threading
import time

import pytest

from bench.fault import Fault
from bench.screens.offscreen import Stage


@pytest.fixture
def aside(stage: Stage):
    from bench.screens.aside import Aside

    return Aside()


def settle(stage: Stage, wanted) -> None:
    until = time.monotonic() + 20
    while not wanted() and time.monotonic() < until:
        time.sleep(0.01)
        stage.frame()


def test_a_result_comes_back_on_the_thread_of_the_screens(stage: Stage, aside) -> None:
    heard = []
    aside.begin(
        "Counting …",
        lambda progress: threading.get_ident(),
        lambda result: heard.append((result, threading.get_ident())),
        heard.append,
    )
    assert (aside.busy, heard) == ("Counting …", [])
    settle(stage, lambda: heard)
    [(worked_on, came_back_on)] = heard
    assert came_back_on == threading.get_ident() != worked_on
    assert (aside.busy, aside.share) == ("", 0.0)


def test_how_far_it_is_can_be_followed(stage: Stage, aside) -> None:
    go_on, seen = threading.Event(), []
    aside.bind(share=lambda _aside, share: seen.append(share))

    def work(progress) -> bool:
        wanted = progress(0.5)
        go_on.wait(20)
        return wanted

    heard = []
    aside.begin("Half …", work, heard.append, heard.append)
    settle(stage, lambda: aside.share == 0.5)
    go_on.set()
    settle(stage, lambda: heard)
    assert heard == [True]
    assert seen == [0.5, 0.0]


def test_a_fault_is_told_and_not_used(stage: Stage, aside) -> None:
    used, told = [], []

    def work(progress) -> None:
        raise Fault("it broke off")

    aside.begin("Reading …", work, used.append, told.append)
    settle(stage, lambda: told)
    assert (used, [fault.what for fault in told]) == ([], ["it broke off"])


def test_what_was_dropped_hears_that_nobody_waits_and_its_result_goes_nowhere(stage: Stage, aside) -> None:
    go_on, wanted, heard = threading.Event(), [], []

    def work(progress) -> str:
        go_on.wait(20)
        wanted.append(progress(0.9))
        return "first"

    aside.begin("First …", work, heard.append, heard.append)
    aside.begin("Second …", lambda progress: "second", heard.append, heard.append)
    settle(stage, lambda: heard)
    go_on.set()
    settle(stage, lambda: wanted)
    stage.frame(5)
    assert (wanted, heard, aside.share) == ([False], ["second"], 0.0)
