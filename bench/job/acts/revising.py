"""Second thoughts: a revised drawing over a panel in progress; first see the difference, then accept it.

What is dry, wet or set stays, piece by piece; bare ground becomes what the new drawing shows there and is
divided anew, so that sections keep their number where their pieces are still found. The panel's drawing is
then both in one, kept in the book like any other; taking the act back takes the drawing back too.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.adhesive.product_file import product_toml
from bench.book.events import DrawingRevised, Event, Run
from bench.drawing.faults import NotWrittenWhole
from bench.drawing.onto import read_onto
from bench.drawing.panel import Panel
from bench.drawing.revised import Revision, revised
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from bench.job.acts.bare import drawn_promises
from bench.job.acts.opening import sections_drawn
from bench.job.acts.revised_ground import divide_revised
from bench.job.cup_faults import CupInUse
from bench.job.faults import WrongOrder
from bench.job.ground import bare_ground
from bench.job.job import Job
from bench.job.key_words import PIECES_CHANGED, pieces_changed
from bench.job.measuring import parts_g, sizer
from bench.speech import say

AFTER_REVISION = "divided anew under the revised drawing"
SVG, TOML = "image/svg+xml", "application/toml"


@dataclass(frozen=True, eq=False)
class Revised:
    """What a revised drawing comes to; nothing of it is written yet.

    revision: what becomes of each piece; panel: the panel as it would be, as its drawing reads back.
    scaled: the drawing was brought to the panel's size. before, after: the sections that are bare, and
    their grams. [g] keep_number: how many of those before are there after. let_go: sections shaped by hand
    that are divided anew. notes: what the maker should know.
    """

    revision: Revision
    panel: Panel
    scaled: bool
    before: int
    after: int
    before_g: float
    after_g: float
    keep_number: int
    let_go: tuple[int, ...]
    notes: tuple[str, ...]
    events: tuple[Event, ...]
    files: tuple[tuple[bytes, str], ...]
    seq: int  # of the book when it was tried


def try_revise(job: Job, data: bytes, name: str, *, seed: int = 0) -> Revised:
    """Return what a drawing comes to, laid over the panel; the book is only read.

    Raises WrongOrder or CupInUse while a mix is made or runs, PageDiffers and every other DrawingFault for
    what is wrong with the drawing, and UnknownAdhesive for a piece that asks for one.
    """
    _refuse_at_a_mix(job)
    new, scaled = read_onto(data, name, job.panel)
    kept = np.ones(job.panel.tessera_count, bool)
    kept[bare_ground(job)] = False
    revision = revised(job.panel, kept, new)
    written = write_svg(revision.panel)
    panel = read_drawing(written, name)
    if panel.tessera_count != revision.panel.tessera_count:
        raise NotWrittenWhole(name, revision.panel.tessera_count, panel.tessera_count)
    ground = divide_revised(job, revision, panel, seed=seed)
    before = drawn_promises(job)
    fresh = {
        n: product_toml(p).encode()
        for n, p in ground.products.items()
        if n not in job.state.bench.products
    }
    return Revised(
        revision,
        panel,
        scaled,
        before=len(before),
        after=len(ground.plan.promises),
        before_g=sum(parts_g(sizer(job), before).values()),
        after_g=ground.total_g,
        keep_number=len({p.number for p in before}.intersection(p.number for p in ground.plan.promises)),
        let_go=ground.let_go,
        notes=(*map(pieces_changed, ground.let_go), *ground.plan.warnings, *panel.warnings),
        events=(
            _event(revision, written, data, name),
            *_bench(job, fresh),
            sections_drawn(ground.plan, AFTER_REVISION, *(PIECES_CHANGED % n for n in ground.let_go)),
        ),
        files=((data, SVG), (written, SVG), *((f, TOML) for f in fresh.values())),
        seq=job.store.last_seq(job.panel_id),
    )


def revise(job: Job, tried: Revised) -> None:
    """Write what was tried: one act, with its drawings, all or nothing.

    Raises WrongOrder where the book has moved on since, or a mix runs; CupInUse where one is being made.
    """
    _refuse_at_a_mix(job)
    if job.store.last_seq(job.panel_id) != tried.seq:
        raise WrongOrder(
            say("the book has moved on since the drawing was laid over the panel"), say("lay it over again")
        )
    job.write_revised(tried.panel, *tried.events, files=tried.files)
    job.forget_products()


def _refuse_at_a_mix(job: Job) -> None:
    if job.state.running_mixes:
        raise WrongOrder(say("a mix runs on this panel"), say("close its glue-up first"))
    mix = job.state.mix_at_cup
    if mix is not None:
        raise CupInUse(mix.number, mix.section)


def _event(revision: Revision, written: bytes, given: bytes, name: str) -> DrawingRevised:
    return DrawingRevised(
        drawing_sha256=_sha256(written),
        drawing_name=name,
        given_sha256=_sha256(given),
        runs=runs_of(revision.to_new, revision.kept | revision.same),
        stay=int(revision.kept.sum()),
        same=int(revision.same.sum()),
        changed=int(revision.changed.sum()),
        added=len(revision.added),
        gone=int(revision.gone.sum()),
        left_out=len(revision.left_out),
    )


def _sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def runs_of(to_new: NDArray[np.integer], these: NDArray[np.bool_]) -> tuple[Run, ...]:
    """Return (old, new, count) of the tesserae named, each run as long as both count up together."""
    old = np.flatnonzero(these)
    new = np.asarray(to_new, np.int64)[old]
    ends = np.flatnonzero((np.diff(old) != 1) | (np.diff(new) != 1)) + 1
    return tuple(
        (int(a[0]), int(b[0]), len(a))
        for a, b in zip(np.split(old, ends), np.split(new, ends), strict=True)
        if len(a)
    )


def _bench(job: Job, fresh: Mapping[str, bytes]) -> tuple[Event, ...]:
    """Return the bench with the adhesives that only the new drawing asks for, kept as they are now."""
    if not fresh:
        return ()
    bench = job.state.bench
    kept = {n: _sha256(file) for n, file in fresh.items()}
    return (bench.model_copy(update={"products": {**bench.products, **kept}}),)
