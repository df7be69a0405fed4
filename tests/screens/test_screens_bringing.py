"""A panel in one file: bundled on Book, found and opened on Drawings, its hands asked for once."""

import shutil

import pytest

from bench.book import Store
from bench.job.acts import record
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from bench.job.same_hands import not_asked
from bench.job.settings import LAST_PANEL
from bench.screens.drawings import BUNDLES, documents_folder, drawing_files, is_meant
from bench.speech import Tongue, speak
from tests.fakes.benches import at_the_bench, changed, set_section, start_mix
from tests.fakes.bundles import bundled
from tests.fakes.gloves import complaints

SIZES = ((1280, 800), (800, 1280), (2560, 1600))


@pytest.fixture
def desk(stage, home):
    (home / "Documents").mkdir()
    with at_the_bench(stage) as desk:
        yield desk


def bundle_files(folder):
    return [path for path in drawing_files([folder], BUNDLES) if is_meant(path)]


def open_on_drawings(stage, desk, stem):
    desk.go("open")
    stage.frame(2)
    stage.tap(f"open_bundle_{stem}")
    stage.run(1)


def test_only_bundles_are_listed(home, tmp_path):
    (home / "Documents").mkdir()
    bundled(home / "Documents", name="lemons.zip")
    (home / "Documents" / "holiday.zip").write_bytes(b"PK\x05\x06" + bytes(18))
    assert [path.name for path in bundle_files(home / "Documents")] == ["lemons.zip"]
    assert documents_folder() == home / "Documents"


def test_the_panel_is_bundled_into_the_documents(stage, desk, home):
    set_section(desk.job, min(desk.job.state.sections))
    changed(desk)
    desk.go("book")
    stage.frame(2)
    for _ in range(2):
        stage.tap("bundle")
        stage.run(1)
        assert any("It lies in: Documents." in text for text in stage.texts())
        stage.tap("reading_close")
    found = bundle_files(home / "Documents")
    assert len(found) == 2
    with Store.in_memory() as store:
        assert open_the_bundle(store, desk.job.clock, found[0]).job.state == desk.job.state


def test_nothing_is_bundled_while_a_mix_runs(stage, desk):
    """The key says why; on a low screen it is not there, the rows that run have its room."""
    desk.go("book")
    stage.frame(2)
    assert not stage.find("bundle").disabled
    start_mix(desk.job, min(desk.job.state.sections))
    changed(desk)
    stage.frame(2)
    assert "bundle" not in stage.names()
    stage.resize(800, 1280)
    stage.frame(2)
    assert stage.find("bundle").disabled


@pytest.mark.parametrize(("act", "same"), [("hands_same", True), ("hands_other", False)])
def test_a_bundle_is_opened_and_its_hands_are_asked_for_once(stage, desk, home, act, same):
    path = bundled(home / "Documents", name="lemons.zip")
    before = desk.job
    open_on_drawings(stage, desk, "lemons")
    assert stage.find("brought_says").text.startswith("Lemons is here, with ")
    assert desk.job is not before
    entries = desk.job.store.events(desk.job.panel_id)
    assert not_asked(desk.job.store, entries)
    stage.tap(act)
    assert not not_asked(desk.job.store, entries)
    assert ("count as yours" in stage.find("brought_more").text) == same
    stage.tap("brought_turn")
    assert desk.screen == "panel"
    assert desk.job.state.name == "Lemons"
    assert desk.job.store.setting(LAST_PANEL) == str(desk.job.panel_id)
    shutil.copy(path, path.with_stem("again"))
    open_on_drawings(stage, desk, "again")
    assert stage.find("brought_says").text == "All of Lemons was here already."
    assert "hands_same" not in {getattr(w, "test_name", "") for w in stage.widgets()}


def test_what_comes_back_to_the_open_panel_is_worked_on_at_once(stage, desk, home):
    job = desk.job
    with Store.in_memory() as there:
        path = bundle_panel(job.store, job.clock, job.panel_id, home / "Documents" / "out.zip").path
        away = open_the_bundle(there, job.clock, path).job
        record.note(away, "from the school")
        bundle_panel(there, job.clock, away.panel_id, home / "Documents" / "back.zip")
    open_on_drawings(stage, desk, "back")
    assert desk.job.panel_id == job.panel_id
    assert desk.job.state.act_ids[-1] == away.state.act_ids[-1]
    desk.go("book")
    stage.frame(2)
    assert "from the school" in stage.texts()


def test_a_bundle_that_is_broken_ends_in_a_card(stage, desk, home):
    path = bundled(home / "Documents", name="lemons.zip")
    path.write_bytes(path.read_bytes()[:-40])
    before = desk.job
    open_on_drawings(stage, desk, "lemons")
    assert "cut short" in desk.fault_what
    assert desk.job is before
    assert len(desk.job.store.panels()) == 1


@pytest.mark.parametrize("size", SIZES)
def test_a_gloved_thumb_hits_all_of_it(stage, desk, home, size):
    bundled(home / "Documents", name="lemons.zip")
    set_section(desk.job, min(desk.job.state.sections))
    changed(desk)
    stage.resize(*size)
    desk.go("book")
    stage.frame(2)
    assert complaints(stage) == {}
    stage.tap("bundle")
    stage.run(1)
    assert complaints(stage) == {}
    open_on_drawings(stage, desk, "lemons")
    assert complaints(stage) == {}
    stage.tap("hands_same")
    assert complaints(stage) == {}


def test_what_came_is_read_in_german_and_nothing_is_cut(stage, desk, home):
    bundled(home / "Documents", name="lemons.zip")
    speak(Tongue("de"))
    try:
        open_on_drawings(stage, desk, "lemons")
        assert stage.find("brought_says").text.startswith("Lemons ist hier, mit ")
        for act in ("hands_same", "brought_turn"):
            for width, height in SIZES:
                stage.resize(width, height)
                assert complaints(stage) == {}
            stage.resize(1280, 800)
            if act == "hands_same":
                stage.tap(act)
                assert stage.find("brought_more").text == "Ihre Klebungen zählen als eigene."
    finally:
        speak(Tongue())
