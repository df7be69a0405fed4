"""Dry: one section large, its drawn pieces by group and shade, and the count of what was laid.

Until it is laid there are two acts: 'as drawn', one tap, or another count. Once it lies dry the next act is
the cup, or the split where so many pieces do not keep the promise.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.fault import Fault
from bench.job.acts import dry
from bench.job.advice import section_at_dry
from bench.job.dry_count import judged
from bench.job.settings import OWED, TRANSFER_OWED
from bench.job.state import Section
from bench.screens.drying.groups import Group, group_rows, groups_of, with_room
from bench.screens.drying.mixes import Mixes
from bench.screens.drying.section_view import SectionView
from bench.screens.drying.transfer import TransferPart, taken_over
from bench.screens.drying.words import patches_words, pieces_words, split_words, sure_words
from bench.screens.screen import Screen
from bench.screens.theme import theme
from bench.speech import large_first, say

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
        self._view: SectionView | None = None
        self._asking = False
        self._mixes: tuple[tuple[int, ...], ...] = ()
        self._mixes_of = Mixes().of
        self._hopeless = False  # not even one piece is sure
        self._found: list[Group] = []
        self._listed = -1  # how many groups are shown
        super().__init__(**kwargs)
        self._looking = self.ids.looking.__self__
        self._parts = self.hold("ask", "to_lay", "to_go", "to_split", "none")
        self._view = SectionView(self.ids.picture, self.desk)
        self.ids.picture.bind(view=self._follow_view)
        self._list = Clock.create_trigger(self._list_again, -1)
        for name in ("split", "acts", "pieces", "sure"):
            self.ids[name].bind(height=self._list)

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.inking = False
        self._view.arrive()
        self._leave_pad()
        if self.job.store.setting(TRANSFER_OWED) == OWED:
            self._ask_transfer()

    def _ask_transfer(self) -> None:
        part = TransferPart()
        part.bind(on_chosen=lambda _part, transfer: self._transfer(transfer))
        self.ids.split.put_main(part)
        self.ids.split.alone = True

    def _transfer(self, transfer: str) -> None:
        if taken_over(self.desk, transfer):
            self.leave_pad()

    def on_size(self, *_: object) -> None:
        """List as many groups as there is room for."""
        if self._view is not None and self._view.shows and self.get_root_window() is not None:
            self.refresh()

    def refresh(self) -> None:
        section = section_at_dry(self.job, int(self.desk.section))
        self.number = section.number if section else 0
        self.is_dry = section is not None and section.stage == "dry"
        self._judge(section)
        self._view.follow(int(self.number), self._mixes)
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
        """Find the mixes that a dry section had better be split into."""
        self._mixes = ()
        if section is None or not self.is_dry:
            return
        cut = dry.patches_of(self.job, section)
        self.recount_text = say("Recount") if cut is None else patches_words(cut)
        self._mixes = self._mixes_of(self.job, section)

    def _say(self, pieces: int) -> None:
        """Say what so many pieces mean for the promise."""
        section = self.job.section(int(self.number))
        drawn, sure = len(section.tesserae), self.job.state.bench.sure
        cut = dry.patches_of(self.job, section)
        self.pieces_text = pieces_words(pieces, drawn, cut, lie_dry=self.is_dry)
        try:
            found = judged(self.job, section.number, pieces)
        except Fault as fault:  # the room may be too cold for it: the cup asks again before anything is mixed
            self.fits, self.sure_text = True, f"{large_first(fault.what)}."
            self.ids.picture.mark(())
            return
        self.fits, self._hopeless = found.fits, not found.mixes
        self.split_text = split_words(len(self._mixes), hopeless=self._hopeless)
        self.sure_text = sure_words(found, sure, len(self._mixes))
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
        card, split = self.ids.card, self.ids.split
        said_px = sum(self.ids[name].height + card.spacing for name in ("head", "pieces", "sure"))
        least_acts = LEAST_ACTS if split.lie == "wide" else 0
        acts_px = max(self.ids.acts.height, least_acts * (theme.target + theme.gap))
        room_px = split.side_room_px - acts_px - theme.gap - 2 * card.padding[1] - said_px
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
        self._do(dry.lay, int(pieces))

    def _do(self, act: Callable[..., object], *how: object) -> None:
        """Do something with the section, which is then looked at whatever comes next."""
        number = int(self.number)
        done, _ = self.desk.attempt(act, number, *how)
        if done:
            self.desk.section = number

    def ask_count(self) -> None:
        """Ask how many pieces lie there; what they mean is shown with every digit."""
        drawn = len(self.job.section(int(self.number)).tesserae)
        self._ask(
            say("Pieces on the film, section {section:.0f}", section=self.number),
            self._lay,
            most=dry.MOST_PIECES_TO_ONE_DRAWN * drawn + 10,
            use_text=say("Counted"),
            follow=self._follow_count,
        )

    def _ask(self, title: str, use: Callable[[float], object], **how: Any) -> None:
        """Have the pad in the picture's place, and no acts meanwhile."""
        self._parts["ask"].ask(title, use, **how)
        self._asking = True
        self.ids.split.put_main(self._parts["ask"])
        self.refresh()

    def recount(self) -> None:
        """Ask again what decides: the pieces, or how many patches they will be set in."""
        if not self.job.state.bench.by_patch:
            self.ask_count()
            return
        title = say("Patches to set section {section:.0f} in", section=self.number)
        self._ask(title, self._cut, most=200, use_text=say("So many"))

    def _cut(self, patches: float) -> None:
        self.desk.attempt(dry.lay, int(self.number), patches=int(patches))

    def ask_hours(self) -> None:
        """Ask how long laying took, so that days can be foretold."""
        self._ask(
            say("Hours it took to cut and lay section {section:.0f}, breaks left out", section=self.number),
            self._hours,
            unit="h",
            decimals=2,
            least=0.05,
            most=dry.MOST_HOURS_LAYING,
            use_text=say("It took so long"),
        )

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
        """Part the section so that each part keeps the promise; where none can, see how the bench is set."""
        if self._hopeless:
            self.desk.go("setup")
        else:
            self._do(dry.split)

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
        self.inking = False
        self.ids.picture.wipe()
        self._do(dry.split_along, points_mm)

    def photograph(self) -> None:
        """Count the pieces in a photo, or look at the one there is."""
        self.desk.go("photograph", section=int(self.number))

    def to_cup(self) -> None:
        self.desk.go("cup", section=int(self.number))

    def to_panel(self) -> None:
        self.desk.go("panel")

    def focus(self) -> None:
        """Show the section as large as it goes; a screen that was turned keeps its true size."""
        if self._view is not None:
            self._view.focus()

    def turn_size(self) -> None:
        """Turn between as large as it goes and its true size, measured first where it never was."""
        self._view.turn_size(fitted=self.fitted)

    def _follow_view(self, _picture: Any, view: Any) -> None:
        self.fitted = self._view.is_fitted(view)
