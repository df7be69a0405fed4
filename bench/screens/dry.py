"""Dry: one section large, its drawn pieces by group and shade, and the count of what was laid.

Until it is laid there are two acts: 'as drawn', one tap, or another count. Once it lies dry the next act is
the cup, or the split where so many pieces do not keep the promise.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.job.acts import dry, opening
from bench.job.advice import advise
from bench.job.dry_count import judged, mixes_of
from bench.job.ground import section_numbers
from bench.job.settings import OWED, TRANSFER_OWED
from bench.job.state import Section
from bench.screens.drying.groups import Group, group_rows, groups_of, with_room
from bench.screens.drying.transfer import TransferPart
from bench.screens.drying.words import mixes_words, patches_words, pieces_words, sure_words
from bench.screens.screen import Screen
from bench.screens.theme import theme
from bench.speech import say

MOST_GROUPS = 4
LEAST_ACTS = 3  # one below the other, once they are laid


class DryScreen(Screen):
    """Lay a section, count it, and go on to the cup."""

    number = NumericProperty(0)
    head = StringProperty("")
    pieces_text = StringProperty("")
    sure_text = StringProperty("")
    fits = BooleanProperty(True)
    tight = BooleanProperty(False)  # there is much to be said and little height
    is_dry = BooleanProperty(False)
    photo_text = StringProperty("")
    recount_text = StringProperty("")
    split_text = StringProperty("")
    inking = BooleanProperty(False)
    fitted = BooleanProperty(True)  # the section is as large as it goes, and the key offers its true size

    def __init__(self, **kwargs: Any) -> None:
        self._shown: Any = None
        self._measuring = False  # the screen is measured against a card first
        self._seen: Any = None
        self._asking = False
        self._mixes: tuple[Any, tuple[tuple[int, ...], ...]] = (None, ())
        self._found: list[Group] = []
        self._listed = -1  # how many groups are shown
        super().__init__(**kwargs)
        self._looking = self.ids.looking.__self__
        self._parts = self.hold("ask", "to_lay", "to_go", "to_split", "none")
        self.ids.picture.bind(view=self._follow_view)
        self._list = Clock.create_trigger(self._list_again, -1)
        for name in ("split", "acts", "pieces", "sure"):
            self.ids[name].bind(height=self._list)

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self._seen, self.inking = None, False
        self._measuring = self._measuring and self.desk.device.settings.px_per_mm is not None
        self._leave_pad()
        if self.job.store.setting(TRANSFER_OWED) == OWED:
            self._ask_transfer()

    def _ask_transfer(self) -> None:
        part = TransferPart()
        part.bind(on_chosen=lambda _part, transfer: self._transfer(transfer))
        self.ids.split.put_main(part)
        self.ids.split.alone = True

    def _transfer(self, transfer: str) -> None:
        """Take over how pieces go over to the panel, and go on to the section."""
        bench, done = self.job.state.bench, True
        if transfer != bench.transfer:
            done, _ = self.desk.attempt(opening.set_bench, bench.model_copy(update={"transfer": transfer}))
        if done:
            self.desk.keep_setting(TRANSFER_OWED, "")
            self.leave_pad()

    def on_size(self, *_: object) -> None:
        """List as many groups as there is room for."""
        if self._shown is not None:
            self.refresh()

    def refresh(self) -> None:
        section = self._section()
        self.number = section.number if section else 0
        self.is_dry = section is not None and section.stage == "dry"
        self._judge(section)
        self._look_at(section)
        if section is None:
            self.head, self.pieces_text = say("Nothing to lay"), say("Choose a section on the panel.")
            self.sure_text, self.is_dry = "", False
            self._offer("none")
            self._groups(())
            return
        self.head = say("Section {section}", section=section.number)
        self.photo_text = say("Its photo") if section.photo else say("Photograph it")
        self._say(section.piece_count)
        self._offer("to_lay" if not self.is_dry else "to_go" if self.fits else "to_split")
        self._groups(section.tesserae if self.fits and not self._asking else ())

    def _judge(self, section: Section | None) -> None:
        """Find the mixes that a dry section had better be split into, once for each state of the book."""
        bench = self.job.state.bench
        if section is None or not self.is_dry:
            self._mixes = (None, ())
            return
        cut = dry.patches_of(self.job, section)
        self.recount_text = say("Recount") if cut is None else patches_words(cut)
        key = (self.job, section.number, self.job.state.act_ids[-1], bench)
        if self._mixes[0] != key:
            fits = judged(self.job, section.number, section.piece_count).fits
            self._mixes = (key, () if fits else mixes_of(self.job, section.number))
        count = len(self._mixes[1])
        several = count > 1
        self.split_text = say("Split it: {mixes}", mixes=mixes_words(count)) if several else say("Split it")

    def _mix_numbers(self) -> range:
        """Return the numbers that the mixes beside the first would have."""
        free = max(self.job.state.used_numbers, default=0) + 1
        return range(free, free + max(0, len(self._mixes[1]) - 1))

    def _section(self) -> Section | None:
        """Return the section this is about: the one asked for, else the one that is next, else what lies."""
        sections = self.job.state.sections
        asked = sections.get(int(self.desk.section))
        if asked is not None and asked.stage in ("drawn", "dry"):
            return asked
        advice = advise(self.job)
        if advice.act in ("lay", "set"):
            return sections[advice.section or 0]
        return next(iter(self.job.state.with_stage("dry")), None)

    def _look_at(self, section: Section | None) -> None:
        """Show the section as large as it goes, when it is another one or the division changed."""
        picture = self.ids.picture
        if self._shown is not self.job.panel:
            picture.show(self.job.panel)
            self._shown, self._seen = self.job.panel, None
        numbers = section_numbers(self.job)
        for number, part in zip(self._mix_numbers(), self._mixes[1][1:], strict=True):
            numbers[list(part)] = number  # so that the line between the mixes is seen
        lives = {n: self.job.life(n) for n in self.job.state.sections}
        seen = (self.number, numbers.tobytes(), tuple(sorted(lives.items())))
        if seen == self._seen:
            return
        turned = self._seen is None or self._seen[:2] != seen[:2]
        self._seen = seen
        picture.divide(numbers, lives, self.number or None)
        if self._measuring and self.desk.device.settings.px_per_mm is not None:
            self._measuring = False
            picture.true_size(self.number, self.desk.device.settings.px_per_mm)
        elif turned:
            self.focus()

    def _say(self, pieces: int) -> None:
        """Say what so many pieces mean for the promise."""
        section = self.job.section(int(self.number))
        drawn, sure = len(section.tesserae), self.job.state.bench.sure
        found = judged(self.job, section.number, pieces)
        cut = dry.patches_of(self.job, section)
        self.fits = found.fits
        self.pieces_text = pieces_words(pieces, drawn, cut, lie_dry=self.is_dry)
        self.sure_text = sure_words(found, sure, len(self._mixes[1]))
        self.ids.picture.mark(found.strip)

    def _offer(self, acts: str) -> None:
        """Have the acts for what can be done now; while a number is typed there are none."""
        wanted = [] if self._asking else [self._parts[acts]]
        place = self.ids.acts
        if place.children != wanted:
            place.clear_widgets()
            for part in wanted:
                place.add_widget(part)
        if self.number:
            drawn = len(self.job.section(int(self.number)).tesserae)
            self.ids.as_drawn.text = say("As drawn: {count}", count=drawn)

    def _groups(self, tesserae: tuple[int, ...]) -> None:
        """List the drawn pieces by group, as many as there is room for beside the acts."""
        self._found = groups_of(self.job.panel, tesserae)
        self._listed = -1
        self._list_again()

    def _list_again(self, *_: object) -> None:
        room_px, card = float("inf"), self.ids.card
        if self.ids.split.lie == "wide":
            said_px = sum(self.ids[name].height + card.spacing for name in ("head", "pieces", "sure"))
            acts_px = max(self.ids.acts.height, LEAST_ACTS * (theme.target + theme.gap))
            room_px = self.ids.split.height - acts_px - theme.gap - 2 * card.padding[1] - said_px
        shown = with_room(self._found, MOST_GROUPS, room_px)
        if shown != self._listed:
            self._listed = shown
            self.ids.groups.clear_widgets()
            for row in group_rows(self._found, shown):
                self.ids.groups.add_widget(row)

    # -- hands -------------------------------------------------------------------------------------------

    def lay_as_drawn(self) -> None:
        section = self.job.section(int(self.number))
        self._lay(len(section.tesserae))

    def _lay(self, pieces: float) -> None:
        number = int(self.number)
        done, _ = self.desk.attempt(dry.lay, number, int(pieces))
        if done:
            self.desk.section = number

    def ask_count(self) -> None:
        """Ask how many pieces lie there; what they mean is shown with every digit."""
        drawn = len(self.job.section(int(self.number)).tesserae)
        self._parts["ask"].ask(
            say("Pieces on the film, section {section:.0f}", section=self.number),
            self._lay,
            most=dry.MOST_PIECES_TO_ONE_DRAWN * drawn + 10,
            use_text=say("Counted"),
            follow=self._follow_count,
        )
        self._asking = True
        self.ids.split.put_main(self._parts["ask"])
        self.refresh()

    def recount(self) -> None:
        """Ask again what decides: the pieces, or how many patches they will be set in."""
        if not self.job.state.bench.by_patch:
            self.ask_count()
            return
        self._parts["ask"].ask(
            say("Patches to set section {section:.0f} in", section=self.number),
            self._cut,
            most=200,
            use_text=say("So many"),
        )
        self._asking = True
        self.ids.split.put_main(self._parts["ask"])
        self.refresh()

    def _cut(self, patches: float) -> None:
        self.desk.attempt(dry.lay, int(self.number), patches=int(patches))

    def ask_hours(self) -> None:
        """Ask how long laying took, so that days can be foretold."""
        self._parts["ask"].ask(
            say("Hours it took to cut and lay section {section:.0f}, breaks left out", section=self.number),
            self._hours,
            unit="h",
            decimals=2,
            least=0.05,
            most=dry.MOST_HOURS_LAYING,
            use_text=say("It took so long"),
        )
        self._asking = True
        self.ids.split.put_main(self._parts["ask"])
        self.refresh()

    def _hours(self, hours: float) -> None:
        self.desk.attempt(dry.time_laying, int(self.number), hours)

    def _follow_count(self, pieces: float | None) -> None:
        section = self.job.section(int(self.number))
        if pieces is None or not 1 <= pieces <= dry.MOST_PIECES_TO_ONE_DRAWN * len(section.tesserae) + 10:
            pieces = section.piece_count
        self._say(int(pieces))

    def leave_pad(self) -> None:
        """Look at the section again."""
        self._leave_pad()
        self.refresh()

    def _leave_pad(self) -> None:
        self._asking = self.ids.split.alone = False
        self.ids.split.put_main(self._looking)

    def step_back(self) -> bool:
        if self.inking:
            self.draw_line()
            return True
        asking = self._asking
        if not self.ids.split.alone:
            self.leave_pad()
        return asking

    def take_up(self) -> None:
        self.desk.attempt(dry.take_up, int(self.number))

    def split(self) -> None:
        """Part the section so that each part keeps the promise at the room's temperature."""
        number = int(self.number)
        done, _ = self.desk.attempt(dry.split, number)
        if done:
            self.desk.section = number

    def draw_line(self) -> None:
        """Turn to drawing the line that parts the section, or away from it."""
        self.inking = not self.inking
        self.ids.picture.wipe()
        if self.inking:
            self.sure_text = say("Draw a line right across it: each part gets a mix of its own.")
        else:
            self.refresh()

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Part the section along the line that was drawn."""
        number = int(self.number)
        self.inking = False
        self.ids.picture.wipe()
        done, _ = self.desk.attempt(dry.split_along, number, points_mm)
        if done:
            self.desk.section = number

    def photograph(self) -> None:
        """Count the pieces in a photo, or look at the one there is."""
        self.desk.go("photograph", section=int(self.number))

    def to_cup(self) -> None:
        self.desk.go("cup", section=int(self.number))

    def to_panel(self) -> None:
        self.desk.go("panel")

    def focus(self) -> None:
        """Show the section as large as it goes; a screen that was turned keeps its true size."""
        at = self.ids.picture.view
        if at is not None and at.px_per_mm == self.desk.device.settings.px_per_mm:
            self._true_size()
        else:
            self._fit()

    def turn_size(self) -> None:
        """Turn between as large as it goes and its true size, measured first where it never was."""
        if not self.fitted:
            self._fit()
        elif self.desk.device.settings.px_per_mm is None:
            self._measuring = True
            self.desk.go("card")
        else:
            self._true_size()

    def _true_size(self) -> None:
        self.ids.picture.true_size(int(self.number), self.desk.device.settings.px_per_mm)

    def _follow_view(self, picture: Any, view: Any) -> None:
        section = picture.section(int(self.number))
        self.fitted = view is None or view == view.fitted(section.box_mm if section else None)

    def _fit(self) -> None:
        self.ids.picture.focus_on(int(self.number), *self._mix_numbers())
