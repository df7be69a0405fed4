"""What is true of this machine and of no panel: the size of its pixels, the keys of a pedal, how it speaks.

Kept in a small file beside the book and not in it, since a book may be carried to another tablet.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from bench.book.faults import NotWritable
from bench.speech import Tongue, language_of

DEVICE_NAME = "device.json"
PEDAL_ACTS = ("contact", "count", "pause", "stringy", "done")
PedalAct = Literal["contact", "count", "pause", "stringy", "done"]


class DeviceSettings(BaseModel):
    """px_per_mm: true size, None before it was measured against a card. keys: which key does what.

    still: nothing moves on the screen, it only changes. language: "" for what the machine itself speaks;
    mark: the decimal mark, "" for that of the language.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    px_per_mm: Annotated[float, Field(ge=0.5, le=200)] | None = None
    keys: dict[PedalAct, str] = Field(default_factory=dict)
    still: bool = False
    language: Literal["", "en", "de"] = ""
    mark: Literal["", ".", ","] = ""
    inches: bool = False
    fahrenheit: bool = False


class Device:
    """Hold the settings of this machine; without a folder they last as long as the program runs."""

    def __init__(self, folder: Path | None = None) -> None:
        self._path = None if folder is None else folder / DEVICE_NAME
        self.settings = self._read()

    def _read(self) -> DeviceSettings:
        """Return what the file says; one that is missing or cannot be read says nothing."""
        with suppress(OSError, ValidationError):
            if self._path is not None:
                return DeviceSettings.model_validate_json(self._path.read_bytes())
        return DeviceSettings()

    def change(self, **update: object) -> None:
        """Set some of it, and keep it: the whole file or the old one. Raises NotWritable, ValueError.

        What was set holds until the program ends even where it cannot be kept.
        """
        self.settings = DeviceSettings.model_validate({**self.settings.model_dump(), **update})
        if self._path is None:
            return
        beside = self._path.with_suffix(".new")
        try:
            beside.write_text(self.settings.model_dump_json(indent=1) + "\n", encoding="utf-8")
            os.replace(beside, self._path)
        except OSError as error:
            raise NotWritable(str(self._path), error.strerror or str(error)) from error

    def tongue(self) -> Tongue:
        """Return how things are said on this machine."""
        now = self.settings
        return Tongue(now.language or language_of(os.environ), now.mark, now.inches, now.fahrenheit)

    def act_of(self, key: str) -> str:
        """Return what a key was set to do, "" for nothing."""
        return next((act for act, name in self.settings.keys.items() if name == key), "")

    def learn_key(self, act: PedalAct, key: str) -> None:
        """Have a key do this; what it did before it does no more."""
        others = {a: k for a, k in self.settings.keys.items() if k != key}
        self.change(keys={**others, act: key})

    def forget_keys(self) -> None:
        """Have no key do anything of its own."""
        self.change(keys={})
