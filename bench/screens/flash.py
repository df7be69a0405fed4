"""The whole window flashes: seen where a sound is not heard, and whichever screen is shown.

At most two flashes a second; three would be the limit of WCAG 2.2, success criterion 2.3.1. Where motion
is not wanted (`theme.still`), one steady veil takes their place. A veil is light enough to read through
and keeps no touch from what lies beneath.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.graphics import Color, InstructionGroup, Rectangle

from bench.screens.theme import theme

FLASH_S = 0.25
VEIL = 0.6


class _Veil:
    """The veil over the window, and the turns it still has to take."""

    group: Any = None
    turns = 0
    event: Any = None


_veil = _Veil()


def flash(times: int) -> None:
    """Flash so many times, from now on; a flash that still goes on is taken over."""
    if _veil.event is not None:
        _veil.event.cancel()
    _draw(False)
    _veil.turns = 2 * times
    if theme.still:
        _draw(True)
        _veil.turns = 0
        _veil.event = Clock.schedule_once(lambda _dt: _draw(False), 2 * FLASH_S * times)
        return
    _turn(0.0)
    _veil.event = Clock.schedule_interval(_turn, FLASH_S)


def end() -> None:
    """Take the veil off at once and for good: the app closes, or its screens have gone."""
    if _veil.event is not None:
        _veil.event.cancel()
        _veil.event = None
    _veil.turns = 0
    _draw(False)


def is_flashing() -> bool:
    """Tell whether the veil is on at this moment."""
    return _veil.group is not None


def _turn(_dt_s: float) -> bool:
    if _veil.turns == 0:
        _draw(False)
        return False  # Kivy: no further turns
    _veil.turns -= 1
    _draw(_veil.turns % 2 == 1)
    return True


def _draw(on: bool) -> None:
    if _veil.group is not None:
        Window.canvas.remove(_veil.group)
        _veil.group = None
    if on:
        _veil.group = InstructionGroup()
        _veil.group.add(Color(*theme.ink[:3], VEIL))
        _veil.group.add(Rectangle(pos=(0, 0), size=Window.size))
        Window.canvas.add(_veil.group)
