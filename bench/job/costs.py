"""Materials and hours of this panel out of the book, and what only the maker can tell: prices, other hours.

Prices belong to the workshop and hold for all its panels; hours and the price it is sold for to the panel.
Both are settings beside the book: nothing of the work hangs on them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping

from bench.finish.cut_waste import DEFAULT_CUT_WASTE
from bench.finish.money import TIMED, Amount, Money, hours_of, priced, require_hours, require_price
from bench.finish.money_words import BOARD, GLASS, GROUT, material_key
from bench.job import settings
from bench.job.finishing import entered, finishing
from bench.job.foretelling import left_of
from bench.job.job import Job
from bench.job.measuring import parts_g, sizer
from bench.job.sizing import ROUTINE
from bench.job.state import Mix
from bench.job.zones import joints_mm2
from bench.pace.capacity import DEFAULT_PIECE_MM2
from bench.pace.glueup import LONGEST_S
from bench.speech import say


def money_of(
    job: Job,
    *,
    prices: Mapping[str, float] | None = None,
    told_h: Mapping[str, float] | None = None,
    sold: float | None = None,
) -> Money:
    """Return materials, hours and price of the panel; what is given here goes before what was kept.

    Raises NoSuchWork, BadHours or BadPrice.
    """
    if sold is not None:
        require_price(say("the panel"), sold)
    known = {**kept_prices(job), **(prices or {})}
    hours = hours_of(timed_h(job), {**kept_hours(job), **(told_h or {})})
    return Money(priced(amounts_of(job), known), hours, sold if sold is not None else kept_sold(job))


def amounts_of(job: Job) -> tuple[Amount, ...]:
    """Return what was used up and is still needed: adhesives by their parts, glass, board, grout.

    Adhesive: as poured, and as the batches of the sections still to be set are planned. [g] Glass: what is
    cut up for it, the usual waste included, used where it is dry or set. [m²] Grout: the powder of every mix.
    """
    panel = job.panel
    laid = [t for s in job.state.sections.values() if s.stage != "drawn" for t in s.tesserae]
    of_laid = float(panel.area_mm2[laid].sum()) if laid else 0.0
    glass = [area / (1.0 - DEFAULT_CUT_WASTE) / 1e6 for area in (of_laid, panel.glass_area_mm2 - of_laid)]
    return (
        *_adhesives(job),
        Amount(GLASS, "m²", glass[0], max(0.0, glass[1])),
        Amount(BOARD, "m²", panel.outline_area_mm2 / 1e6, 0.0),
        Amount(GROUT, "g", job.state.finish.powder_g, _powder_needed_g(job)),
    )


def _powder_needed_g(job: Job) -> float:
    """Return the powder that the joints still take, by their share of all; none once all is grouted."""
    grout = finishing(job).grout
    done = [t for z in job.state.finish.in_order if z.grouted is not None for t in z.tesserae]
    if not done or not grout.joint_area_mm2:
        return grout.powder_g
    return grout.powder_g * max(0.0, 1.0 - joints_mm2(job, done) / grout.joint_area_mm2)


def _adhesives(job: Job) -> list[Amount]:
    used: dict[tuple[str, str], float] = {}
    for mix in job.state.mixes.values():
        for key, grams in poured_g(job, mix).items():
            used[key] = used.get(key, 0.0) + grams
    needed = parts_g(sizer(job), left_of(job))
    names: dict[tuple[str, str], None] = dict.fromkeys((*used, *needed))
    return [
        Amount(material_key(*key), "g", used.get(key, 0.0), needed.get(key, 0.0)) for key in names
    ]


def poured_g(job: Job, mix: Mix) -> dict[tuple[str, str], float]:
    """Return what a mix took by product and part; nothing where hardener never met resin. [g]"""
    adhesive = adhesive_of(job, mix)
    if mix.contact_utc is None or mix.batch is None or adhesive is None:
        return {}
    product = job.product(adhesive)
    resin_g = mix.batch.resin_g if mix.poured_resin_g is None else mix.poured_resin_g
    if not product.is_two_part:
        return {(product.name, ""): resin_g}
    hardener_g = mix.poured_hardener_g or mix.hardener_target_g or mix.batch.hardener_g
    return {(product.name, "resin"): resin_g, (product.name, "hardener"): hardener_g}


def adhesive_of(job: Job, mix: Mix) -> str | None:
    """Return the adhesive of a mix by its name on the bench; None where its section is no more."""
    if mix.closed is not None:
        return mix.closed.adhesive
    section = job.state.sections.get(mix.section)
    return section.adhesive if section is not None else None


# -- hours ---------------------------------------------------------------------------------------------------


def timed_h(job: Job) -> dict[str, float]:
    """Return the hours that the book timed, by kind: of glue-ups that were closed with a sound clock. [h]

    Mixing is stirring and spreading, cleaning is picking the joints and scraping the edge; where no steps
    were told both are as usual. Several pairs of hands count each.
    """
    hours = dict.fromkeys(TIMED, 0.0)
    for mix in job.state.mixes.values():
        closed = mix.closed
        if closed is None or closed.unsure or not 0 < closed.finished_after_s <= LONGEST_S:
            continue
        around_s = max(0.0, closed.finished_after_s - closed.setting_s - closed.paused_s)
        usual_s = ROUTINE.stir_s + ROUTINE.spread_s(DEFAULT_PIECE_MM2 * closed.placed)
        mixing_s = min(around_s, usual_s if closed.steps_assumed else mix.steps_s.get("set", usual_s))
        spent = {"mixing": mixing_s, "setting": closed.setting_s, "cleaning": around_s - mixing_s}
        for kind, seconds in spent.items():
            hours[kind] += seconds * closed.hands / 3600.0
    return hours


def set_hours(job: Job, kind: str, hours: float) -> None:
    """Keep the hours of one kind of work on this panel. Raises NoSuchWork or BadHours. [h]"""
    require_hours(kind, hours)
    _keep_map(job, f"{settings.HOURS}:{job.panel_id}", {**kept_hours(job), kind: hours})


def kept_hours(job: Job) -> dict[str, float]:
    return _kept_map(job, f"{settings.HOURS}:{job.panel_id}")


# -- prices --------------------------------------------------------------------------------------------------


def set_price(job: Job, material: str, price: float) -> None:
    """Keep what one unit of a material costs, for all panels of the workshop. Raises BadPrice."""
    require_price(material, price)
    _keep_map(job, settings.PRICES, {**kept_prices(job), material: price})


def kept_prices(job: Job) -> dict[str, float]:
    return _kept_map(job, settings.PRICES)


def set_sold(job: Job, price: float) -> None:
    """Keep what this panel is sold for. Raises BadPrice."""
    require_price(say("the panel"), price)
    job.store.set_setting(f"{settings.SOLD}:{job.panel_id}", repr(float(price)))


def kept_sold(job: Job) -> float | None:
    return entered(job, settings.SOLD)


def _keep_map(job: Job, key: str, told: Mapping[str, float]) -> None:
    job.store.set_setting(key, json.dumps({name: float(value) for name, value in told.items()}))


def _kept_map(job: Job, key: str) -> dict[str, float]:
    return {str(name): float(value) for name, value in json.loads(job.store.setting(key) or "{}").items()}
