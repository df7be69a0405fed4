"""Kivy's own looks, of which the screens use two widgets': the others are not read."""

from __future__ import annotations

import os
import sys

from bench.resources import resource

BASE = "base.kv"


def use_base_looks() -> None:
    """Have Kivy read kv/base.kv in place of its style.kv; to be called before anything imports kivy.lang.

    Kivy reads and compiles a thousand lines of looks while it is imported, a tenth of a start. It finds them
    as a resource, which may be replaced, and so is told where; were it to look elsewhere one day, it
    would only read its own again. A second call does nothing.
    """
    if "kivy.lang" in sys.modules:
        return
    from kivy import kivy_data_dir
    from kivy.resources import Cache  # where it is, the place for what was found is registered

    asked_for = os.path.join(kivy_data_dir, "style.kv")  # to the letter as Kivy asks for it
    Cache.append("kv.resourcefind", asked_for, str(resource("kv", BASE)))
