"""One panel being made: its drawing, its book and what is true of it now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime, timedelta

from bench.adhesive.product import Product
from bench.adhesive.product_file import find_product, parse_product
from bench.book import WORKSHOP, Clock, Mark, Reading, Store
from bench.book import countdown as cd
from bench.book.events import Envelope, Event
from bench.drawing.panel import Panel
from bench.fault import Fault
from bench.job.cup_faults import NoSuchMix
from bench.job.drawings import read_again
from bench.job.faults import NoSuchPanel, NoSuchSection
from bench.job.finish_state import drying_keys
from bench.job.fold import apply, fold
from bench.job.state import Life, Mix, PanelState, Section

RECENT = 300  # entries; reading all takes long in a long book


class Job:
    """Hold one open panel. Acts write through it; screens and commands read from it.

    A drawing is read once; it changes only where a revised one is written in the book, or taken back. The
    state follows the book event by event.
    """

    def __init__(self, store: Store, clock: Clock, panel_id: int, panel: Panel | None = None) -> None:
        entries = [] if panel_id == WORKSHOP else store.events(panel_id)
        if not entries:
            raise NoSuchPanel(panel_id)
        self.store, self.clock, self.panel_id = store, clock, panel_id
        self.state: PanelState = self._folded(entries)
        self._drawings: dict[tuple[str, float | None, float | None], Panel] = {}
        if panel is not None:
            self._drawings[_drawing_of(self.state)] = panel
        self.panel: Panel = self._drawn(self.state)
        self._seq = entries[-1].seq
        self._products: dict[str, Product] = {}

    def _folded(self, entries: Sequence[Envelope]) -> PanelState:
        """Return the state after these entries; a panel that parted from another goes by its own name."""
        state = fold(entries)
        if self.store.elsewhere.parted(self.panel_id) is not None:
            state.name = next(p.name for p in self.store.panels() if p.panel_id == self.panel_id)
        return state

    def _drawn(self, state: PanelState) -> Panel:
        """Return what the drawing of a state shows, read where it was not read before."""
        key = _drawing_of(state)
        if key not in self._drawings:
            self._drawings[key] = read_again(self.store, state.drawing_name, *key)
        return self._drawings[key]

    # -- writing ---------------------------------------------------------------------------------

    def write(
        self,
        *events: Event,
        marks: Sequence[tuple[str, Mark]] = (),
        act_id: str | None = None,
        files: Sequence[tuple[bytes, str]] = (),
        settings: Mapping[str, str] | None = None,
    ) -> str:
        """Write the events of one act, all or none, and follow them. Return the act's id.

        act_id: the newest act, when these events follow from it and are to be undone with it.
        files: (content, media) of what the events name by its hash, kept with them or not at all, as are
        settings. Nothing else may be open that writes: what is followed here must be in the book.
        """
        try:
            entries = self._written(events, marks, act_id, files, settings or {})
        except Fault:
            raise
        except BaseException:  # it may have come after the last word: what is held must be what is kept
            self.refold()
            raise
        for entry in entries:
            apply(self.state, entry)
        self._seq = entries[-1].seq
        return entries[0].act_id

    def _written(
        self,
        events: Sequence[Event],
        marks: Sequence[tuple[str, Mark]],
        act_id: str | None,
        files: Sequence[tuple[bytes, str]],
        settings: Mapping[str, str],
    ) -> Sequence[Envelope]:
        with self.store.together():
            for key, value in settings.items():
                self.store.set_setting(key, value)
            for data, media in files:
                self.store.put_blob(data, media)
            return self.store.append(
                self.panel_id,
                events,
                at_utc=self.clock.utc(),
                act_id=act_id,
                marks=tuple(marks),
                continues=act_id is not None,
            )

    @contextmanager
    def together(self) -> Iterator[None]:
        """Write the acts of several books as one: all are kept and followed, or none is."""
        try:
            with self.store.together():
                yield
        except BaseException:  # `write` has followed what the disk then refused
            self.refold()
            raise

    def write_revised(self, panel: Panel, *events: Event, files: Sequence[tuple[bytes, str]]) -> str:
        """Write the events of an act that gives the panel another drawing, which reads as `panel`."""
        act_id = self.write(*events, files=files)
        self._drawings[_drawing_of(self.state)] = self.panel = panel
        return act_id

    def refold(self) -> None:
        """Read the whole book again, and the drawing it leads to; needed after an act was taken back."""
        entries = self.store.events(self.panel_id)
        state = self._folded(entries)
        self.panel, self.state = self._drawn(state), state
        self._seq = entries[-1].seq

    def follow(self) -> bool:
        """Read the book again where another program has written in it; tell whether it has."""
        if self.store.last_seq(self.panel_id) == self._seq:
            return False
        self.refold()
        return True

    # -- looking up ------------------------------------------------------------------------------

    def recent_events(self) -> list[Envelope]:
        """Return the newest RECENT entries: the newest act is nearly always among them."""
        return self.store.events(self.panel_id, after_seq=max(0, self.store.last_seq(self.panel_id) - RECENT))

    def section(self, number: int) -> Section:
        """Return a section that is on the panel, or raise NoSuchSection."""
        try:
            return self.state.sections[number]
        except KeyError:
            raise NoSuchSection(number) from None

    def mix(self, number: int) -> Mix:
        """Return a mix of this panel, or raise NoSuchMix."""
        try:
            return self.state.mixes[number]
        except KeyError:
            raise NoSuchMix(number) from None

    def product(self, adhesive: str) -> Product:
        """Return the product behind an adhesive's name: the file kept in the book, else a shipped type."""
        if adhesive not in self._products:
            kept = self.state.bench.products.get(adhesive)
            self._products[adhesive] = (
                parse_product(self.store.blob(kept), adhesive) if kept else find_product(adhesive)
            )
        return self._products[adhesive]

    def products(self, names: Sequence[str]) -> Mapping[str, Product]:
        return {name: self.product(name) for name in names}

    def forget_products(self) -> None:
        """Drop what was read of the adhesives, after the bench was set anew."""
        self._products.clear()

    # -- clocks ----------------------------------------------------------------------------------

    def reading(self, mix: int) -> Reading:
        """Return the adhesive's clock of a mix since first contact, read the safe way when unsure."""
        return cd.read(self.glue_mark(mix), self.clock)

    def glue_mark(self, mix: int) -> Mark:
        """Return where the countdown of a mix stood when it was last noted down.

        The time it counts down from is the book's: what is poured late may shorten it, and undo give it back.
        """
        mark = self.store.countdown(self.panel_id, glue_key(mix))
        if mark is None:
            return self._mark_from_book(mix)
        total_s = self.mix(mix).working_time_s
        return mark if total_s is None else replace(mark, total_s=total_s)

    def _mark_from_book(self, number: int) -> Mark:
        """Rebuild a lost countdown row from the book; and read it as unsure."""
        mix = self.mix(number)
        assert mix.contact_utc is not None
        assert mix.working_time_s is not None
        return Mark(mix.working_time_s, 0.0, mix.contact_utc, boot_s=None, boot_id=None, unsure=True)

    def remark(self) -> None:
        """Write every running clock down again; called every 15 s and when the app is put aside."""
        keys = [glue_key(m.number) for m in self.state.running_mixes]
        keys += [cure_key(s.mix) for s in self.state.with_stage("set") if s.mix is not None]
        keys += drying_keys(self.state.finish)
        for key in keys:
            mark = self.store.countdown(self.panel_id, key)
            if mark is not None:
                self.store.set_countdown(self.panel_id, key, cd.mark(mark, self.clock))

    def life(self, number: int) -> Life:
        """Return where a section is in its life: drawn, dry, wet, soft, firm or hard."""
        section = self.section(number)
        if section.stage != "set":
            return section.stage
        mix = self.mix(section.mix or 0)
        assert mix.closed is not None
        cured_s = self._surely_cured_s(mix.number)
        if section.confirmed == "hard" or cured_s >= mix.closed.grout_s:
            return "hard"
        if section.confirmed == "firm" or cured_s >= mix.closed.firm_s:
            return "firm"
        return "soft"

    def _surely_cured_s(self, mix: int) -> float:
        """Return the cure time that is certain; a clock that cannot be trusted counts only what is sure."""
        mark = self.store.countdown(self.panel_id, cure_key(mix))
        return 0.0 if mark is None else cd.read(mark, self.clock).surely_s

    def cure_unsure(self, number: int) -> bool:
        """Tell whether a set section's cure is unknown because the clock cannot be trusted."""
        section = self.section(number)
        if section.stage != "set" or section.confirmed == "hard":
            return False
        mark = self.store.countdown(self.panel_id, cure_key(section.mix or 0))
        return mark is None or cd.read(mark, self.clock).unsure

    def firm_utc(self, number: int) -> datetime | None:
        """Return when a set section is firm by the clock, None for one that is not set."""
        return self._cured_utc(number, "firm")

    def hard_utc(self, number: int) -> datetime | None:
        """Return when a set section may be grouted by the clock, None for one that is not set."""
        return self._cured_utc(number, "hard")

    def _cured_utc(self, number: int, stage: str) -> datetime | None:
        section = self.section(number)
        if section.stage != "set" or section.mix is None:
            return None
        closed = self.mix(section.mix).closed
        assert closed is not None
        wait_s = closed.firm_s if stage == "firm" else closed.grout_s
        return self.clock.utc() + timedelta(seconds=wait_s - self._surely_cured_s(section.mix))


def _drawing_of(state: PanelState) -> tuple[str, float | None, float | None]:
    return state.drawing_sha256, state.width_mm, state.height_mm


def glue_key(mix: int) -> str:
    """Name the countdown row of a mix's working time."""
    return f"glue:{mix}"


def cure_key(mix: int | None) -> str:
    """Name the countdown row of a mix's cure."""
    return f"cure:{mix}"
