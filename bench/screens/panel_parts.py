"""What stands beside the panel's picture: the next act, a section's card, or the report on the drawing."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty

from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.section_words import SectionFacts
from bench.screens.theme import theme
from bench.screens.widgets import Rows, Words


class NextPart(Rows):
    """The one big act, the sentence that says why, and what remains."""

    headline = StringProperty("")
    why = StringProperty("")
    waits = BooleanProperty(False)
    outlook = StringProperty("")
    report = BooleanProperty(False)
    __events__ = ("on_next", "on_report", "on_elsewhere")

    def on_next(self) -> None:
        """Bound by the screen."""

    def on_report(self) -> None:
        """Bound by the screen."""

    def on_elsewhere(self) -> None:
        """Bound by the screen."""

    def on_kv_post(self, _base: Any) -> None:
        self._key = self.ids.report.__self__
        self.bind(report=self._offer)
        self._offer()

    def _offer(self, *_: object) -> None:
        key = self._key
        if key.parent is not None and not self.report:
            self.remove_widget(key)
        elif key.parent is None and self.report:
            self.add_widget(key, index=2)


class SectionPart(Rows):
    """The card of the section that was tapped."""

    head = StringProperty("")
    lines = StringProperty("")
    __events__ = ("on_choose", "on_try", "on_chip", "on_close")

    def on_kv_post(self, _base: Any) -> None:
        self._acts = {name: self.ids[name].__self__ for name in ("choose", "tries", "chip", "last")}

    def show(self, facts: SectionFacts) -> None:
        """Show a section's facts and the acts it allows."""
        self.head, self.lines = facts.head, "\n".join(facts.lines)
        self._acts["choose"].text = facts.act.replace("section ", "section\u00a0")
        shown = {"choose": bool(facts.act), "tries": facts.may_try, "last": True}
        self.ids.acts.clear_widgets()
        for name, is_shown in shown.items():
            if is_shown:
                self.ids.acts.add_widget(self._acts[name])
        chip, last = self._acts["chip"], self._acts["last"]
        if facts.may_chip and chip.parent is None:
            last.add_widget(chip, index=1)
        elif not facts.may_chip and chip.parent is not None:
            last.remove_widget(chip)

    def on_choose(self) -> None:
        """Bound by the screen."""

    def on_try(self, stage: str) -> None:
        """Bound by the screen."""

    def on_chip(self) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""


class ReportPart(Rows):
    """What the drawing holds beside its tesserae, and what looks odd; by pages."""

    lines = ListProperty()
    page = NumericProperty(0)
    __events__ = ("on_close",)

    def on_kv_post(self, _base: Any) -> None:
        self.bind(lines=self._lay, page=self._lay, size=self._lay)

    def on_close(self) -> None:
        """Bound by the screen."""

    def turn(self) -> None:
        """Turn to the next page, after the last to the first."""
        self.page += 1

    def _lay(self, *_: object) -> None:
        width_px = int(self.width - 2 * theme.pad)
        cut = [part for line in self.lines for part in _cut(line)]
        heights = [text_height_px(part, width_px, int(theme.text)) for part in cut]
        room_px = max(self.ids.card.height - 2 * theme.pad - theme.gap - 1.4 * theme.head, 4 * theme.text)
        pages = pages_of(heights, room_px, theme.gap)
        texts = self.ids.texts
        texts.clear_widgets()
        for k in pages[int(self.page) % len(pages)]:
            texts.add_widget(Words(text=cut[k]))
        self.ids.more.text = f"More ({int(self.page) % len(pages) + 1} of {len(pages)})"
        self.ids.more.disabled = len(pages) == 1


def _cut(line: str, most: int = 160) -> list[str]:
    """Cut a long line between words, so that each part fits a page."""
    parts, part = [], ""
    for word in line.split():
        if part and len(part) + 1 + len(word) > most:
            parts.append(part)
            part = word[:most]
        else:
            part = f"{part} {word}".strip()[: 2 * most]
    return [*parts, part]
