"""What the book teaches: the maker's hands over all panels, and each adhesive's life."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime

from bench.adhesive import Product
from bench.book import Store
from bench.book import events as e
from bench.book.events import BenchSet, Envelope
from bench.job.fold import undone_acts
from bench.job.same_hands import of_these_hands
from bench.job.stock import joined_lot, stock_of
from bench.pace import Coverage, GlueUp, Hands, Life, Weighing, coverage_of, learn_hands, learn_life
from bench.pace.glueup import LONGEST_S

LEARNT_FROM = ("mix_closed", "cup_went", "act_undone", "cup_weighed", "bottle_taken")


@dataclass(frozen=True, eq=False)
class Known:
    """The posterior of the hands and of each adhesive's life, and the cups weighed after its glue-ups.

    An adhesive that was never used has the label's life with its usual spread. weighings: by adhesive and
    by how the bed is laid.
    """

    hands: Hands
    lives: Mapping[str, Life] = field(default_factory=dict)
    unused: Life = field(default_factory=lambda: learn_life([], working_time_s=1.0))

    glue_ups: Mapping[str, tuple[GlueUp, ...]] = field(default_factory=dict)
    weighings: Mapping[tuple[str, str], tuple[Weighing, ...]] = field(default_factory=dict)

    def coverage_of(self, adhesive: str, bench: BenchSet) -> Coverage:
        """Return what a bed of this adhesive takes and a cup keeps; not weighed, as the bench is set."""
        return coverage_of(self.weighings.get((adhesive, bench.bed), ()), bench.residue_g)

    def with_lots(self, lots: Mapping[str, str | None]) -> Known:
        """Return the same with the lives that mixes of these lots have, by adhesive; None: not known."""
        fresh = {
            name: learn_life(self.glue_ups[name], working_time_s=1.0, lot=lot)
            for name, lot in lots.items()
            if lot is not None and any(g.lot not in (None, lot) for g in self.glue_ups.get(name, ()))
        }
        return replace(self, lives={**self.lives, **fresh}) if fresh else self

    def life_of(self, adhesive: str) -> Life:
        return self.lives.get(adhesive, self.unused)


def glue_ups_of(entries: Iterable[Envelope]) -> list[tuple[str, GlueUp]]:
    """Return (adhesive, glue-up) for every closed mix that counts, oldest first.

    A glue-up during which the clock changed is kept, and neither hands nor life are learned from it.
    A glue-up of nothing placed, or of no time at all, teaches nothing of the hands.
    """
    entries = list(entries)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone]
    cups = {(x.panel_id, x.event.mix): x.event.at_s for x in living if isinstance(x.event, e.CupWent)}
    lots = _lots(living)
    closed = [(x.panel_id, x.event) for x in living if isinstance(x.event, e.MixClosed)]
    found = [
        (event.adhesive, _glue_up(event, cups.get((panel, event.mix)), lots.get((panel, event.mix))))
        for panel, event in closed
    ]
    return sorted(found, key=lambda pair: pair[1].started_utc or datetime.min)


def _lots(living: Iterable[Envelope]) -> dict[tuple[int, int], str | None]:
    """Return the lot of each mix that told one, by panel and mix."""
    taken: dict[tuple[int, int], dict[e.Part, str]] = {}
    for x in living:
        if isinstance(x.event, e.BottleTaken):
            taken.setdefault((x.panel_id, x.event.mix), {})[x.event.part] = x.event.lot
    return {mix: joined_lot(lots) for mix, lots in taken.items()}


def weighings_of(entries: Iterable[Envelope]) -> dict[tuple[str, str], tuple[Weighing, ...]]:
    """Return the weighed cups that teach, by adhesive and how the bed is laid, oldest first.

    A glue-up with pieces left tells nothing of its bed: how much of it was spread nobody knows.
    """
    entries = list(entries)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone]
    closed = {(x.panel_id, x.event.mix): x.event for x in living if isinstance(x.event, e.MixClosed)}
    cups = {(x.panel_id, x.event.mix): x.event for x in living if isinstance(x.event, e.CupWeighed)}
    found: dict[tuple[str, str], list[Weighing]] = {}
    for key, cup in cups.items():
        glue_up = closed.get(key)
        if glue_up is None or glue_up.left or glue_up.why_left is not None:
            continue
        weighing = Weighing(
            glue_up.contact_utc,
            cup.bed_mm2 / 100.0,
            cup.reckoned_g_per_cm2,
            cup.mixed_g,
            max(0.0, cup.gross_g - cup.tare_g),
            cup.cup,
        )
        found.setdefault((cup.adhesive, cup.bed), []).append(weighing)
    return {key: tuple(rows) for key, rows in found.items()}


def _glue_up(event: e.MixClosed, cup_went_s: float | None, lot: str | None) -> GlueUp:
    stringy_s = event.stringy_after_s
    if stringy_s is None and cup_went_s is not None and cup_went_s <= LONGEST_S:
        stringy_s = cup_went_s  # found gone only on the next day, it tells nothing of the adhesive's life
    # done told after hours was a mix forgotten, not a pace: kept, and nothing is learned from it
    worth_learning = not event.unsure and 0 < event.finished_after_s <= LONGEST_S
    return GlueUp(
        started_utc=event.contact_utc,
        small=event.small,
        medium=event.medium,
        large=event.large,
        seconds=event.setting_s * event.hands,  # what one pair alone would have taken
        paused_s=event.paused_s,
        temperature_C=event.temperature_C,
        finished_after_s=event.finished_after_s,
        stringy_after_s=stringy_s or None,
        all_placed=not event.left,
        label_s=event.label_s,
        learn_pace=worth_learning and event.placed > 0 and event.setting_s > 0,
        learn_life=worth_learning,
        lot=lot,
    )


def coverage_from_book(store: Store, adhesive: str, bench: BenchSet) -> Coverage:
    """Return what the whole book teaches of the bed of an adhesive, as the bench lays it."""
    weighings = weighings_of(of_these_hands(store, ("mix_closed", "cup_weighed", "act_undone")))
    return coverage_of(weighings.get((adhesive, bench.bed), ()), bench.residue_g)


def learn(
    glue_ups: Iterable[tuple[str, GlueUp]],
    *,
    pace_per_min: float | None,
    now_utc: datetime | None,
    weighings: Mapping[tuple[str, str], tuple[Weighing, ...]] | None = None,
) -> Known:
    """Return what is known after these glue-ups; without any, the stated pace and the labels."""
    pairs = list(glue_ups)
    names = dict.fromkeys(name for name, _ in pairs)
    of_name = {name: tuple(g for n, g in pairs if n == name) for name in names}
    return Known(
        hands=learn_hands([g for _, g in pairs], pace_per_min=pace_per_min, now_utc=now_utc),
        lives={name: learn_life(of_name[name], working_time_s=1.0) for name in names},
        glue_ups=of_name,
        weighings=weighings or {},
    )


def learn_from_book(store: Store, *, pace_per_min: float | None, now_utc: datetime | None) -> Known:
    """Return what the whole book teaches, all panels together: the hands are the same."""
    entries = of_these_hands(store, LEARNT_FROM)
    return learn(
        glue_ups_of(entries), pace_per_min=pace_per_min, now_utc=now_utc, weighings=weighings_of(entries)
    )


def learn_for(store: Store, bench: BenchSet, products: Mapping[str, Product], now_utc: datetime) -> Known:
    """Return what the book teaches for the next mixes of these products: out of the bottles in use now."""
    known = learn_from_book(store, pace_per_min=bench.pace_per_min, now_utc=now_utc)
    if not any(g.lot for of_one in known.glue_ups.values() for g in of_one):
        return known
    stock, today = stock_of(store), now_utc.astimezone().date()
    return known.with_lots(
        {name: stock.lot_now(p.name, p.is_two_part, today) for name, p in products.items()}
    )
