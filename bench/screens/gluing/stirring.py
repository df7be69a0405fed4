"""The stirring: its own countdown beside first contact's, and the reminder of sides and bottom."""

from __future__ import annotations

from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.job.glue_sheet import GlueSheet
from bench.screens.gluing.words import scrape_words
from bench.screens.parts.fitting import fitted_px, steady_px
from bench.screens.parts.numbers import minutes_text
from bench.screens.parts.plates import Plate
from bench.screens.theme import theme

WORDS_SHARE = 0.55  # of the plate's height
SCRAPE_SHARE = 0.5  # of the stirring: what clings to the cup is scraped in with time left to mix it


class GlueStir(Plate):
    """What is left of the stirring, large; when it is time to scrape the cup the plate turns ink and says so.

    stir_s: the whole of it.
    """

    left_text = StringProperty("")
    scrape = BooleanProperty(False)
    type_px = NumericProperty(44)
    time_px = NumericProperty(0)  # of the time left, beside which it stands

    def on_size(self, *_: object) -> None:
        """Leave the time about half of the height."""
        room_px = WORDS_SHARE * (self.height - theme.gap)
        width_px = self.width - 2 * theme.pad
        most_px = steady_px(scrape_words(), theme.head, width_px)  # larger words would make the time smaller
        self.type_px = fitted_px(scrape_words(), most_px, width_px, room_px)

    def follow(self, left_s: float, stir_s: float) -> None:
        """Follow the clock."""
        self.left_text = minutes_text(left_s)
        self.scrape = left_s <= SCRAPE_SHARE * stir_s


class StirCall:
    """Tell once of each stirring that it is time to scrape, and once that it is over.

    A stirring that is past when it is first seen, e.g. after the app was opened again, tells nothing; nor
    does one that the maker said was over.
    """

    def __init__(self) -> None:
        self._left_s: dict[int, float] = {}
        self._half_s: dict[int, float] = {}

    def forget(self) -> None:
        """Another panel: its mixes only share their numbers with those before."""
        self._left_s.clear()
        self._half_s.clear()

    def hear(self, sheet: GlueSheet) -> str:
        """Return the sound that is due now, '' for none."""
        before_s, left_s = self._left_s.get(sheet.mix, 0.0), sheet.stir_left_s
        self._left_s[sheet.mix] = left_s
        if left_s > before_s:  # begun, or begun anew
            self._half_s[sheet.mix] = SCRAPE_SHARE * left_s
            return ""
        half_s = self._half_s.get(sheet.mix, 0.0)
        if left_s == 0 < before_s:
            return "" if sheet.step_told else "stirred"
        return "scrape" if left_s <= half_s < before_s else ""
