"""Which section next, and why, in one sentence; and the whole order as it can be foreseen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from bench.sections.facts import SectionFacts
from bench.sections.reach import can_be_reached
from bench.speech import say, say_n

SET = ("firm", "hard")
FRESH = ("wet", "soft")
TO_SET = ("drawn", "dry")
WORKED = frozenset((*SET, *FRESH))
SHUT_IN = 0.7  # share of a section's outline facing set work from which it counts as shut in: three sides
FOCAL_SHARE = 0.6  # of the highest focal score, from which a section counts as focal
FOCAL_LEAST = 0.08


@dataclass(frozen=True)
class Choice:
    """Name the next section, or none, with the sentence that says why."""

    number: int | None
    why: str


@dataclass(frozen=True)
class Foreseen:
    """Say when a section's turn comes, in seconds from now, and why. day: of work, 1 for today."""

    number: int
    start_s: float
    why: str
    day: int = 1


def next_section(facts: Sequence[SectionFacts], *, time_left_today_s: float | None = None) -> Choice:
    """Choose the section to work on next.

    Never beside wet or soft work, nor where the hand would lie over it; adhesive and time must suffice. Of
    those left: one laid dry, then one that continues a finished edge, then by rank (focal, outline row,
    background), keeping clear of choices that leave another shut in on three sides.
    """
    left = [f for f in facts if f.stage in TO_SET]
    if not left:
        return Choice(None, say("Nothing is left to set.") if facts else say("There are no sections yet."))
    by_number = {f.number: f for f in facts}
    able = [f for f in left if not _fresh_beside(f, by_number)]
    if not able:
        return Choice(None, _all_beside_soft(_until(facts)))
    fresh = [f for f in facts if f.stage in FRESH]
    reachable = [f for f in able if can_be_reached(f, fresh)]
    if not reachable:
        return Choice(None, _hand_over_soft(_until(facts)))
    stocked = [f for f in reachable if f.adhesive_in_stock]
    if not stocked:
        return Choice(None, _missing(reachable))
    in_time = [f for f in stocked if time_left_today_s is None or f.minutes_needed * 60 <= time_left_today_s]
    if not in_time:
        short = min(stocked, key=lambda f: (f.minutes_needed, f.number))
        why = say(
            "Nothing to set now: section {number}, the shortest, needs {needed:.0f} min "
            "and {left:.0f} min are left today.",
            number=short.number,
            needed=short.minutes_needed,
            left=max(time_left_today_s or 0.0, 0.0) / 60,
        )
        return Choice(None, why)
    most = max(f.focal for f in facts)
    first = min(in_time, key=lambda f: _rank(f, most, by_number))
    why = _why(first, facts, by_number)
    return Choice(first.number, say("Next is section {number}: {why}.", number=first.number, why=why))


def whole_order(
    facts: Sequence[SectionFacts],
    *,
    firm_after_s: float | Mapping[str, float],
    firm_in_s: Mapping[int, float] | None = None,
    hours_a_day: float | None = None,
) -> tuple[Foreseen, ...]:
    """Foresee the order of all that is left, one glue-up after another, waiting where there is nothing to do.

    firm_after_s: from the end of a glue-up until others may be set against it, one figure or by adhesive.
    firm_in_s: the same for what is wet or soft now, by number; missing: the full time. hours_a_day: work
    stops after so many and goes on a day later, while the adhesive cures; None: nights and rests are not
    counted. Sections whose adhesive is missing are left out.
    """
    days = _Days(hours_a_day)
    firm_at = {
        f.number: (firm_in_s or {}).get(f.number, _firm_after(f, firm_after_s))
        for f in facts
        if f.stage in FRESH
    }
    state, steps = list(facts), []
    while True:
        for i, fact in enumerate(state):
            if fact.stage in FRESH and firm_at[fact.number] <= days.now_s:
                state[i] = replace(fact, stage="firm")
        choice = next_section(state, time_left_today_s=days.left_s)
        if choice.number is not None:
            at = next(i for i, fact in enumerate(state) if fact.number == choice.number)
            steps.append(Foreseen(choice.number, days.now_s, choice.why, days.day))
            days.now_s += max(state[at].minutes_needed * 60, state[at].expected_s)
            firm_at[choice.number] = days.now_s + _firm_after(state[at], firm_after_s)
            state[at] = replace(state[at], stage="soft")
            continue
        waiting = [firm_at[fact.number] for fact in state if fact.stage in FRESH]
        able = next_section(state).number is not None  # but for the time left today
        if not (waiting or able) or not any(fact.stage in TO_SET for fact in state):
            return tuple(steps)
        days.wait(min(waiting, default=None), able=able)


