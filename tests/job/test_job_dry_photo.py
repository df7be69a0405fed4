"""A photographed lay: count and picture are one act, kept, undone and forgotten together."""

import hashlib
import io
import sqlite3
from contextlib import closing

import numpy as np
import pytest
from PIL import Image

from bench.book import Store
from bench.book.events import BenchSet, DryPhotographed, SectionLaid
from bench.book.files import BOOK_NAME
from bench.drawing.dry import as_kept
from bench.drawing.dry.keep import MOST_KEPT_PX
from bench.drawing.photo import Picture, read_picture
from bench.fault import Fault
from bench.job.acts import dry, dry_photo, record
from bench.job.acts.opening import open_panel
from bench.job.cup_faults import CupInUse
from bench.job.faults import CountOutOfRange, WrongStage
from bench.job.job import Job
from bench.job.words import book_lines
from tests.fakes.benches import set_section
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.dry_photos import WORKSHOP, laid
from tests.fakes.photographed import CORNERS, photograph


def test_the_count_and_the_photo_are_one_act_and_undo_takes_back_both(job):
    drawn = len(job.section(1).tesserae)
    photograph(job, 1, drawn + 2)
    section = job.section(1)
    assert (section.stage, section.piece_count) == ("dry", drawn + 2)
    assert job.store.blob(section.photo.photo) == b"a photo"
    assert [type(x.event) for x in job.store.events(job.panel_id)[-2:]] == [SectionLaid, DryPhotographed]
    record.undo(job)
    assert (job.section(1).stage, job.section(1).photo) == ("drawn", None)


def test_undo_of_a_second_photo_brings_back_the_first(job):
    photograph(job, 1, 20, data=b"one")
    photograph(job, 1, 22, data=b"two")
    record.undo(job)
    assert job.section(1).piece_count == 20
    assert job.store.blob(job.section(1).photo.photo) == b"one"


def test_a_section_that_is_taken_up_forgets_its_photo_and_the_book_does_not(job):
    photograph(job, 1, 20)
    dry.take_up(job, 1)
    assert job.section(1).photo is None
    kept = [line for line in book_lines(job, section=1) if line.photo]
    assert [line.text for line in kept] == ["Section 1 photographed: 19 pieces found, 20 counted"]
    assert job.store.blob(kept[0].photo.photo) == b"a photo"


def test_a_photo_goes_with_the_parts_of_a_section_that_is_split_and_through_the_glue_up(job):
    photograph(job, 1, len(job.section(1).tesserae))
    numbers = dry.split(job, 1)
    assert len(numbers) > 1
    assert all(job.section(n).photo is not None for n in numbers)
    set_section(job, numbers[0])
    assert job.section(numbers[0]).photo is not None


def test_a_count_by_hand_afterwards_leaves_the_photo(job):
    photograph(job, 1, 20)
    dry.lay(job, 1, 21)
    assert (job.section(1).piece_count, job.section(1).photo.said) == (21, 20)


@pytest.mark.parametrize("said", [0, 100_000])
def test_a_count_that_cannot_be_writes_neither_the_count_nor_the_photo(job, said):
    before = job.store.last_seq(job.panel_id)
    if said:
        with pytest.raises(CountOutOfRange):
            photograph(job, 1, said)
    else:
        with pytest.raises(CountOutOfRange):
            dry_photo.photograph(
                job, 1, b"x", corner_px=CORNERS, frame=dry_photo.task_for(job, 1).frame,
                corrections=(), found=0, said=0,
            )  # fmt: skip
    assert job.store.last_seq(job.panel_id) == before
    with pytest.raises(Fault, match="holds no file"):
        job.store.blob(hashlib.sha256(b"x" if not said else b"a photo").hexdigest())


def test_only_what_is_drawn_or_dry_is_photographed(job):
    set_section(job, 1)
    with pytest.raises(WrongStage):
        photograph(job, 1, 20)


def test_a_section_at_the_cup_keeps_its_count(job):
    from bench.job.acts import cup

    dry.lay(job, 1)
    cup.open_mix(job, 1, 21.0)
    with pytest.raises(CupInUse):
        photograph(job, 1, 20)


def test_a_full_disk_keeps_nothing_of_it_and_the_panel_is_as_before(tmp_path):
    class Full(sqlite3.Connection):
        full = False

        def execute(self, statement, *args):
            if Full.full and "dry_photographed" in str(args):
                raise _full()
            return super().execute(statement, *args)

    with Store.open(tmp_path, factory=Full) as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg")
        Full.full = True
        with pytest.raises(Fault, match="disk"):
            photograph(job, 1, 20)
        Full.full = False
        assert (job.section(1).stage, job.section(1).photo) == ("drawn", None)
        assert Job(store, FakeClock(), job.panel_id).state == job.state
        with pytest.raises(Fault):
            store.blob(hashlib.sha256(b"a photo").hexdigest())


def _full():
    error = sqlite3.OperationalError("database or disk is full")
    error.sqlite_errorcode = sqlite3.SQLITE_FULL
    return error


