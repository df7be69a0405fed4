"""Back after weeks: one card beside the panel, however the absence ended."""

from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section, settle
from tests.fakes.gloves import complaints


def test_back_after_weeks_one_card_stands_beside_the_panel_until_it_is_read(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job = desk.job
        set_section(job, min(job.state.sections))
        job.clock.advance(20 * 86_400)
        desk.come_back()
        settle(stage, desk)
        desk.go("rounds")
        desk.go("panel")
        stage.frame(3)
        assert "Welcome back" in stage.texts()
        assert any(text.startswith("20 days ago: Section") for text in stage.texts())
        assert complaints(stage) == {}
        stage.tap("reading_close")
        assert "next" in stage.names()
        desk.go("rounds")
        desk.go("panel")
        stage.frame(3)
        assert "Welcome back" not in stage.texts()


def test_a_tablet_that_was_left_on_for_weeks_welcomes_back_too(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job = desk.job
        set_section(job, min(job.state.sections))
        changed(desk)
        stage.frame(2)
        job.clock.advance(20 * 86_400)
        stage.run(6)
        settle(stage, desk)
        assert "Welcome back" in stage.texts()
        assert desk.come_back()  # as long as it was not read; divided anew it is once
        assert not desk.dividing
        stage.tap("reading_close")
        stage.run(6)
        assert "Welcome back" not in stage.texts()
