"""Setup: how this panel is worked, one thing at a time; each change is an act that can be taken back."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from bench.job.acts import opening
from bench.job.own_adhesives import label_of
from bench.job.settings import LOOK, PHOTOS, TEXT_SCALE
from bench.job.stock import stock_of
from bench.screens.parts.paged import Offer
from bench.screens.screen import Screen
from bench.screens.setup_choices import (
    OF_BOOK,
    OF_THEME,
    SETTINGS,
    Option,
    Setting,
    adhesive_note,
    options_of,
    said_now,
    value_of,
)
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.widgets import Choice

KEPT_AS = {"look": LOOK, "text_scale": TEXT_SCALE}


class SetupScreen(Screen):
    """Show all settings; a tap shows the choices, or the pad."""

    note = StringProperty("")
    choosing = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._rows: dict[str, Choice] = {}
        super().__init__(**kwargs)
        self._listing = self.ids.settings.__self__
        self._parts = self.hold("choices", "adhesives", "ask")
        self._note, *self._below_note = reversed(self._parts["adhesives"].children)
        for setting in SETTINGS:
            row = Choice(text=setting.name, size_hint_y=1, test_name=f"set_{setting.key}")
            row.bind(on_act=lambda _row, setting=setting: self._choose(setting))
            self._rows[setting.key] = row
            self._listing.add_widget(row)
        self._stock = Choice(text="Stock", size_hint_y=1, test_name="to_stock")
        self._stock.bind(on_act=lambda _row: self.desk.go("stock"))
        self._listing.add_widget(self._stock)

    def arrive(self) -> None:
        self.back()

    def refresh(self) -> None:
        for setting in SETTINGS:
            self._rows[setting.key].says = said_now(self.job, setting)
        bottles = sum(not b.emptied for b in stock_of(self.job.store).bottles.values())
        self._stock.says = f"{bottles} bottle{'' if bottles == 1 else 's'} in use"

    def on_size(self, _screen: object, size: tuple[float, float]) -> None:
        if self.ids:
            self.ids.settings.cols = 3 if size[0] >= size[1] else 2

    def back(self) -> None:
        """Show all settings again."""
        self._put(self._listing)

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
        options = options_of(self.job, setting)
        if not options:
            self._ask(setting)
            return
        self.choosing = setting.name
        grid = self.ids.options
        grid.clear_widgets()
        now = value_of(self.job, setting)
        for k, option in enumerate(options):
            grid.add_widget(self._row(setting, option, f"choose_{k}", chosen=option.value == now))
        if setting.number is not None:
            typed = Choice(text="Type it", says=said_now(self.job, setting), test_name="choose_number")
            typed.bind(on_act=lambda _row: self._ask(setting))
            grid.add_widget(typed)
        self._put(self._parts["choices"])

    def _choose_adhesive(self, setting: Setting) -> None:
        """Offer the shipped types, the maker's own files, what lies elsewhere, and to read out a label."""
        now = value_of(self.job, setting)
        begun = label_of(self.job.store).get("name")
        says = f"Go on with {begun}" if begun else "A new one, or a copy to change"
        offers = [
            Offer(o.text, o.says, f"choose_{k}", lambda v=o.value: self._set(setting, v), o.value == now)
            for k, o in enumerate(options_of(self.job, setting))
        ]
        offers.insert(0, Offer("Read out a label", says, "choose_label", lambda: self.desk.go("label")))
        self.note = adhesive_note(self.job)
        part = self._parts["adhesives"]
        stack(part, [*([self._note] if self.note else []), *self._below_note])
        self.ids.adhesive_offers.offer(offers)
        self._put(self._parts["adhesives"])

    def _row(self, setting: Setting, option: Option, name: str, *, chosen: bool) -> Choice:
        row = Choice(text=option.text, says=option.says, chosen=chosen, lines=2, test_name=name)
        row.bind(on_act=lambda _row: self._set(setting, option.value))
        return row

    def _ask(self, setting: Setting) -> None:
        number = setting.number
        assert number is not None
        self._parts["ask"].ask(
            number.title,
            lambda value: self._set(setting, value),
            unit=number.unit,
            decimals=2,
            least=number.least,
            most=number.most,
        )
        self._put(self._parts["ask"])

    def _set(self, setting: Setting, value: Any) -> None:
        """Set one thing; where sections depend on it, the bare ground is divided anew."""
        self.back()
        if setting.key in OF_THEME:
            setattr(theme, setting.key, value)
            self.job.store.set_setting(KEPT_AS[setting.key], str(value))
            self.refresh()
        elif setting.key in OF_BOOK:
            self.job.store.set_setting(PHOTOS, value)
            self.refresh()
        elif value != value_of(self.job, setting):
            bench = self.job.state.bench.model_copy(update={setting.key: value})
            self.soon("Dividing anew …", lambda: self.desk.attempt(opening.set_bench, bench))
