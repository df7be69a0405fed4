"""What is left, foretold: the finishing day and what to have at hand of each part."""

import numpy as np
import pytest

from bench.job.acts.opening import sizer
from bench.job.foretelling import finishing_days, forecast_left, left_of, parts_foretold, parts_g

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