class _Days:
    """Working days of so many hours, 24 hours apart; without hours one endless day."""

    def __init__(self, hours: float | None) -> None:
        self.hours, self.day, self.now_s, self.begun_s = hours, 1, 0.0, 0.0

    @property
    def left_s(self) -> float | None:
        """Time left today; a day that has just begun takes whatever comes, however long. [s]"""
        if self.hours is None or self.now_s <= self.begun_s:
            return None
        return max(0.0, self.begun_s + self.hours * 3600 - self.now_s)

    def wait(self, firm_s: float | None, *, able: bool) -> None:
        """Go on when something is firm, or with the next day where that comes first or only time lacks."""
        if self.hours is None:
            assert firm_s is not None
            self.now_s = firm_s
            return
        ends_s = self.begun_s + self.hours * 3600
        if not able and firm_s is not None and firm_s < ends_s:
            self.now_s = firm_s
            return
        ahead = 1
        if not able and firm_s is not None:
            ahead = max(1, int((firm_s - self.begun_s) // 86400))
        self.day += ahead
        self.begun_s += ahead * 86400.0
        self.now_s = self.begun_s


def _firm_after(fact: SectionFacts, firm_after_s: float | Mapping[str, float]) -> float:
    if isinstance(firm_after_s, Mapping):
        return firm_after_s.get(fact.adhesive, max(firm_after_s.values(), default=0.0))
    return firm_after_s


def _fresh_beside(fact: SectionFacts, by_number: Mapping[int, SectionFacts]) -> list[int]:
    return _beside(fact, by_number, FRESH)


def _beside(fact: SectionFacts, by_number: Mapping[int, SectionFacts], stages: Sequence[str]) -> list[int]:
    return sorted(n for n in fact.neighbours if n in by_number and by_number[n].stage in stages)


def _set_share(fact: SectionFacts, by_number: Mapping[int, SectionFacts], also: int | None = None) -> float:
    """Share of a section's outline that faces set work, with one more section taken as set."""
    around = sum(fact.neighbours.values()) / max(1 - min(fact.open_sides, 1.0), 1e-9)
    done = sum(
        mm
        for n, mm in fact.neighbours.items()
        if n == also or (n in by_number and by_number[n].stage in WORKED)
    )
    return done / around if around > 0 else 0.0


def _shuts_in(fact: SectionFacts, by_number: Mapping[int, SectionFacts]) -> int:
    """Count the neighbours, still to be set, that this section would leave shut in on three sides."""
    beside = [by_number[n] for n in _beside(fact, by_number, TO_SET)]
    return sum(
        _set_share(f, by_number) < SHUT_IN <= _set_share(f, by_number, also=fact.number) for f in beside
    )


def _kind(fact: SectionFacts, most: float) -> int:
    """Return 0 for focal, 1 for the outline row, 2 for background; `most`: the highest focal score of all."""
    if most >= FOCAL_LEAST and fact.focal >= FOCAL_SHARE * most:
        return 0
    return 1 if fact.touches_outline else 2


def _rank(fact: SectionFacts, most: float, by_number: Mapping[int, SectionFacts]) -> tuple[float, ...]:
    share = _set_share(fact, by_number)
    return (
        fact.stage != "dry",
        share < SHUT_IN,  # a section nearly shut in comes first
        not _beside(fact, by_number, SET),
        _shuts_in(fact, by_number),
        _kind(fact, most),
        -round(share, 3),
        -fact.focal,
        fact.number,
    )


def _why(fact: SectionFacts, facts: Sequence[SectionFacts], by_number: Mapping[int, SectionFacts]) -> str:
    firm = _beside(fact, by_number, SET)
    dry = fact.stage == "dry"
    if firm and _set_share(fact, by_number) >= SHUT_IN:
        return _soon_shut_in(firm, dry=dry)
    if firm:
        return _goes_on(firm, dry=dry)
    if any(f.stage in FRESH for f in facts):
        if dry:
            return say("it is laid dry and lies away from what is still soft")
        return say("it lies away from what is still soft")
    reason = _first_for(_kind(fact, max(f.focal for f in facts)), dry=dry)
    if any(f.stage in SET for f in facts):
        return say("{reason}, and nothing beside it is set yet", reason=reason)
    return say("{reason}, and nothing is set yet", reason=reason)


def _soon_shut_in(firm: Sequence[int], *, dry: bool) -> str:
    if dry:
        return say_n(
            "it is laid dry and would soon be shut in; {sections} around it is firm",
            "it is laid dry and would soon be shut in; {sections} around it are firm",
            len(firm),
            sections=_named(firm),
        )
    return say_n(
        "it would soon be shut in; {sections} around it is firm",
        "it would soon be shut in; {sections} around it are firm",
        len(firm),
        sections=_named(firm),
    )


def _goes_on(firm: Sequence[int], *, dry: bool) -> str:
    if dry:
        return say_n(
            "it is laid dry and continues the finished edge of {sections}, which is firm",
            "it is laid dry and continues the finished edge of {sections}, which are firm",
            len(firm),
            sections=_named(firm),
        )
    return say_n(
        "it continues the finished edge of {sections}, which is firm",
        "it continues the finished edge of {sections}, which are firm",
        len(firm),
        sections=_named(firm),
    )


def _first_for(kind: int, *, dry: bool) -> str:
    if dry:
        return (
            say("it is laid dry and belongs to what stands out most"),
            say("it is laid dry and lies in the row along the outline"),
            say("it is laid dry and is background"),
        )[kind]
    return (
        say("it belongs to what stands out most"),
        say("it lies in the row along the outline"),
        say("it is background"),
    )[kind]


def _named(numbers: Sequence[int]) -> str:
    if len(numbers) == 1:
        return say("section {number}", number=numbers[0])
    return say("sections {numbers} and {last}", numbers=", ".join(map(str, numbers[:-1])), last=numbers[-1])


def _until(facts: Sequence[SectionFacts]) -> str:
    """Say when the first three of the fresh ones are firm, "" where that is not known."""
    told = [
        say("section {number} is firm from {at}", number=f.number, at=f.firm_at)
        for f in facts
        if f.stage in FRESH and f.firm_at
    ]
    return ", ".join(told[:3])


def _all_beside_soft(until: str) -> str:
    if until:
        return say("Nothing to set now: all that is left lies beside soft work; {until}.", until=until)
    return say("Nothing to set now: all that is left lies beside soft work.")


def _hand_over_soft(until: str) -> str:
    if until:
        return say("Nothing to set now: the hand would lie over soft work; {until}.", until=until)
    return say("Nothing to set now: the hand would lie over soft work.")


def _missing(facts: Sequence[SectionFacts]) -> str:
    names = sorted({f.adhesive for f in facts if f.adhesive})
    if not names:
        return say("Nothing to set now: the adhesive is out of stock.")
    told = reduce(lambda this, that: say("{this} and {that}", this=this, that=that), names)
    return say("Nothing to set now: {adhesives} out of stock.", adhesives=told)
