"""Open a drawing as a panel, set how it is worked, divide what is still bare."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from bench.adhesive.limits import check_temperature
from bench.adhesive.product import Product
from bench.adhesive.product_file import find_product, product_toml, shipped_products
from bench.book import Clock, Store
from bench.book.events import BenchSet, PanelOpened, SectionsDrawn
from bench.drawing.panel import Panel
from bench.fault import Fault
from bench.job.bedding import products_of
from bench.job.faults import WrongOrder
from bench.job.fold import fold
from bench.job.ground import bare_ground, section_numbers
from bench.job.job import Job
from bench.job.key_words import AFTER_GLUE_UP, AFTER_SETTING, FIRST_DIVISION, NO_LONGER_FITS
from bench.job.learning import learn_for
from bench.job.measuring import sizer
from bench.job.planning import HandMade, Plan, plan_ground
from bench.job.settings import LAST_PANEL, USUAL_BENCH
from bench.job.sizing import Sizer
from bench.speech import say


def open_panel(
    store: Store,
    clock: Clock,
    data: bytes,
    drawing_name: str,
    *,
    bench: BenchSet | None = None,
    name: str | None = None,
    width_mm: float | None = None,
    height_mm: float | None = None,
    panel: Panel | None = None,
    seed: int = 0,
) -> Job:
    """Read a drawing, divide it and keep both; nothing is stored if any of it fails.

    panel: what these data read as at this size, where they were read before. bench: how it is worked; not
    given, as the panel before it (`usual_bench`).
    The file is kept by its hash, and so is every adhesive it needs, so that the panel stays as it was
    promised whatever becomes of the files.
    """
    if panel is None:
        from bench.drawing.svg import read_drawing

        panel = read_drawing(data, drawing_name, width_mm=width_mm, height_mm=height_mm)
    bench = bench or usual_bench(store)
    bench = with_white_for_clear(bench, find_product(bench.adhesive))
    products = products_of(panel, bench, find_product, shipped_products())
    known = learn_for(store, bench, products, clock.utc())
    plan = plan_ground(Sizer(panel, bench, products, known), seed=seed)
    title = name or Path(drawing_name).stem
    with store.together():
        kept = {n: store.put_blob(product_toml(p).encode(), "application/toml") for n, p in products.items()}
        sha256 = store.put_blob(data, "image/svg+xml")
        panel_id = store.add_panel(title, sha256, clock.utc())
        store.append(
            panel_id,
            (
                PanelOpened(
                    name=title,
                    drawing_sha256=sha256,
                    drawing_name=drawing_name,
                    width_mm=width_mm,
                    height_mm=height_mm,
                ),
                bench.model_copy(update={"products": kept}),
                SectionsDrawn(promises=plan.promises, why=FIRST_DIVISION),
            ),
            at_utc=clock.utc(),
        )
        if store.setting(USUAL_BENCH):
            store.set_setting(USUAL_BENCH, "")
    return Job(store, clock, panel_id, panel)


def usual_bench(store: Store) -> BenchSet:
    """Return how a new panel is worked: as was just asked, else as the last panel is, else as usual.

    The same hands, scale and room: nothing is asked twice. An adhesive whose file is gone gives way to the
    usual one.
    """
    said, last = store.setting(USUAL_BENCH), store.setting(LAST_PANEL)
    if said:
        bench = BenchSet.model_validate_json(said)
    elif last and last.isdigit() and (entries := store.events(int(last))):
        bench = fold(entries).bench
    else:
        return BenchSet()
    usual = BenchSet()
    adhesives = {
        name: getattr(bench if _is_found(getattr(bench, name)) else usual, name)
        for name in ("adhesive", "clear_glass_adhesive")
    }
    return bench.model_copy(update={"products": {}, **adhesives})


def _is_found(adhesive: str) -> bool:
    try:
        find_product(adhesive)
    except Fault:
        return False
    return True


def with_white_for_clear(bench: BenchSet, product: Product) -> BenchSet:
    """Let clear glass lie in the panel's own adhesive where that is white: one batch less to mix."""
    if product.colour != "white":
        return bench
    return bench.model_copy(update={"clear_glass_adhesive": bench.adhesive})


def divide_anew(job: Job, *, why: str = AFTER_GLUE_UP, seed: int = 0) -> bool:
    """Divide all bare ground again with what is known now, as part of the newest act.

    Undo takes the act and its division back together. Returns False where nothing is bare.
    """
    work = prepare_division(job, seed=seed)
    if work is None:
        return False
    plan = plan_ground(work.sizer, **work.ground)
    return keep_plan(job, plan, why=why, newest_act=job.state.act_ids[-1])


