"""Book: what happened, in plain words, newest first; by pages, since a flung list is lost in gloves.

A tap on an entry shows its section alone, the whole of a long note, or the photo it tells of. What it has
learned is a view of its own; its spots lead back here, to the entries of another panel too. The one screen
with a keyboard: for the maker's own words.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from bench.book import Copy
from bench.drawing.photo import Picture, read_picture
from bench.fault import Fault
from bench.job.acts import glueup, record, weigh_cup
from bench.job.acts.lasting import allow_longer, hold_to_label, lasting
from bench.job.learned_graphs import learned_graphs
from bench.job.trend_words import trends_of
from bench.job.words import Line, words
from bench.screens import backups, learned  # noqa: F401 - the kv file names their classes
from bench.screens.attaching import Attaching
from bench.screens.book_choosing import BookChoosing
from bench.screens.book_parts import BookActs, NotePart  # noqa: F401 - the kv file names the acts
from bench.screens.book_words import MOST_SHOWN, when
from bench.screens.bringing import bundled_words
from bench.screens.drying.kept_photo import KeptPhoto
from bench.screens.parts.choice import short
from bench.screens.weighed_cup import CupPart
from bench.speech import say

MOST_HOURS = 48


class BookScreen(BookChoosing):
    """Read the book, take back the newest act, and add what only the maker knows."""

    undo_text = StringProperty("")
    all_text = StringProperty("")
    note_text = StringProperty("")
    bundle_waits = BooleanProperty(False)  # while a mix runs, and in practice

    def __init__(self, **kwargs: Any) -> None:
        self._in_words = False  # the graphs are being read in words
        super().__init__(**kwargs)
        self._listing = self.ids.listing.__self__
        self._acts = self.ids.acts.__self__
        self._parts = self.hold(
            *("ask", "reading", "listed", "learned", "learned_acts", "backups"),
            *("some", "find", "all_sections", "write_note", "bundle"),
            *("what_it_learned", "backups_key", "attach", "cup_went", "weigh_cup"),
        )
        self._cup = CupPart(screen=self)
        self._attaching = Attaching(screen=self, listing=self._parts["listed"])
        self.ids.split.bind(low=lambda *_: self.offer())

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self._show_all()
        self.back()

    def refresh(self) -> None:
        self.title = self._titled()
        self.read()
        newest = record.newest_act(self.job)
        self.undo_text = short(words(newest.event)) if newest else ""
        self.bundle_waits = self.desk.practice or bool(self.job.state.running_mixes)
        self.offer()
        self._lay()

    def offer(self) -> None:
        """Have the acts that can be done now."""
        self.note_text = say("Note on this entry") if self._framed() else say("Write a note")
        self.all_text = self._all_told()
        weighs = weigh_cup.cup_to_weigh(self.job) is not None and not self.job.state.running_mixes
        wanted = {
            "all_sections": self._filtered(),
            "some": self._panel_id is None and not (self.section and self._day),
            "find": True,
            "write_note": True,
            "bundle": not self._filtered() and not (self.bundle_waits and self.ids.split.low),
            "attach": self._for_photo() is not None,
            "what_it_learned": self._for_photo() is None,
            "backups_key": self._for_photo() is None,
            "cup_went": self._newest_mix() is not None,
            "weigh_cup": weighs,
        }
        self._acts.offer([self._parts[name] for name, may in wanted.items() if may])

    def _newest_mix(self) -> int | None:
        """Return the newest closed mix whose cup has not been told of, None where there is none."""
        closed = [m for m in self.job.state.mixes.values() if m.closed is not None]
        newest = max(closed, key=lambda m: m.number, default=None)
        return newest.number if newest is not None and newest.cup_went_s is None else None

    # -- what is shown -----------------------------------------------------------------------------------

    def back(self) -> None:
        """Show the entries again."""
        self._attaching.end()
        self._in_words = False
        self.ids.split.put_side(self._acts)
        self.put(self._listing)

    def step_back(self) -> bool:
        reads = self._listing.parent is None or bool(self._wanted)
        if self._listing.parent is not None:
            self._show_all()
        self.leave_learned()
        return reads

    def ask_number(self, title: str, use: Callable[[float], object], **how: Any) -> None:
        """Ask for a number in place of the entries."""
        self._parts["ask"].ask(title, use, **how)
        self.put(self._parts["ask"])

    def put(self, part: Any) -> None:
        """Show the entries with the acts beside them, or another part that has all the room."""
        self.ids.split.alone = part is not self._listing
        self.ids.split.put_main(part)

    def open_entry(self, line: Line) -> None:
        if line.photo is not None or line.attached:
            self._show_photo(line)
        elif len(line.text) > MOST_SHOWN:
            reading = self._parts["reading"]
            reading.head, reading.lines, reading.page = when(line), [line.text], 0
            self.put(reading)
        elif line.section is not None:
            self._only(line.section)
        self._seek(line.seq)

    def attach(self) -> None:
        """Attach a photo to the entry that is framed."""
        framed = self._for_photo()
        if framed is not None:
            self._attaching.begin(framed.seq)

    def _show_photo(self, line: Line) -> None:
        """Show the photo that an entry is about, taken back or not."""
        if "photo" not in self._parts:
            photo = self._parts["photo"] = KeptPhoto()
            photo.bind(on_close=lambda _photo: self.back())
        self.put(self._parts["photo"])
        if line.attached:
            self._parts["photo"].begin_with(self.job, line.attached[0], _read, line.text, self._not_shown)
        else:
            self._parts["photo"].begin(self.job, line.photo, line.text, self._not_shown)

    def _not_shown(self, fault: Fault) -> None:
        self.back()
        self.desk.tell(fault)

    # -- what it learned ---------------------------------------------------------------------------------

    def show_learned(self) -> None:
        """Turn to the graphs: reading a long book takes a moment."""
        self.soon(say("Reading the book …"), self._show_learned)

    def _show_learned(self) -> None:
        graphs = learned_graphs(self.job)
        lives = {g.about: lasting(self.job, g.about) for g in graphs if g.about}
        self._parts["learned"].show(graphs, lives)
        self.put_learned()

    def put_learned(self) -> None:
        """Show the graphs as they were left."""
        self.title, self._in_words = say("What it learned"), False
        self.ids.split.put_side(self._parts["learned_acts"])
        self.ids.split.alone = False
        self.ids.split.put_main(self._parts["learned"])

    def lengthen(self, adhesive: str) -> None:
        """Let an adhesive last as long as the book has shown, or hold it to its label again."""
        act = hold_to_label if lasting(self.job, adhesive).allowed else allow_longer
        done, _ = self.desk.attempt(act, adhesive)
        if done:
            self._parts["learned"].keep(learned_graphs(self.job), adhesive, lasting(self.job, adhesive))
            self.desk.divide_anew()

    def show_trends(self) -> None:
        """Say in words what the book shows beyond chance."""
        reading = self._parts["reading"]
        reading.head, reading.lines, reading.page = say("Beyond chance"), list(trends_of(self.job)), 0
        self.put(reading)
        self._in_words = True

    def leave_reading(self) -> None:
        """Go back to what was read from: the graphs, or the entries."""
        if self._in_words:
            self.put_learned()
        else:
            self.back()

    def leave_learned(self) -> None:
        self.back()
        self.refresh()

    def show_entry(self, seq: int, panel_id: int) -> None:
        """Show the page with an entry, in the book of the panel it belongs to."""
        self._show_all()
        self._sought = seq
        self._panel_id = None if panel_id == self.job.panel_id else panel_id
        self.leave_learned()

    # -- backups -----------------------------------------------------------------------------------------

    def show_backups(self) -> None:
        """Turn to the copies of the book: looking into each takes a moment."""
        self.soon(say("Looking at the backups …"), self._show_backups)

    def _show_backups(self) -> None:
        self.title = say("Backups")
        self._parts["backups"].show(self.job)
        self.put(self._parts["backups"])

    def put_back(self, copy: Copy) -> None:
        self.soon(say("Putting the copy back …"), lambda: self.desk.put_back(copy))

    # -- acts --------------------------------------------------------------------------------------------

    def undo(self) -> None:
        self.desk.attempt(record.undo)

    def ask_cup_went(self) -> None:
        """Ask how many minutes after first contact the left-over in the cup was found to have gone."""
        self._parts["ask"].ask(
            say("Minutes from first contact until the cup had gone"),
            self._cup_went,
            unit="min",
            most=MOST_HOURS * 60,
            use_text=say("It had gone by then"),
        )
        self.put(self._parts["ask"])

    def _cup_went(self, minutes: float) -> None:
        mix = self._newest_mix()
        if mix is not None:
            self.desk.attempt(glueup.cup_went, mix, after_s=60.0 * minutes)

    def ask_cup(self) -> None:
        """Ask what the newest cup weighs with what stayed in it."""
        self._cup.begin()

    def bundle(self) -> None:
        """Write the panel with all that belongs to it into one file, and say where it lies."""
        self.soon(say("Bundling the panel …"), self._bundle)

    def _bundle(self) -> None:
        done, told = self.desk.attempt(bundled_words)
        if done:
            reading = self._parts["reading"]
            reading.head, reading.lines, reading.page = say("The panel is in one file"), told, 0
            self.put(reading)

    def write_note(self) -> None:
        if "note" not in self._parts:
            note = self._parts["note"] = NotePart()
            note.bind(on_keep=lambda _note, text: self._keep_note(text))
            note.bind(on_left=lambda _note: self._leave_note())
        self.put(self._parts["note"])
        self._parts["note"].begin()

    def _keep_note(self, text: str) -> None:
        framed = self._framed()
        done, _ = self.desk.attempt(record.note, text, about=framed.seq if framed else None)
        if done:
            self._leave_note()

    def _leave_note(self) -> None:
        self._parts["note"].ids.field.focus = False
        self.back()


def _read(data: bytes) -> Picture:
    return read_picture(data, say("attached photo"))
