"""What the keys of a keyboard and a pedal do while a mix runs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

ENTER = ("enter", "numpadenter")
AT_ONCE = (*ENTER, "spacebar")


class GlueKeys:
    """Turn keys into what a touch on the glue-up would do; `glue` is the screen."""

    def __init__(self, glue: Any) -> None:
        self._glue = glue

    def on_key(self, name: str) -> bool:
        """Do what a key means, and tell whether it did; a mistake goes first, then the pedal."""
        glue = self._glue
        if glue.sheet is None:
            return False
        if glue.desk.fault_what and name in AT_ONCE:
            glue.desk.clear_fault()
            return True
        if self._on_pedal(name):
            return True
        if glue.view:
            return bool(glue.look_into(glue.view).on_key(name)) or name in ("enter", "spacebar")
        act = self._go_on if name in AT_ONCE else self._by_letter().get(name)
        if act is not None:
            act()
        return act is not None

    def _by_letter(self) -> dict[str, Callable[[], object]]:
        glue = self._glue
        acts: dict[str, Callable[[], object]] = {"p": glue.pause, "s": glue.stringy}
        acts["d"] = lambda: glue.turn("done")
        if glue.can_undo:
            acts["u"] = glue.take_back
        if glue.weighs:
            acts["w"] = lambda: glue.turn("ratio")
        else:
            acts["c"] = glue.turn_area
        if glue.offers_photo:
            acts["v"] = glue.turn_photo
        return acts

    def _on_pedal(self, name: str) -> bool:
        """Do what a key was learned for; a hand that counts or rests was not done after all."""
        glue = self._glue
        acts = {"count": glue.count_few, "pause": glue.pause, "stringy": glue.stringy}
        act = glue.desk.device.act_of(name)
        if act not in acts or glue.view not in ("", "done"):
            return False
        if glue.view:
            glue.turn("")
        acts[act]()
        return True

    def must_be_meant(self, name: str) -> bool:
        """Tell whether a key was learned for what ends the glue-up."""
        return self._glue.sheet is not None and self._glue.desk.device.act_of(name) == "done"

    def on_key_meant(self) -> None:
        """Ask whether it is done; meant once more, all are placed. Other questions are not answered so."""
        if self._glue.view == "":
            self._glue.turn("done")
        elif self._glue.view == "done":
            self._glue.ending.close(0, None)

    def _go_on(self) -> None:
        """Do what comes next in the usual course: the next step, or a quarter of the pieces."""
        glue, sheet = self._glue, self._glue.sheet
        if sheet.step == "set" and sheet.placed < sheet.pieces and not sheet.stringy:
            glue.count_quarter()
        elif glue.next_step:
            glue.begin(glue.next_step)
        else:
            glue.turn("done")
