"""The loop by touches: from the panel over dry, cup and glue-up, and back to the panel."""

import pytest

from bench.book import Store
from bench.job.advice import advise
from bench.job.job import Job
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, settle
from tests.fakes.tapping import tap_all, type_in, work_for


def test_a_section_is_set_by_touches_and_the_next_one_follows_from_it(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job, number = desk.job, advise(desk.job).section
        pieces = len(job.section(number).tesserae)
        for name in ("next", "as_drawn", "to_the_cup", "use_room", "read_it"):
            stage.tap(name)
        assert job.section(number).stage == "dry"
        stage.tap("first_contact")
        assert desk.screen == "glueup"
        assert job.life(number) == "wet"
        with stage.followed_by(job.clock.advance):
            stage.run(12 * 60, dt_s=5)
        stage.tap("done")
        stage.tap("all_placed")
        assert job.life(number) == "soft"
        assert job.mix(1).closed.placed == pieces
        settle(stage, desk)
        desk.go("panel")
        stage.frame(2)
        following = advise(job).section
        assert following not in (None, number)
        assert stage.find("picture").next_number == following
        assert stage.find("undo").says.startswith(f"Section {number}: {pieces} pieces set")


def test_practice_says_so_on_every_screen(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        desk.practice = True
        for screen in ("dry", "book", "finish", "rounds", "panel"):
            desk.go(screen)
            desk.version += 1
            stage.frame(2)
            assert any(text.startswith("Practice") for text in stage.texts()), screen


TO_THE_GLUE_UP = ("next", "as_drawn", "to_the_cup", "use_room", "read_it", "first_contact")


def in_exactly_one_section(job: Job) -> bool:
    tesserae = sorted(t for section in job.state.sections.values() for t in section.tesserae)
    return tesserae == list(range(job.panel.tessera_count))


def test_stringy_early_some_left_and_tomorrows_sections_are_smaller(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job, number = desk.job, advise(desk.job).section
        promised = max(len(s.tesserae) for s in job.state.with_stage("drawn"))
        tap_all(stage, *TO_THE_GLUE_UP)
        work_for(stage, desk, 11)
        tap_all(stage, "count_quarter", "count_quarter", "stringy")
        work_for(stage, desk, 2)
        counted = job.mix(1).placed
        tap_all(stage, "done", "some_left", "left_counted", "why_0")
        settle(stage, desk)
        assert job.mix(1).closed.placed == counted
        assert job.mix(1).closed.why_left == "stringy"
        assert set(job.mix(1).closed.left) <= {t for s in job.state.with_stage("drawn") for t in s.tesserae}
        assert in_exactly_one_section(job)
        assert max(len(s.tesserae) for s in job.state.with_stage("drawn")) < promised
        assert number in job.state.sections


def test_undo_on_the_panel_takes_the_end_back_and_the_glue_up_goes_on(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        tap_all(stage, *TO_THE_GLUE_UP)
        work_for(stage, desk, 10)
        tap_all(stage, "done", "all_placed")
        settle(stage, desk)
        desk.go("panel")
        stage.frame(3)
        stage.tap("undo")
        assert desk.job.mix(1).is_running
        tap_all(stage, "next")
        assert desk.screen == "glueup"
        assert "time_left" in stage.names()


def reopened(stage: Stage, store: Store, clock, panel_id: int):
    """Open the app anew on what the book holds, as after a kill: nothing else is carried over."""
    from bench.app import bench_app

    return stage.play(bench_app(Job(store, clock, panel_id)))


def test_killed_in_mid_glue_up_it_opens_there_with_the_clock_running(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job = desk.job
        tap_all(stage, *TO_THE_GLUE_UP)
        work_for(stage, desk, 6)
        tap_all(stage, "count_10", "pause")
        number = job.mix(1).section
        stage.clear()  # killed: no act, no mark, nothing written on the way out
        job.clock.advance(120)
        with reopened(stage, job.store, job.clock, job.panel_id) as app:
            again = app.desk
            assert again.screen == "glueup"
            left_s = again.job.reading(1).left_s
            assert left_s == pytest.approx(job.mix(1).working_time_s - 480, abs=10)
            assert stage.find("time_left").text == f"{int(left_s) // 60}:{int(left_s) % 60:02d}"
            assert again.job.mix(1).placed == 10
            assert stage.find("pause").text == "Go on"
            tap_all(stage, "pause", "done", "all_placed")
            settle(stage, again)
            assert again.job.life(number) == "soft"


def test_restarted_in_mid_glue_up_no_time_is_credited_and_it_can_still_be_closed(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job = desk.job
        tap_all(stage, *TO_THE_GLUE_UP)
        work_for(stage, desk, 3)
        stage.clear()
        job.clock.reboot(90)
        with reopened(stage, job.store, job.clock, job.panel_id) as app:
            assert stage.find("mood").text == "clock unsure"
            assert stage.find("time_left").text == "0:00"
            tap_all(stage, "done", "all_placed")
            settle(stage, app.desk)
            assert app.desk.job.mix(1).closed.unsure


def test_killed_at_the_scale_it_opens_at_the_scale(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job = desk.job
        tap_all(stage, "next", "as_drawn", "to_the_cup", "use_room", "read_it", "rung_2")
        poured_g = job.mix(1).poured_resin_g
        stage.clear()
        with reopened(stage, job.store, job.clock, job.panel_id) as app:
            assert app.desk.screen == "cup"
            assert stage.find("resin_g").text == f"{poured_g:.1f} g"
            rungs = stage.find("ladder")
            assert rungs.rungs[rungs.chosen][0] == f"{poured_g:.1f}"


def test_turned_in_mid_glue_up_it_goes_on_to_the_end(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        tap_all(stage, *TO_THE_GLUE_UP)
        for size in ((800, 1280), (1280, 800), (800, 1280)):
            stage.resize(*size)
            work_for(stage, desk, 3)
            stage.tap("count_10")
        assert desk.job.mix(1).placed == 30
        tap_all(stage, "done", "all_placed")
        settle(stage, desk)
        assert desk.job.mix(1).closed.finished_after_s == pytest.approx(540, abs=15)


def test_a_count_of_pieces_laid_reaches_the_cup_and_the_chart(stage: Stage) -> None:
    """From Dry on the section is what was laid: a hundred pieces counted are a hundred on the chart."""
    with at_the_bench(stage) as desk:
        tap_all(stage, "next", "count")
        pieces = len(desk.job.section(desk.section).tesserae) + 3
        type_in(stage, str(pieces))
        tap_all(stage, "to_the_cup", "use_room")
        if "go_on" in stage.names():
            stage.tap("go_on")
        tap_all(stage, "read_it", "first_contact", "step_spread")
        assert stage.find("chart").pieces == pieces
