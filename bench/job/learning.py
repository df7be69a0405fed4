"""What the book teaches: the maker's hands over all panels, how fast they lay, and each adhesive's life."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from bench.adhesive.product import Product
from bench.book import Store
from bench.book.events import BenchSet
from bench.job.same_hands import of_these_hands
from bench.job.stock import stock_of
from bench.job.taught import LEARNT_FROM, allowed_of, glue_ups_of, spells_of, weighings_of
from bench.pace.coverage import Coverage, Weighing, coverage_of
from bench.pace.glueup import GlueUp
from bench.pace.hands import DEFAULT_HALF_LIFE, Hands, learn_hands
from bench.pace.laying import Laying, Spell, learn_laying
from bench.pace.life import Life, learn_life
from bench.pace.patches import ByPatch


@dataclass(frozen=True)
class Stated:
    """What the maker says of the hands before the book does, and how long the book remembers.

    by_patch: set by the patch, at the pace stated for that; None: piece by piece, at pace_per_min.
    half_life: glue-ups after which one counts half; None: all weigh alike.
    """

    pace_per_min: float | None = None
    by_patch: ByPatch | None = None
    half_life: float | None = DEFAULT_HALF_LIFE


def stated_by(bench: BenchSet) -> Stated:
    """Return what is stated where a panel's bench is set so."""
    by_patch = ByPatch(bench.patch_cm2, bench.patches_per_min) if bench.by_patch else None
    return Stated(bench.pace_per_min, by_patch, bench.half_life)


@dataclass(frozen=True, eq=False)
class Known:
    """The posterior of the hands and of each adhesive's life, and the cups weighed after its glue-ups.

    glue_ups: by adhesive; one that was never used has the label's life with its usual spread. weighings: by
    adhesive and by how the bed is laid. laying: hours of dry work. allowed: adhesives that the maker lets
    last as long as the book has shown. lots: of the next mix, by adhesive; None: not known, or all one.
    lives: those learned so far. A start asks for none, and learning one takes ten milliseconds.
    """

    hands: Hands
    glue_ups: Mapping[str, tuple[GlueUp, ...]] = field(default_factory=dict)
    weighings: Mapping[tuple[str, str], tuple[Weighing, ...]] = field(default_factory=dict)
    laying: Laying = field(default_factory=lambda: learn_laying([]))
    allowed: frozenset[str] = frozenset()
    lots: Mapping[str, str | None] = field(default_factory=dict)
    lives: dict[str, Life] = field(default_factory=dict)

    def coverage_of(self, adhesive: str, bench: BenchSet) -> Coverage:
        """Return what a bed of this adhesive takes and a cup keeps; not weighed, as the bench is set."""
        return coverage_of(self.weighings.get((adhesive, bench.bed), ()), bench.residue_g)

    def with_lots(self, lots: Mapping[str, str | None]) -> Known:
        """Return the same with the lives that mixes of these lots have, by adhesive; None: not known."""
        return replace(self, lots=lots, lives={})

    def life_of(self, adhesive: str) -> Life:
        """Return the life of an adhesive, learned when it is first asked for."""
        if adhesive not in self.lives:
            self.lives[adhesive] = learn_life(
                self.glue_ups.get(adhesive, ()),
                working_time_s=1.0,
                may_lengthen=adhesive in self.allowed,
                lot=self.lots.get(adhesive),
            )
        return self.lives[adhesive]


def coverage_from_book(store: Store, adhesive: str, bench: BenchSet) -> Coverage:
    """Return what the whole book teaches of the bed of an adhesive, as the bench lays it."""
    weighings = weighings_of(of_these_hands(store, ("mix_closed", "cup_weighed", "act_undone")))
    return coverage_of(weighings.get((adhesive, bench.bed), ()), bench.residue_g)


def learn(
    glue_ups: Iterable[tuple[str, GlueUp]],
    *,
    stated: Stated,
    now_utc: datetime | None,
    weighings: Mapping[tuple[str, str], tuple[Weighing, ...]] | None = None,
    spells: Sequence[Spell] = (),
    allowed: frozenset[str] = frozenset(),
) -> Known:
    """Return what is known after these glue-ups; without any, the stated pace and the labels."""
    pairs = list(glue_ups)
    names = dict.fromkeys(name for name, _ in pairs)
    of_name = {name: tuple(g for n, g in pairs if n == name) for name in names}
    return Known(
        hands=hands_of([g for _, g in pairs], stated, now_utc=now_utc),
        glue_ups=of_name,
        weighings=weighings or {},
        laying=learn_laying(spells),
        allowed=allowed,
    )


def hands_of(glue_ups: Sequence[GlueUp], stated: Stated, *, now_utc: datetime | None = None) -> Hands:
    """Learn the hands from glue-ups, beginning from what was stated."""
    return learn_hands(
        glue_ups,
        pace_per_min=stated.pace_per_min,
        by_patch=stated.by_patch,
        half_life=stated.half_life,
        now_utc=now_utc,
    )


def learn_from_book(store: Store, stated: Stated, now_utc: datetime | None) -> Known:
    """Return what the whole book teaches, all panels together: the hands are the same."""
    entries = of_these_hands(store, LEARNT_FROM)
    return learn(
        glue_ups_of(entries),
        stated=stated,
        now_utc=now_utc,
        weighings=weighings_of(entries),
        spells=spells_of(entries),
        allowed=allowed_of(entries),
    )


def learn_for(store: Store, bench: BenchSet, products: Mapping[str, Product], now_utc: datetime) -> Known:
    """Return what the book teaches for the next mixes of these products: out of the bottles in use now."""
    known = learn_from_book(store, stated_by(bench), now_utc)
    if not any(g.lot for of_one in known.glue_ups.values() for g in of_one):
        return known
    stock, today = stock_of(store), now_utc.astimezone().date()
    return known.with_lots(
        {name: stock.lot_now(p.name, p.is_two_part, today) for name, p in products.items()}
    )
