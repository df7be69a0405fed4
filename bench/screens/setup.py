"""Setup: how this panel is worked, one thing at a time; each change is an act that can be taken back.

What is set of the tablet, whichever panel is open, has a screen of its own (`tablet`) that derives from this.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.job.acts import opening
from bench.job.own_adhesives import label_of
from bench.job.settings import PHOTOS
from bench.job.stock import stock_of
from bench.screens.adhesive_choices import adhesive_note, adhesives
from bench.screens.parts.paged import Offer, PagedEnds  # noqa: F401 - the kv file names the second
from bench.screens.screen import Screen
from bench.screens.setting import Setting, said_of
from bench.screens.setup_choices import OF_BOOK, bench_settings, value_of
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.widgets import Choice
from bench.speech import said, say, say_n

DECIMALS = 4  # of what was typed in another unit: more would be shown as if it had been measured
ROW_TEXT = 1.25  # of its two sizes of type, what a row of two lines is high


class SetupScreen(Screen):
    """Show all settings; a tap shows the choices, or the pad. Where one page does not hold them, More turns.

    What is set, `settings`, and what else is a tap away, `places`, is a matter of each such screen.
    """

    page = NumericProperty(0)
    note = StringProperty("")
    choosing = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._rows: dict[str, Choice] = {}
        super().__init__(**kwargs)
        self._listing, self._options = self.ids.settings.__self__, self.ids.options.__self__
        self._parts = self.hold("choices", "ask")
        self._note, *self._below_note = reversed(self._parts["choices"].children)
        self._settings, self._places = self.settings(), self.places()
        for setting in self._settings:
            self._add(setting.key, setting.name, f"set_{setting.key}", partial(self._choose, setting))
        for name, test_name, screen in self._places:
            self._add(screen, name, test_name, partial(self.desk.go, screen))
            self._rows[screen].terse = True  # it may say less, and is never cut
        self._more = Choice(text=say("More"), size_hint_y=1, test_name="more_settings")
        self._more.bind(on_act=lambda _row: self.turn())
        self._listing.bind(size=self._lay)
        theme.bind(text=self._lay)

    def settings(self) -> tuple[Setting, ...]:
        """Return what is set here, in the language spoken."""
        return bench_settings()

    def places(self) -> tuple[tuple[str, str, str], ...]:
        """Return what else is a tap away, as (name, test_name, screen)."""
        return (say("Stock"), "to_stock", "stock"), (say("This tablet"), "to_tablet", "tablet")

    def value(self, key: str) -> Any:
        """Return what is set now."""
        return value_of(self.job, key)

    def _add(self, key: str, name: str, test_name: str, act: Callable[[], object]) -> None:
        row = self._rows[key] = Choice(text=name, size_hint_y=1, test_name=test_name)
        row.bind(on_act=lambda _row: act())

    def arrive(self) -> None:
        self.page = 0
        self._lay()
        self.back()

    def refresh(self) -> None:
        for setting in self._asked():
            self._rows[setting.key].says = self._said(setting)
        for key, says in self.lies_there().items():
            self._rows[key].says = says
        self._lay()

    def _said(self, setting: Setting) -> str:
        value = self.value(setting.key)
        return said(self.job.product(value).name) if setting.key == "adhesive" else said_of(setting, value)

    def _asked(self) -> list[Setting]:
        """Return the settings that make sense as the panel is worked now."""
        return [s for s in self._settings if s.when(self.job.state.bench)]

    def lies_there(self) -> dict[str, str]:
        """Say of each place what lies there."""
        bottles = sum(not b.emptied for b in stock_of(self.job.store).bottles.values())
        used = say_n("{count} bottle in use", "{count} bottles in use", bottles)
        return {"stock": used, "tablet": say("Language, look, text, keys")}

    def turn(self) -> None:
        """Turn to the next page, after the last to the first."""
        self.page += 1
        self._lay()

    def _lay(self, *_: object) -> None:
        """Have as many rows as a glove can hit; the last one turns the page where that is not all."""
        grid = self._listing
        asked = {*(s.key for s in self._asked()), *(screen for _, _, screen in self._places)}
        rows = [row for key, row in self._rows.items() if key in asked]
        grid.cols = 3 if self.width >= self.height else 2
        row_px = max(theme.target, ROW_TEXT * (theme.text + theme.small) + theme.gap)
        high = max(1, int((grid.height + theme.gap) // (row_px + theme.gap)))
        most = grid.cols * high
        shown = rows
        if len(rows) > most:
            each = max(1, most - 1)
            pages = [rows[k : k + each] for k in range(0, len(rows), each)]
            self.page = int(self.page) % len(pages)
            self._more.says = say("{page:.0f} of {pages}", page=self.page + 1, pages=len(pages))
            shown = [*pages[int(self.page)], self._more]
        stack(grid, shown)

    def back(self) -> None:
        """Show all settings again."""
        self.choosing = ""
        self._put(self._listing)

    def step_back(self) -> bool:
        chooses = self._listing.parent is None
        self.back()
        return chooses

    def _put(self, part: Any) -> None:
        place = self.ids.place
        if place.children != [part]:
            place.clear_widgets()
            place.add_widget(part)

    # -- choosing ----------------------------------------------------------------------------------------

    def _choose(self, setting: Setting) -> None:
        if setting.key == "adhesive":
            self._choose_adhesive(setting)
            return
        if not setting.options:
            self._ask(setting)
            return
        now = self.value(setting.key)
        offers = [
            Offer(o.text, o.says, f"choose_{k}", partial(self._set, setting, o.value), o.value == now)
            for k, o in enumerate(setting.options)
        ]
        if setting.number is not None:
            said = self._said(setting)
            offers.append(Offer(say("Type it"), said, "choose_number", partial(self._ask, setting)))
        self._offer(setting, offers)

    def _choose_adhesive(self, setting: Setting) -> None:
        """Offer the shipped types, the maker's own files, what lies elsewhere, and to read out a label."""
        now = self.value(setting.key)
        begun = label_of(self.job.store).get("name")
        says = say("Go on with {name}", name=begun) if begun else say("A new one, or a copy")
        offers = [
            Offer(o.text, o.says, f"choose_{k}", partial(self._set, setting, o.value), o.value == now)
            for k, o in enumerate(adhesives(self.job))
        ]
        offers.insert(0, Offer(say("Read out a label"), says, "choose_label", lambda: self.desk.go("label")))
        self._offer(setting, offers, adhesive_note(self.job))

    def _offer(self, setting: Setting, offers: list[Offer], note: str = "") -> None:
        """Show choices under the setting's name, and above them what there is to know of it."""
        self.choosing, self.note = setting.name, note
        part = self._parts["choices"]
        stack(part, [*([self._note] if note else []), *self._below_note])
        self._options.offer(offers)
        self._put(part)

    def _ask(self, setting: Setting) -> None:
        number = setting.number
        assert number is not None
        least, most = number.bounds
        self._parts["ask"].ask(
            number.title,
            lambda value: self._set(setting, round(number.typed(value), DECIMALS)),
            unit=number.unit,
            decimals=number.decimals,
            least=least,
            most=most,
        )
        self._put(self._parts["ask"])

    def _set(self, setting: Setting, value: Any) -> None:
        """Set one thing; where sections depend on it, the bare ground is divided anew."""
        self.back()
        if setting.key in OF_BOOK:
            self.desk.keep_setting(PHOTOS, value)
            self.refresh()
        elif value != self.value(setting.key):
            bench = self.job.state.bench.model_copy(update={setting.key: value})
            self.soon(say("Dividing anew …"), lambda: self.desk.attempt(opening.set_bench, bench))
