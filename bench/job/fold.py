"""Fold the book of one panel into its state.

Nothing here decides or refuses: acts did that before they wrote. An act that was undone is skipped as
if it had never been written, so the fold of a book and the fold of its living acts are the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import timedelta
from typing import Any

from bench.book import events as e
from bench.book.events import Envelope
from bench.job import finish_fold
from bench.job.state import Mix, PanelState, Section
from bench.unswept import unswept


@unswept()
def fold(envelopes: Iterable[Envelope]) -> PanelState:
    """Return the state after all events of one panel, in order; no events give an empty state."""
    entries = list(envelopes)
    undone = undone_acts(entries)
    state = PanelState()
    for entry in entries:
        if entry.act_id not in undone:
            apply(state, entry)
    return state


def undone_acts(entries: Iterable[Envelope]) -> set[str]:
    """Return the ids of the acts that were taken back."""
    return {entry.event.undone_act_id for entry in entries if isinstance(entry.event, e.ActUndone)}


def apply(state: PanelState, entry: Envelope) -> None:
    """Bring a state forward by one event that counts."""
    event = entry.event
    if isinstance(event, e.ActUndone):
        return
    if not state.act_ids or state.act_ids[-1] != entry.act_id:
        state.act_ids.append(entry.act_id)
    _APPLY[type(event)](state, event, entry)
    if isinstance(event, _TOLD):
        mix = state.mixes[event.mix]
        if mix.is_running and entry.act_id not in mix.told_acts[-1:]:
            mix.told_acts.append(entry.act_id)


def _panel_opened(state: PanelState, event: e.PanelOpened, entry: Envelope) -> None:
    state.name, state.drawing_name = event.name, event.drawing_name
    state.drawing_sha256 = event.drawing_sha256
    state.width_mm, state.height_mm = event.width_mm, event.height_mm


def _bench_set(state: PanelState, event: e.BenchSet, entry: Envelope) -> None:
    state.bench = event


def _section_of(promise: e.Promise) -> Section:
    return Section(
        number=promise.number,
        adhesive=promise.adhesive,
        tesserae=promise.tesserae,
        expected_s=promise.expected_s,
        capacity_s=promise.capacity_s,
        in_time=promise.in_time,
        by_hand=promise.by_hand,
    )


def _sections_drawn(state: PanelState, event: e.SectionsDrawn, entry: Envelope) -> None:
    kept = {n: s for n, s in state.sections.items() if s.stage != "drawn"}
    drawn = {p.number: _section_of(p) for p in event.promises}
    state.sections = kept | drawn
    state.used_numbers |= drawn.keys()


def _sections_shaped(state: PanelState, event: e.SectionsShaped, entry: Envelope) -> None:
    for number in event.gone:
        del state.sections[number]
    for promise in event.promises:
        state.sections[promise.number] = _section_of(promise)
        state.used_numbers.add(promise.number)


def _drawing_revised(state: PanelState, event: e.DrawingRevised, entry: Envelope) -> None:
    state.drawing_sha256, state.drawing_name = event.drawing_sha256, event.drawing_name
    state.width_mm = state.height_mm = None
    place = {old + k: new + k for old, new, count in event.runs for k in range(count)}
    state.sections = {n: s for n, s in state.sections.items() if s.stage != "drawn"}
    for section in state.sections.values():
        section.tesserae = tuple(sorted(place[t] for t in section.tesserae))
    state.laid_once = {place[t] for t in state.laid_once if t in place}
    finish_fold.renamed(state.finish, place)


def _section_laid(state: PanelState, event: e.SectionLaid, entry: Envelope) -> None:
    section = state.sections[event.section]
    section.stage, section.pieces, section.in_time = "dry", event.pieces, event.in_time
    section.patches = event.patches
    section.laid_utc = section.laid_utc or entry.at_utc
    state.worked_numbers.add(event.section)
    state.laid_once.update(section.tesserae)


def _dry_photographed(state: PanelState, event: e.DryPhotographed, entry: Envelope) -> None:
    state.sections[event.section].photo = event


def _edge_traced(state: PanelState, event: e.EdgeTraced, entry: Envelope) -> None:
    state.edge, state.edge_utc = event, entry.at_utc


def _section_taken_up(state: PanelState, event: e.SectionTakenUp, entry: Envelope) -> None:
    section = state.sections[event.section]
    section.stage, section.pieces, section.laid_utc = "drawn", None, None
    section.photo = section.patches = None
    state.laid_once.difference_update(section.tesserae)


def _section_split(state: PanelState, event: e.SectionSplit, entry: Envelope) -> None:
    whole = state.sections.pop(event.section)
    patches = event.patches or (None,) * len(event.parts)
    for promise, pieces, cut in zip(event.parts, event.pieces, patches, strict=True):
        part = _section_of(promise)
        part.patches = cut
        part.stage, part.pieces, part.laid_utc = "dry", pieces, whole.laid_utc
        part.photo = whole.photo
        state.sections[part.number] = part
        state.used_numbers.add(part.number)
        state.worked_numbers.add(part.number)


def _mix_opened(state: PanelState, event: e.MixOpened, entry: Envelope) -> None:
    state.mixes[event.mix] = Mix(
        event.mix, event.section, event.temperature_C, entry.at_utc, event.adhesive_C
    )
    state.sections[event.section].mix = event.mix


def _bottle_taken(state: PanelState, event: e.BottleTaken, entry: Envelope) -> None:
    state.mixes[event.mix].taken[event.part] = event


def _cautions(state: PanelState, event: e.CautionsAcknowledged, entry: Envelope) -> None:
    mix = state.mixes[event.mix]
    mix.acknowledged, mix.shown = True, event.shown


def _batch(state: PanelState, event: e.BatchPrescribed, entry: Envelope) -> None:
    state.mixes[event.mix].batch = event


def _poured(state: PanelState, event: e.ResinPoured, entry: Envelope) -> None:
    mix = state.mixes[event.mix]
    mix.poured_resin_g, mix.hardener_target_g = event.resin_g, event.hardener_target_g


def _hardener(state: PanelState, event: e.HardenerPoured, entry: Envelope) -> None:
    mix = state.mixes[event.mix]
    mix.poured_resin_g, mix.poured_hardener_g = event.resin_g, event.hardener_g
    mix.poured_s = event.at_s
    if event.working_time_s is not None:
        if mix.label_s is not None and mix.working_time_s:
            mix.label_s *= event.working_time_s / mix.working_time_s
        mix.working_time_s = event.working_time_s


def _put_away(state: PanelState, event: e.MixPutAway, entry: Envelope) -> None:
    mix = state.mixes[event.mix]
    mix.put_away = True
    state.sections[mix.section].mix = None


def _contact(state: PanelState, event: e.ContactMade, entry: Envelope) -> None:
    mix = state.mixes[event.mix]
    mix.contact_utc = entry.at_utc - timedelta(seconds=event.back_dated_s)
    mix.working_time_s = event.working_time_s
    mix.label_s = event.working_time_s if event.label_s is None else event.label_s
    mix.patches = event.patches
    mix.steps_s["stir"] = 0.0
    state.sections[mix.section].stage = "wet"


def _contact_corrected(state: PanelState, event: e.ContactCorrected, entry: Envelope) -> None:
    mix, by = state.mixes[event.mix], event.earlier_by_s
    assert mix.contact_utc is not None
    mix.contact_utc -= timedelta(seconds=by)
    mix.steps_s = {step: at if step == "stir" else at + by for step, at in mix.steps_s.items()}
    mix.counts = [(at + by, placed) for at, placed in mix.counts]
    mix.pauses_s = [[at + by for at in pause] for pause in mix.pauses_s]
    mix.stringy_s = None if mix.stringy_s is None else mix.stringy_s + by
    mix.poured_s = None if mix.poured_s is None else mix.poured_s + by
    mix.told_acts.clear()  # all times have moved, which nobody can take back


def _step(state: PanelState, event: e.StepBegun, entry: Envelope) -> None:
    state.mixes[event.mix].steps_s[event.step] = event.at_s


def _counted(state: PanelState, event: e.PiecesCounted, entry: Envelope) -> None:
    state.mixes[event.mix].counts.append((event.at_s, event.placed))


def _paused(state: PanelState, event: e.MixPaused, entry: Envelope) -> None:
    state.mixes[event.mix].pauses_s.append([event.at_s])


def _resumed(state: PanelState, event: e.MixResumed, entry: Envelope) -> None:
    state.mixes[event.mix].pauses_s[-1].append(event.at_s)


def _stringy(state: PanelState, event: e.WentStringy, entry: Envelope) -> None:
    state.mixes[event.mix].stringy_s = event.at_s


def _closed(state: PanelState, event: e.MixClosed, entry: Envelope) -> None:
    mix, section = state.mixes[event.mix], state.sections[event.section]
    mix.closed = event
    if event.left:
        left = set(event.left)
        section.tesserae = tuple(t for t in section.tesserae if t not in left)
    section.stage = "set"
    section.pieces = event.placed
    if not section.tesserae:
        del state.sections[event.section]


def _cup_went(state: PanelState, event: e.CupWent, entry: Envelope) -> None:
    state.mixes[event.mix].cup_went_s = event.at_s


def _cup_weighed(state: PanelState, event: e.CupWeighed, entry: Envelope) -> None:
    state.mixes[event.mix].cup_weighed = event


def _cure_confirmed(state: PanelState, event: e.CureConfirmed, entry: Envelope) -> None:
    state.sections[event.section].confirmed = event.stage


def _chipped(state: PanelState, event: e.SectionChipped, entry: Envelope) -> None:
    section = state.sections.pop(event.section)
    state.laid_once.difference_update(section.tesserae)
    finish_fold.chipped(state.finish, section.tesserae)


def _only_kept(state: PanelState, event: e.Event, entry: Envelope) -> None:
    """A note, a photo, the hours of laying and how long an adhesive may last change nothing on the panel."""


# What the hands tell of a running mix, each of which may be taken back without asking what others tell.
_TOLD = (
    e.StepBegun,
    e.PiecesCounted,
    e.MixPaused,
    e.MixResumed,
    e.WentStringy,
    e.HardenerPoured,
)

_APPLY: dict[type, Callable[[PanelState, Any, Envelope], None]] = {
    e.PanelOpened: _panel_opened,
    e.BenchSet: _bench_set,
    e.SectionsDrawn: _sections_drawn,
    e.SectionsShaped: _sections_shaped,
    e.DrawingRevised: _drawing_revised,
    e.SectionLaid: _section_laid,
    e.DryPhotographed: _dry_photographed,
    e.EdgeTraced: _edge_traced,
    e.SectionTakenUp: _section_taken_up,
    e.SectionSplit: _section_split,
    e.MixOpened: _mix_opened,
    e.BottleTaken: _bottle_taken,
    e.CautionsAcknowledged: _cautions,
    e.BatchPrescribed: _batch,
    e.ResinPoured: _poured,
    e.HardenerPoured: _hardener,
    e.MixPutAway: _put_away,
    e.ContactMade: _contact,
    e.ContactCorrected: _contact_corrected,
    e.StepBegun: _step,
    e.PiecesCounted: _counted,
    e.MixPaused: _paused,
    e.MixResumed: _resumed,
    e.WentStringy: _stringy,
    e.MixClosed: _closed,
    e.CupWent: _cup_went,
    e.CupWeighed: _cup_weighed,
    e.CureConfirmed: _cure_confirmed,
    e.SectionChipped: _chipped,
    e.NoteWritten: _only_kept,
    e.LayingTimed: _only_kept,
    e.LifeAllowed: _only_kept,
    e.PhotoAttached: _only_kept,
    **finish_fold.APPLY,
}
