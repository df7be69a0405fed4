"""What the book says is said as a person would."""

from bench.book import Store
from bench.job.acts import dry
from bench.job.acts.opening import open_panel
from bench.job.words import book_lines
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


def test_one_piece_is_no_pieces():
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), grid_svg(1, 1), "one.svg")
        dry.lay(job, 1)
        assert book_lines(job)[0].text == "Section 1 lies dry: 1 piece"
