"""Book, what it learned: graphs turned and tapped, spots that lead to their entries, one day's entries."""

from contextlib import contextmanager

import pytest
from kivy.graphics import Color

from bench.app import bench_app
from bench.book import Store
from bench.job.acts import glueup, weigh_cup
from bench.job.acts.lasting import lasting
from bench.job.trend_words import trends_of
from bench.job.words import book_lines
from bench.screens.contrast import TEXT_CONTRAST, contrast
from bench.screens.offscreen import Stage
from bench.screens.theme import LOOKS, SMALL_SP, theme
from tests.fakes.benches import set_section, settle, start_mix
from tests.fakes.gloves import complaints
from tests.fakes.long_books import book_of, days

SIZES = [(1280, 800), (800, 1280)]


@contextmanager
def learned(stage: Stage, job):
    """Play the app on a job and turn to what its book has learned."""
    with stage.play(bench_app(job)) as app:
        app.desk.go("book")
        stage.frame(2)
        stage.tap("what_it_learned")
        stage.run(1.0)
        yield app.desk


@pytest.fixture
def store():
    with Store.in_memory() as made:
        yield made


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("look", sorted(LOOKS))
def test_every_graph_can_be_worked_with_gloves_on(stage: Stage, store, size, look) -> None:
    with learned(stage, book_of(store, days(30, pause_after=20))):
        stage.resize(*size)
        theme.look = look
        titles = []
        for _ in range(4):
            titles.append(stage.find("graph_title").text)
            assert stage.find("graph").layout is not None
            assert complaints(stage) == {}
            stage.tap("graph_next")
        assert len(set(titles)) == 4
        assert stage.find("graph_title").text == titles[0]


def test_a_tap_on_a_spot_says_what_it_is_and_leads_to_its_entry(stage: Stage, store) -> None:
    job = book_of(store, days(30))
    with learned(stage, job):
        view = stage.find("graph")
        assert stage.find("spot_entry").disabled
        for number in (3, 17, 29):
            stage.tap_at(*view.place_of(number))
            assert view.chosen == number
            assert stage.find("graph_says").text == view.graph.spots[number].says
        seq = view.graph.spots[29].seq
        stage.tap("spot_entry")
        stage.run(0.5)
        assert stage.find(f"entry_{seq}").marked
        assert "pieces set in" in stage.find(f"entry_{seq}").text


def test_an_old_spot_leads_to_a_page_far_back(stage: Stage, store) -> None:
    with learned(stage, book_of(store, days(30))):
        view = stage.find("graph")
        stage.tap_at(*view.place_of(0))
        seq = view.graph.spots[0].seq
        stage.tap("spot_entry")
        stage.run(0.5)
        assert stage.find(f"entry_{seq}").marked
        assert not stage.find("newer").disabled
        stage.tap("newer")
        assert f"entry_{seq}" not in stage.names()


def test_a_finger_off_every_spot_chooses_none_and_keys_step_through_all(stage: Stage, store) -> None:
    with learned(stage, book_of(store, days(5))):
        view = stage.find("graph")
        stage.tap_at(view.x + 5, view.y + 5)
        assert view.chosen == -1
        stage.tap("spot_before")
        chosen = [view.chosen]
        while not stage.find("spot_before").disabled:
            stage.tap("spot_before")
            chosen.append(view.chosen)
        assert chosen == [4, 3, 2, 1, 0]
        stage.tap("spot_after")
        assert view.chosen == 1


def test_a_spot_of_another_panel_leads_to_that_panels_book(stage: Stage, store) -> None:
    cloth = book_of(store, days(3), name="Cloth")
    with learned(stage, book_of(store, days(2, pause_after=0), name="Lemons", seed=2)) as desk:
        view = stage.find("graph")
        number = next(k for k, s in enumerate(view.graph.spots) if s.panel_id == cloth.panel_id)
        stage.tap_at(*view.place_of(number))
        stage.tap("spot_entry")
        stage.run(0.5)
        assert "Book of Cloth" in stage.texts()
        assert stage.find(f"entry_{view.graph.spots[number].seq}").marked
        stage.tap("all_sections")
        assert "Book" in stage.texts()
        assert stage.find(f"entry_{book_lines(desk.job)[0].seq}")


def test_an_empty_book_says_what_will_be_seen(stage: Stage, store) -> None:
    with learned(stage, book_of(store, [])):
        for size in SIZES:
            stage.resize(*size)
            assert stage.find("graph_says").text.startswith("After the first glue-up")
            assert stage.find("spot_before").disabled
            assert stage.find("spot_entry").disabled
            assert complaints(stage) == {}


