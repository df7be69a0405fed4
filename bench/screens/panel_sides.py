"""What stands beside Panel's picture: the next act, or what takes its place until it is closed.

All but the next act is made, and what is needed for it imported, when it is first shown.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from bench.job.advice import Advice
from bench.screens.drawing_words import report_lines, unparted
from bench.screens.load import load
from bench.screens.panel_parts import (
    NextPart,  # noqa: F401 - the kv file names it
    SectionPart,
    WholeKeys,
)
from bench.screens.parts.reading import Reading
from bench.screens.screen import Screen
from bench.speech import say

if TYPE_CHECKING:
    from bench.screens.section_words import SectionFacts

GO_TO = {"watch": "glueup", "mix": "cup", "set": "cup", "lay": "dry", "finish": "finish"}
ICONS = {"watch": "glue", "mix": "cup", "set": "cup", "lay": "lay", "finish": "grout"}
LOW_DP = 700


class PanelSides(Screen):
    """Base of Panel: hold the parts that may stand beside the picture, and fill the one that does.

    What they ask for, `choose`, `shape_it` and so on, is done by Panel itself.
    """

    beside = OptionProperty("next", options=("next", "section", "report", "hand", "days", "away"))
    outlook = StringProperty("")
    whole = BooleanProperty(False)  # the picture has the whole screen, but for the keys that look closer

    def __init__(self, **kwargs: Any) -> None:
        self._advice: Advice | None = None
        self._tapped = 0
        super().__init__(**kwargs)
        self._parts: dict[str, Any] = {"next": self.ids.next.__self__}
        self._keys = self.ids.zoom.__self__  # Kivy's ids alone would let go of what is off the screen

    def on_size(self, *_: object) -> None:
        if self._advice is not None:
            self._fill()

    def on_whole(self, *_: object) -> None:
        """Give the picture the whole screen, or what it had before."""
        if self.whole:
            self.ids.looking.remove_widget(self._keys)
        else:
            self.ids.looking.add_widget(self._keys)
        self._fill()

    def _part(self, name: str) -> Any:
        """Return what may stand beside the picture."""
        if name not in self._parts:
            self._parts[name] = getattr(self, f"_new_{name}", self._new_reading)()
        return self._parts[name]

    def _new_section(self) -> SectionPart:
        part = SectionPart()
        part.bind(
            on_choose=lambda *_: self.choose(),
            on_try=lambda _part, stage: self.try_cure(stage),
            on_chip=lambda *_: self.chip_out(),
            on_shape=lambda *_: self.shape_it(),
            on_close=lambda *_: self.close(),
        )
        return part

    def _new_whole(self) -> WholeKeys:
        part = WholeKeys(picture=self.ids.picture)
        part.bind(on_close=lambda *_: self.step_back())
        return part

    def _new_hand(self) -> Any:
        from bench.screens.handwork import HandPart

        load()  # its looks may not be there yet
        part = HandPart()
        part.bind(
            on_way_turned=lambda *_: self.follow_hand(),
            on_tried=lambda *_: self.follow_hand(),
            on_keep=lambda *_: self.keep_shaped(),
            on_close=lambda *_: self.close(),
        )
        return part

    def _new_reading(self) -> Reading:
        part = Reading()
        part.bind(on_close=lambda *_: self.close())
        return part

    def _fill(self) -> None:
        """Put what belongs there beside the picture."""
        part = self._fill_whole() if self.whole else getattr(self, f"_fill_{self.beside}")()
        self.ids.split.put_side(part)

    def _fill_whole(self) -> Any:
        part = self._part("whole")
        part.wide = self.width >= self.height
        return part

    def _fill_next(self) -> Any:
        part, advice = self._parts["next"], self._advice
        assert advice is not None
        part.headline, part.icon = unparted(advice.headline), ICONS.get(advice.act, "")
        part.low = self.width >= self.height and self.height < LOW_DP * dp(1)
        part.waits = advice.act not in GO_TO
        part.why = advice.why.replace(" g ", "\u00a0g ")  # grams are never parted from their number
        part.has_report = bool(report_lines(self.job))
        return part

    def _fill_section(self) -> Any:
        part = self._part("section")
        part.show(self._facts())
        return part

    def _facts(self) -> SectionFacts:
        from bench.screens.section_words import section_facts

        return section_facts(self.job, self._tapped)

    def _fill_report(self) -> Any:
        return self._to_read("report", say("The drawing"), report_lines(self.job))

    def _fill_days(self) -> Any:
        from bench.screens.section_words import day_lines

        return self._to_read("days", say("Foreseen"), day_lines(self.job))

    def _fill_away(self) -> Any:
        from bench.job.away import away_lines  # its words come with it

        if lines := away_lines(self.job):
            return self._to_read("away", say("Welcome back"), lines)
        self.beside = "next"  # something was done meanwhile
        return self._fill_next()

    def _to_read(self, name: str, head: str, lines: tuple[str, ...]) -> Any:
        part = self._part(name)
        part.head, part.lines = head, lines
        return part

    def _fill_hand(self) -> Any:
        return self._part("hand")

    def _forecast(self, *_: object) -> None:
        """Foretell in one line what remains."""
        from bench.screens.section_words import outlook

        self.outlook = say("Dividing anew …") if self.desk.dividing else outlook(self.job)