def test_a_copy_of_the_book_made_by_sqlite_carries_the_photo_and_what_was_said(tmp_path):
    """SQLite's own online backup stands for whoever carries the book elsewhere."""
    (tmp_path / "there").mkdir()
    with Store.open(tmp_path) as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg")
        photograph(job, 1, 20)
        with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as here, closing(
            sqlite3.connect(tmp_path / "there" / BOOK_NAME)
        ) as there:
            here.backup(there)
    with Store.open(tmp_path / "there") as store:
        section = Job(store, FakeClock(), 1).section(1)
        assert store.blob(section.photo.photo) == b"a photo"
        assert dry_photo.corrections_of(section.photo)[0].points_mm == ((3.0, 4.0),)
        assert dry_photo.frame_of(section.photo) == dry_photo.task_for(job_of(store), 1).frame


def job_of(store):
    return Job(store, FakeClock(), 1)


def test_a_photo_is_kept_small_upright_and_without_a_word_of_who_took_it():
    rng = np.random.default_rng(0)
    file = io.BytesIO()
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "a maker"
    image = Image.fromarray(rng.integers(0, 256, (300, 400, 3), np.uint8)).resize((3600, 2400))
    image.save(file, "JPEG", exif=exif)
    assert b"a maker" in file.getvalue()
    kept = as_kept(read_picture(file.getvalue(), "a.jpg"))
    with Image.open(io.BytesIO(kept)) as after:
        assert after.size[0] * after.size[1] <= MOST_KEPT_PX
        assert after.size[1] / after.size[0] == pytest.approx(1.5, rel=0.01)
        assert not after.getexif()
    assert b"a maker" not in kept
    small = Picture(rng.integers(0, 256, (30, 40, 3), np.uint8), None, "b")
    turned = read_picture(as_kept(small, 1), "b")
    assert turned.pixels.shape == (40, 30, 3)


def test_what_was_said_is_said_again_over_the_kept_photo(store, clock):
    """From a photo file to the count, out of the book again, and the same pieces."""
    job = open_panel(store, clock, grid_svg(24, 12, joint_mm=1.0), "grid.svg", bench=BenchSet())
    section = max(job.state.sections.values(), key=lambda s: len(s.tesserae))  # fills most of its photo
    task = dry_photo.task_for(job, section.number)
    box = (task.frame.x_mm, task.frame.y_mm, task.frame.width_mm, task.frame.height_mm)
    photo = laid(job.panel, section.tesserae, box, light=WORKSHOP, missing=section.tesserae[3:4])
    data = as_kept(read_picture(photo.data, "lay.jpg"))
    flat = dry_photo.squared(read_picture(data, "lay.jpg"), photo.corner_px, task.frame)
    found = dry_photo.look(flat, task)
    assert found.count == photo.count == len(section.tesserae) - 1
    from bench.drawing.dry import compared, corrected, tapped

    said = [tapped(found, *photo.centroid_mm[7])]
    assert compared(found, job.panel, section.tesserae, task.frame).gaps == (section.tesserae[3],)
    after = corrected(found, said)
    dry_photo.photograph(
        job, section.number, data, corner_px=photo.corner_px, frame=task.frame, corrections=said,
        found=found.count, said=after.count,
    )  # fmt: skip
    event = Job(store, clock, job.panel_id).section(section.number).photo
    again = dry_photo.look(dry_photo.shown(store.blob(event.photo), event), task)
    once_more, held = dry_photo.said_again(again, dry_photo.corrections_of(event))
    assert np.array_equal(once_more.labels, after.labels)
    assert held == tuple(said)
    assert (event.found, event.said) == (photo.count, photo.count - 1)


def test_a_word_that_no_longer_fits_is_passed_over(job):
    from bench.drawing.dry import Correction, Found

    found = Found(np.zeros((50, 50), np.int32), 0.2, np.zeros(0, bool))
    words = [
        Correction(kind="taken_away", points_mm=((2.0, 2.0),)),
        Correction(kind="added", points_mm=((5.0, 5.0),)),
    ]
    after, held = dry_photo.said_again(found, words)
    assert (after.count, held) == (1, (words[1],))


def test_on_a_mirrored_cartoon_the_photo_is_shown_as_the_panel_lies(store, clock):
    bench = BenchSet(transfer="face-down")
    job = open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=bench)
    assert dry_photo.task_for(job, 1).frame.mirrored
    pixels = np.zeros((320, 420, 3), np.uint8)
    pixels[:, :210] = 255
    data = as_kept(Picture(pixels, None, "half"))
    photograph(job, 1, 20, data=data)
    seen = dry_photo.shown(data, job.section(1).photo).pixels
    assert seen[:, : seen.shape[1] // 3].mean() < 30
    assert seen[:, -seen.shape[1] // 3 :].mean() > 225


def test_the_pieces_of_a_dry_neighbour_are_not_counted(job):
    other = next(n for n in job.state.sections if n != 1)
    assert dry_photo.task_for(job, 1).others == ()
    dry.lay(job, other)
    assert set(dry_photo.task_for(job, 1).others) == set(job.section(other).tesserae)
