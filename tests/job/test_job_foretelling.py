"""What is left, foretold: the finishing day and what to have at hand of each part."""

import numpy as np
import pytest

from bench.job.acts import dry
from bench.job.foretelling import (
    finishing_days,
    forecast_left,
    left_of,
    parts_foretold,
    parts_g,
    pieces_left,
)
from bench.job.measuring import sizer
from bench.pace.dry import laid_per_drawn

SPREAD = {"p10": 8.0, "p50": 10.0, "p90": 15.0}


def test_the_finishing_day_stretches_with_the_glue_ups():
    assert finishing_days(4, 10, SPREAD) == {"p10": 4.0, "p50": 4.0, "p90": 6.0}
    assert finishing_days(1, 10, SPREAD)["p10"] == 1.0
    assert finishing_days(0, 0, SPREAD) == {"p10": 0.0, "p50": 0.0, "p90": 0.0}


def test_the_parts_add_up_to_the_batches_in_the_labels_ratio(job):
    measures, left = sizer(job), left_of(job)
    parts = parts_g(measures, left)
    batches = [measures.batch(s.adhesive, np.asarray(s.tesserae)) for s in left]
    assert sum(parts.values()) == pytest.approx(sum(b.total_g for b in batches))
    name = measures.products[left[0].adhesive].name
    assert parts[name, "hardener"] == pytest.approx(sum(b.hardener_g for b in batches))


def test_what_is_foretold_is_told_a_part_a_line(job):
    left = forecast_left(job)
    assert left.adhesive_g is not None
    assert left.adhesive_g["p10"] <= left.adhesive_g["p50"] <= left.adhesive_g["p90"]
    lines = parts_foretold({("Paste", "resin"): 2.0, ("Paste", "hardener"): 1.0, ("Putty", ""): 1.0}, SPREAD)
    assert lines == ["Paste, resin: 4–5–8 g", "Paste, hardener: 2–2–4 g", "Putty: 2–2–4 g"]
    assert parts_foretold({}, SPREAD) == []


def test_what_is_still_drawn_is_foretold_as_laid_as_the_sections_counted_so_far(job):
    """Section 1 counted at one piece in ten more than drawn; the others are held to 1 by 100 pieces."""
    counted = job.section(1)
    drawn, total = len(counted.tesserae), job.panel.tessera_count
    laid = round(1.1 * drawn)
    before = pieces_left(sizer(job), left_of(job), []).sum()
    assert before == total
    dry.lay(job, 1, laid)
    after = pieces_left(sizer(job), left_of(job), [job.section(1)]).sum()
    whole = (laid + 100) / (drawn + 100)
    ratio = (laid + 100 * whole) / (drawn + 100)
    assert after == pytest.approx(laid + ratio * (total - drawn))
    more = forecast_left(job)
    assert more.hours["p50"] > 0


def test_a_region_follows_its_own_count_and_a_bare_one_the_panel():
    ratio = laid_per_drawn([150.0, 80.0], [[100, 0, 0], [0, 100, 0]])
    whole = (230 + 100) / (200 + 100)
    assert ratio == pytest.approx([(150 + 100 * whole) / 200, (80 + 100 * whole) / 200, whole])
    assert laid_per_drawn([], np.zeros((0, 2))) == pytest.approx([1.0, 1.0])
