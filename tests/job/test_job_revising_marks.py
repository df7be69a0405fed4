"""What the book knows of single pieces outlives a revised drawing where they do."""

import numpy as np

from bench.job.acts import glueup, opening, record, shaping
from tests.fakes.benches import start_mix
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.revisions import assert_whole, places, revise, wants_adhesive
from tests.fakes.shapes import page


def test_pieces_left_over_are_still_known_where_they_are_as_they_were(job):
    mix = start_mix(job, 1)
    job.clock.advance(900)
    glueup.close(job, mix, left=8, why="stringy")
    opening.divide_anew(job)
    left = sorted(job.state.laid_once - set(job.section(1).tesserae))
    where = job.panel.centroid_mm[left].round(3).tolist()
    changed = where[:3]

    def colour(c, r):
        return YELLOW if [round(7 * c + 3.5, 3), round(7 * r + 3.5, 3)] in changed else BLUE

    revise(job, grid_svg(24, 12, colour=colour))
    left = sorted(job.state.laid_once - set(job.section(1).tesserae))
    assert sorted(job.panel.centroid_mm[left].round(3).tolist()) == sorted(where[3:])


def test_a_section_shaped_by_hand_stays_while_its_pieces_do(job):
    number, other = (s.number for s in job.state.with_stage("drawn")[-2:])
    for one in (number, other):
        stroke = [(float(np.mean([x for x, _ in places(job, one)])), -9.0)]
        stroke.append((stroke[0][0] + 3.0, 999.0))
        shaping.shape(job, shaping.try_split(job, one, stroke))
    made = {s.number: places(job, s.number) for s in job.state.sections.values() if s.by_hand}
    assert len(made) >= 4
    touched = made[number][0]
    tried = revise(
        job,
        grid_svg(24, 12, colour=lambda c, r: YELLOW if (7 * c + 3.5, 7 * r + 3.5) == touched else BLUE),
    )
    stay = {n: places(job, n) for n, s in job.state.sections.items() if s.by_hand}
    assert stay == {n: where for n, where in made.items() if n != number}
    told = [note for note in tried.notes if "by hand" in note]
    assert told == [f"section {number} was shaped by hand and its pieces have changed: it is divided anew"]
    assert told[0] in tried.events[-1].why
    assert_whole(job)


def test_a_section_shaped_by_hand_that_something_new_comes_between_is_let_go(store, clock):
    pieces = [(20, 20), (27, 20), (34, 20), (41, 20)]

    def drawing(gap_mm, more=""):
        shapes = "".join(
            f'<rect x="{x + (gap_mm if x > 30 else 0)}" y="{y}" width="6" height="6" fill="{BLUE}"/>'
            for x, y in pieces
        )
        return page(shapes + more, size='width="100mm" height="50mm" viewBox="0 0 100 50"')

    job = opening.open_panel(store, clock, drawing(0.6), "row.svg")
    (number,) = job.state.sections
    shaping.shape(job, shaping.try_split(job, number, [(33.6, 0), (33.6, 50)]))
    shaping.shape(job, shaping.try_join(job, *sorted(job.state.sections)))
    (number,) = job.state.sections
    assert job.section(number).by_hand
    tried = revise(job, drawing(0.6, f'<rect x="33.1" y="15" width="1.4" height="16" fill="{YELLOW}"/>'))
    assert tried.revision.same.all()
    assert not any(s.by_hand for s in job.state.sections.values())
    assert_whole(job)


def test_a_new_adhesive_is_kept_in_the_book_with_the_drawing(begun):
    clear = wants_adhesive(begun, "clear-slow")
    assert "clear-slow" not in begun.state.bench.products
    tried = revise(begun, clear)
    kept = begun.state.bench.products["clear-slow"]
    assert begun.store.blob(kept)
    assert [type(x).__name__ for x in tried.events] == ["DrawingRevised", "BenchSet", "SectionsDrawn"]
    record.undo(begun)
    assert "clear-slow" not in begun.state.bench.products
