"""A photo attached to an entry is a file of the book, and is taken back like anything else."""

import io

import numpy as np
import pytest
from PIL import Image

from bench.book import Store
from bench.drawing.photo import Picture
from bench.job.acts import record
from bench.job.acts.attach import attach_photo
from bench.job.acts.opening import open_panel
from bench.job.faults import NotAttachable
from bench.job.words import book_lines
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


@pytest.fixture
def job():
    with Store.in_memory() as store:
        yield open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg")


def picture(shade: int = 120, size: tuple[int, int] = (30, 40)) -> Picture:
    return Picture(np.full((*size, 3), shade, np.uint8), None, "bowl.jpg")


def line_of(job, seq: int):
    return next(line for line in book_lines(job) if line.seq == seq)


def test_an_entry_knows_its_photo_and_the_photo_what_it_belongs_to(job) -> None:
    record.note(job, "edge looks dull")
    about = book_lines(job)[0].seq
    attach_photo(job, about, picture())
    newest = book_lines(job)[0]
    assert newest.text == "Photo attached to: edge looks dull"
    assert line_of(job, about).attached == newest.attached
    kept = np.asarray(Image.open(io.BytesIO(job.store.blob(newest.attached[0]))))
    assert kept.shape == (30, 40, 3)
    assert np.abs(kept.astype(int) - 120).max() <= 2


def test_the_newest_of_several_comes_first(job) -> None:
    about = book_lines(job)[-1].seq
    for shade in (10, 200):
        attach_photo(job, about, picture(shade))
    photos = [job.store.blob(photo) for photo in line_of(job, about).attached]
    shades = [np.asarray(Image.open(io.BytesIO(photo))).mean() for photo in photos]
    assert shades == sorted(shades, reverse=True)
    assert len(shades) == 2


def test_taken_back_the_entry_has_it_no_more_and_the_book_still_does(job) -> None:
    about = book_lines(job)[-1].seq
    attach_photo(job, about, picture())
    photo = line_of(job, about).attached[0]
    record.undo(job)
    assert line_of(job, about).attached == ()
    assert job.store.blob(photo)


def test_a_large_photo_is_kept_with_six_megapixels(job) -> None:
    about = book_lines(job)[-1].seq
    attach_photo(job, about, picture(size=(3000, 4000)))
    kept = Image.open(io.BytesIO(job.store.blob(line_of(job, about).attached[0])))
    assert kept.size[0] * kept.size[1] <= 6_000_000


def test_what_takes_no_photo_is_refused_and_nothing_is_written(job) -> None:
    record.note(job, "one")
    note = book_lines(job)[0].seq
    attach_photo(job, note, picture())
    photo = book_lines(job)[0].seq
    record.undo(job)
    record.undo(job)
    last = job.store.last_seq(job.panel_id)
    for about in (0, 9999, photo, note, last):
        with pytest.raises(NotAttachable):
            attach_photo(job, about, picture())
    assert job.store.last_seq(job.panel_id) == last