@dataclass(frozen=True, eq=False)
class Work:
    """What a division needs, gathered from the book: `plan_ground(work.sizer, **work.ground)`."""

    sizer: Sizer
    ground: dict[str, Any]


def prepare_division(job: Job, *, seed: int = 0, afresh: bool = False) -> Work | None:
    """Gather what dividing the bare ground needs, so that the search may run without the book.

    afresh: the sections as they are drawn count for nothing; only those shaped by hand stay. None where
    nothing is bare.
    """
    bare = bare_ground(job)
    if not bare.size:
        return None
    numbers = section_numbers(job)
    drawn = np.array([s.number for s in job.state.with_stage("drawn")], dtype=np.int32)
    numbers[~np.isin(numbers, drawn)] = 0
    used = frozenset(job.state.used_numbers.difference(drawn.tolist()))
    by_hand = tuple(
        HandMade(s.number, s.adhesive, s.tesserae) for s in job.state.with_stage("drawn") if s.by_hand
    )
    drawn_into = None if afresh else numbers
    ground = {"keep": bare, "before": drawn_into, "used_numbers": used, "by_hand": by_hand, "seed": seed}
    return Work(sizer(job), ground)


def keep_plan(job: Job, plan: Plan, *, why: str, newest_act: str) -> bool:
    """Write a division, unless the book has moved on since the act that it follows from."""
    if job.state.act_ids[-1] != newest_act:
        return False
    job.write(sections_drawn(plan, why), act_id=newest_act)
    return True


def sections_drawn(plan: Plan, *why: str) -> SectionsDrawn:
    """Return a division as the book tells it: why it was made, and what became of sections shaped by hand."""
    said = "; ".join([*why, *(NO_LONGER_FITS % number for number in plan.let_go)])
    return SectionsDrawn(promises=plan.promises, why=said)


def set_bench(job: Job, bench: BenchSet) -> None:
    """Change how the panel is worked; bare ground is divided under it, laid and set work stays.

    An adhesive chosen anew is read from its file; one in use stays as the book keeps it, whatever became
    of its file. Nothing is divided where nothing is bare, or where no section depends on the change. Where
    the wish itself is another (whole forms, or the fewest) it is divided afresh: sections of the old wish
    would hold, and stay.
    """
    before = job.state.bench
    if bench.by_patch != before.by_patch and job.state.running_mixes:
        raise WrongOrder(
            say("a mix runs, and it is counted as it was begun"), say("finish the glue-up, then set it")
        )
    chosen = bench.adhesive if bench.adhesive != before.adhesive else None

    def look_up(name: str) -> Product:
        return job.product(name) if name != chosen and name in before.products else find_product(name)

    bench = with_white_for_clear(bench, look_up(bench.adhesive))
    products = products_of(job.panel, bench, look_up, shipped_products())
    kept = {n: job.store.put_blob(product_toml(p).encode(), "application/toml") for n, p in products.items()}
    bench = bench.model_copy(update={"products": {**before.products, **kept}})
    afresh = bench.prefer != before.prefer
    work = prepare_division(job, afresh=afresh) if _divides(before, bench) else None
    if work is None:
        if bench.temperature_C != before.temperature_C:
            for name in {s.adhesive for s in job.state.sections.values() if s.stage in ("drawn", "dry")}:
                check_temperature(look_up(name), bench.temperature_C)
        job.write(bench)
    else:
        known = learn_for(job.store, bench, products, job.clock.utc())
        plan = plan_ground(Sizer(job.panel, bench, products, known), **work.ground)
        job.write(bench, SectionsDrawn(promises=plan.promises, why=AFTER_SETTING))
    job.forget_products()


_DIVIDES_NOTHING = {"hand", "transfer", "scale_g", "cumulative", "hours_a_day", "laying_hours_a_day"}
_OF_PIECES, _OF_PATCHES = {"pace_per_min"}, {"patch_cm2", "patches_per_min"}


def _divides(before: BenchSet, after: BenchSet) -> bool:
    """Tell whether a section depends on what was changed; patch and face-down are set alike."""
    if before.by_patch != after.by_patch:
        return True
    nothing = _DIVIDES_NOTHING | (_OF_PIECES if after.by_patch else _OF_PATCHES)
    return before.model_dump(exclude=nothing) != after.model_dump(exclude=nothing)
