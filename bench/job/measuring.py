"""The measures of an open panel: what its sections come to with what the book teaches now."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bench.book.events import Promise
from bench.job.bedding import adhesives_of
from bench.job.job import Job
from bench.job.learning import learn_for
from bench.job.sizing import Sizer
from bench.job.state import Section


def sizer(job: Job, temperature_C: float | None = None, adhesive_C: float | None = None) -> Sizer:
    """Return the measures of a panel with what the book teaches now, in this room, from such bottles."""
    bench = job.state.bench
    in_use = (s.adhesive for s in job.state.sections.values())  # laid before the bench was set, perhaps
    names = dict.fromkeys([*adhesives_of(job.panel, bench), *in_use])
    products = job.products(tuple(names))
    known = learn_for(job.store, bench, products, job.clock.utc())
    return Sizer(job.panel, bench, products, known, temperature_C, adhesive_C)


def parts_g(measures: Sizer, left: Sequence[Section | Promise]) -> dict[tuple[str, str], float]:
    """Return the grams that the batches of these sections prescribe, by adhesive and part. [g]

    An adhesive that is ready has one part, named "".
    """
    grams: dict[tuple[str, str], float] = {}
    for section in left:
        batch = measures.batch(section.adhesive, np.asarray(section.tesserae, dtype=np.int32))
        name = measures.products[section.adhesive].name
        two = measures.products[section.adhesive].is_two_part
        parts = {"resin": batch.resin_g, "hardener": batch.hardener_g} if two else {"": batch.total_g}
        for part, part_g in parts.items():
            grams[name, part] = grams.get((name, part), 0.0) + part_g
    return grams
