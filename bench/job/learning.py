"""What the book teaches: the maker's hands over all panels, and each adhesive's life."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from bench.book import Store
from bench.book import events as e
from bench.book.events import Envelope
from bench.job.fold import undone_acts
from bench.pace import GlueUp, Hands, Life, learn_hands, learn_life
from bench.pace.glueup import LONGEST_S

LEARNT_FROM = ("mix_closed", "cup_went", "act_undone")


@dataclass(frozen=True, eq=False)
class Known:
    """The posterior of the hands and of each adhesive's life.

    An adhesive that was never used has the label's life with its usual spread.
    """

    hands: Hands
    lives: Mapping[str, Life] = field(default_factory=dict)
    unused: Life = field(default_factory=lambda: learn_life([], working_time_s=1.0))

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
    closed = [(x.panel_id, x.event) for x in living if isinstance(x.event, e.MixClosed)]
    found = [(event.adhesive, _glue_up(event, cups.get((panel, event.mix)))) for panel, event in closed]
    return sorted(found, key=lambda pair: pair[1].started_utc or datetime.min)


def _glue_up(event: e.MixClosed, cup_went_s: float | None) -> GlueUp:
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
    )


def learn(
    glue_ups: Iterable[tuple[str, GlueUp]], *, pace_per_min: float | None, now_utc: datetime | None
) -> Known:
    """Return what is known after these glue-ups; without any, the stated pace and the labels."""
    pairs = list(glue_ups)
    names = dict.fromkeys(name for name, _ in pairs)
    return Known(
        hands=learn_hands([g for _, g in pairs], pace_per_min=pace_per_min, now_utc=now_utc),
        lives={name: learn_life([g for n, g in pairs if n == name], working_time_s=1.0) for name in names},
    )


def learn_from_book(store: Store, *, pace_per_min: float | None, now_utc: datetime | None) -> Known:
    """Return what the whole book teaches, all panels together: the hands are the same."""
    return learn(glue_ups_of(store.of_kinds(LEARNT_FROM)), pace_per_min=pace_per_min, now_utc=now_utc)