def test_a_long_book_shows_the_newest_and_all_on_demand(stage: Stage, store) -> None:
    with learned(stage, book_of(store, days(90))):
        view = stage.find("graph")
        assert len(view.graph.spots) == 60
        newest = view.graph.spots[-1]
        stage.tap("graph_whole")
        assert len(view.graph.spots) == 90
        assert view.graph.spots[-1] == newest
        assert complaints(stage) == {}
        stage.tap("graph_whole")
        assert len(view.graph.spots) == 60


def test_trends_are_read_in_words_and_the_graph_stays(stage: Stage, store) -> None:
    job = book_of(store, days(6))
    with learned(stage, job):
        stage.tap("graph_next")
        title = stage.find("graph_title").text
        stage.tap("learned_words")
        assert set(trends_of(job)) <= set(stage.texts())
        assert complaints(stage) == {}
        stage.tap("reading_close")
        assert stage.find("graph_title").text == title
        stage.tap("learned_close")
        assert stage.find("what_it_learned")
        assert "Book" in stage.texts()


def test_words_on_a_graph_are_large_and_stand_out(stage: Stage, store) -> None:
    """WCAG 2.2, 1.4.6: 7 to 1. Graphs are drawn in ink on a plate, and in nothing else."""
    assert SMALL_SP >= 24
    with learned(stage, book_of(store, days(3))):
        for look in LOOKS:
            theme.look = look
            stage.frame(2)
            drawn = stage.find("graph").canvas.children
            inks = [i for group in drawn for i in getattr(group, "children", []) if isinstance(i, Color)]
            colours = {tuple(ink.rgba) for ink in inks}
            assert colours
            assert colours <= {tuple(theme.ink), tuple(theme.plate)}
            assert contrast(theme.ink, theme.plate) >= TEXT_CONTRAST


def test_the_entries_of_one_day_are_shown_alone(stage: Stage, store) -> None:
    job = book_of(store, days(7))
    with learned(stage, job):
        stage.tap("learned_close")
        stage.tap("some")
        assert complaints(stage) == {}
        stage.tap("day_2026-01-06")
        shown = [w for w in stage.widgets() if getattr(w, "test_name", "").startswith("entry_")]
        assert shown
        assert all("6 January" in row.when for row in shown)
        assert "Book, 6 January" in stage.texts()
        stage.tap("all_sections")
        assert "Book" in stage.texts()
        stage.tap("some")
        stage.tap("all_days")
        assert stage.find("some")


@pytest.mark.parametrize("size", [*SIZES, (2560, 1600)])
def test_a_longer_life_is_asked_for_beside_its_graph_and_taken_back_there(stage: Stage, store, size) -> None:
    job = book_of(store, [])
    for after_min in (36, 37, 38, 37):
        mix = start_mix(job, job.state.with_stage("drawn")[0].number)
        job.clock.advance(60 * after_min)
        glueup.stringy(job, mix)
        glueup.close(job, mix)
        job.clock.advance(24 * 3600)
    with learned(stage, job) as desk:
        stage.resize(*size, density=2.0 if size[0] > 2000 else 1.0)
        assert "lasting" not in stage.names()
        stage.tap("graph_next")
        stage.tap("graph_next")
        assert stage.find("lasting").text == "Let it last longer"
        assert "longer than the label" in stage.find("graph_says").text
        assert complaints(stage) == {}
        stage.tap("lasting")
        settle(stage, desk)
        assert stage.find("lasting").text == "Hold it to the label"
        assert stage.find("graph_says").text.count("You let it last as shown") == 1
        assert lasting(job, job.state.bench.adhesive).allowed
        assert complaints(stage) == {}
        stage.tap("lasting")
        settle(stage, desk)
        assert not lasting(job, job.state.bench.adhesive).allowed


def test_a_weighed_cup_is_a_mark_that_leads_to_its_entry(stage: Stage, store) -> None:
    job = book_of(store, [])
    mix = set_section(job, 1)
    weigh_cup.weigh_cup(job, mix, gross_g=6.0, tare_g=4.5, cup="scraped")
    with learned(stage, job):
        for _ in range(3):
            stage.tap("graph_next")
        words = [word.text for word in stage.find("graph").layout.words]
        assert any("on the bed, by its cup" in word for word in words)
        stage.tap("spot_before")
        assert "1.5 g stayed in the cup" in stage.find("graph_says").text
        stage.tap("spot_entry")
        marked = [w for w in stage.widgets() if getattr(w, "marked", False) is True]
        assert [w.text for w in marked] == [book_lines(job)[0].text]
