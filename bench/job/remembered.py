"""What the book remembers, glue-up by glue-up, with the entries it stands in: for graphs and trends."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bench.book import Store
from bench.book import events as e
from bench.book.events import Envelope
from bench.drawing.panel import Panel
from bench.job.bedding import bed_area_mm2
from bench.job.drawings import read_again
from bench.job.fold import apply, undone_acts
from bench.job.job import Job
from bench.job.same_hands import of_these_hands
from bench.job.state import Mix, PanelState
from bench.job.taught import LEARNT_FROM, glue_ups_of
from bench.job.words import notes_on
from bench.pace.glueup import GlueUp
from bench.pace.normal import FloatArray
from bench.unswept import unswept

REMEMBERED_FROM = (*LEARNT_FROM, "batch_prescribed")


@dataclass(frozen=True, eq=False)
class Made:
    """One closed glue-up: its entry, what is learned from it, and the chance that was promised at the cup.

    promised: None where nothing was told. kept: whether it was clean in time; None where that tells nothing
    of the promise, since pieces were left for another reason or the clock is unsure.
    """

    seq: int
    panel_id: int
    event: e.MixClosed
    glue_up: GlueUp
    promised: float | None
    kept: bool | None


@dataclass(frozen=True, eq=False)
class Mixed:
    """One batch of a panel: the entry that prescribed it, the bed it was for, and what was mixed.

    weighed: the resin was weighed into the cup, else the grams are as prescribed.
    stayed_g: what stayed in the cup, where it was weighed afterwards, and cup_seq the entry that tells it.
    """

    seq: int
    section: int
    adhesive: str
    bed_cm2: float
    mixed_g: float
    weighed: bool
    stayed_g: float | None = None
    cup_seq: int = 0


@unswept()
def made_of(entries: Iterable[Envelope]) -> tuple[Made, ...]:
    """Return every closed glue-up that was not taken back, oldest first, as `glue_ups_of` gives them."""
    entries = list(entries)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone]
    told = {
        (x.panel_id, x.event.mix): x.event.in_time for x in living if isinstance(x.event, e.BatchPrescribed)
    }
    closed = [(x.seq, x.panel_id, x.event) for x in living if isinstance(x.event, e.MixClosed)]
    closed.sort(key=lambda row: row[2].contact_utc)  # the order in which glue_ups_of has them
    return tuple(
        Made(seq, panel, event, glue_up, told.get((panel, event.mix)), _kept(event, glue_up))
        for (seq, panel, event), (_, glue_up) in zip(closed, glue_ups_of(entries), strict=True)
    )


def glue_ups_with_notes(store: Store) -> tuple[list[GlueUp], list[str]]:
    """Return every closed glue-up, oldest first, and the maker's words on any entry of each mix, "" for none.

    No list of words where there are none at all.
    """
    made = made_of(of_these_hands(store, REMEMBERED_FROM))
    said: dict[tuple[int, int], list[str]] = {}
    for panel_id in dict.fromkeys(one.panel_id for one in made):
        entries = store.events(panel_id)
        mix_of = {x.seq: getattr(x.event, "mix", None) for x in entries}
        for seq, words in sorted(notes_on(entries).items()):
            said.setdefault((panel_id, mix_of.get(seq) or 0), []).extend(words)
    notes = ["; ".join(said.get((one.panel_id, one.event.mix), [])) for one in made]
    return [one.glue_up for one in made], notes if any(notes) else []


def _kept(event: e.MixClosed, glue_up: GlueUp) -> bool | None:
    if not glue_up.learn_life:
        return None
    if event.in_time:
        return True
    late = glue_up.stringy_after_s is not None and glue_up.stringy_after_s < event.finished_after_s
    return False if late or event.why_left == "stringy" else None


@unswept()
def mixed_on(job: Job) -> tuple[Mixed, ...]:
    """Return the batches of a panel in which hardener met resin, oldest first, each with its bed then.

    Pieces that were left over, or a revised drawing, change nothing of the bed that a batch was mixed for.
    """
    entries = job.store.events(job.panel_id)
    undone = undone_acts(entries)
    state, beds = PanelState(), _Beds(job)
    seq: dict[int, int] = {}
    found: dict[int, Mixed] = {}
    for entry in entries:
        if entry.act_id in undone:
            continue
        apply(state, entry)
        if isinstance(entry.event, e.BatchPrescribed):
            seq[entry.event.mix] = entry.seq
        elif isinstance(entry.event, e.ContactMade):
            mix = state.mixes[entry.event.mix]
            mixed_g, weighed = _mixed_g(mix)
            section = state.sections[mix.section]
            bed_cm2 = beds.mm2(state, section.tesserae) / 100.0
            where = seq.get(mix.number, entry.seq)
            if mixed_g > 0 and bed_cm2 > 0:
                found[mix.number] = Mixed(
                    where, section.number, section.adhesive, bed_cm2, mixed_g, weighed
                )
        elif isinstance(entry.event, e.CupWeighed) and entry.event.mix in found:
            stayed_g = max(0.0, entry.event.gross_g - entry.event.tare_g)
            mixed = found[entry.event.mix]
            found[entry.event.mix] = replace(mixed, stayed_g=stayed_g, cup_seq=entry.seq)
    return tuple(found.values())


def _mixed_g(mix: Mix) -> tuple[float, bool]:
    if mix.poured_resin_g is not None:
        return mix.poured_resin_g + (mix.hardener_target_g or 0.0), True
    return (mix.batch.total_g if mix.batch is not None else 0.0), False


class _Beds:
    """The bed of tesserae on the drawing a panel had at the time, each drawing measured once."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._measured: dict[tuple[str, bool], FloatArray] = {}

    def mm2(self, state: PanelState, tesserae: tuple[int, ...]) -> float:
        buttered = state.bench.bed == "buttered"
        key = state.drawing_sha256, buttered
        if key not in self._measured:
            panel = self._panel(state)
            self._measured[key] = panel.area_mm2 if buttered else bed_area_mm2(panel)
        return float(self._measured[key][list(tesserae)].sum())

    def _panel(self, state: PanelState) -> Panel:
        if state.drawing_sha256 == self._job.state.drawing_sha256:
            return self._job.panel
        size = state.width_mm, state.height_mm
        return read_again(self._job.store, state.drawing_name, state.drawing_sha256, *size)
