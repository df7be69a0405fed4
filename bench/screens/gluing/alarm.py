"""Watch every running mix, whichever screen is shown: sound and flash at half, last pieces, and stop.

And in between for the stirring: when to scrape, and when it is over.
"""

from __future__ import annotations

from typing import Any

from bench.fault import Fault
from bench.job.glue_sheet import GlueSheet, Mood, glue_sheet
from bench.screens import sounds
from bench.screens.flash import flash
from bench.screens.gluing.stirring import StirCall

ORDER: tuple[Mood, ...] = ("working", "half", "last pieces", "stop")
FLASHES = {"half": 1, "last pieces": 2, "stop": 4}


def alarm_of(desk: Any) -> Alarm:
    """Return the one alarm of a desk; however often the screens are made again, it rings once."""
    if not hasattr(desk, "alarm"):
        desk.alarm = Alarm(desk)
    return desk.alarm  # type: ignore[no-any-return]


class Alarm:
    """Keep the newest sheet of each running mix, and tell when its time turns.

    A mix seen for the first time, e.g. after the app was opened again, tells nothing but 'stop'. 'Stringy'
    tells too: it may have been a sleeve that said so, and then the hands have to hear of it.
    """

    def __init__(self, desk: Any) -> None:
        self.desk = desk
        self.sheets: dict[int, GlueSheet] = {}
        self.rung: list[tuple[int, Mood]] = []
        self._moods: dict[int, Mood] = {}
        self._stirring = StirCall()
        self._looked: tuple[object, ...] = ()
        desk.bind(now_s=self._follow, version=self._follow)

    def look(self) -> dict[int, GlueSheet]:
        """Return the sheets as of this tick; the work is done once a tick, and once after an act."""
        at = (self.desk.job, self.desk.now_s, self.desk.version)
        if at != self._looked:
            if self._looked and self._looked[0] is not self.desk.job:
                self._moods = {}  # another panel: its mixes only share their numbers with those before
                self._stirring.forget()
            self._looked = at
            self._read()
        return self.sheets

    def _follow(self, *_: object) -> None:
        self.look()

    def _read(self) -> None:
        running = [m.number for m in self.desk.job.state.running_mixes]
        try:
            self.sheets = {number: glue_sheet(self.desk.job, number) for number in running}
        except Fault as fault:
            self.desk.tell(fault)
            return
        for sheet in self.sheets.values():
            self._hear(sheet)
        self._moods = {number: sheet.mood for number, sheet in self.sheets.items()}

    def _hear(self, sheet: GlueSheet) -> None:
        before = self._moods.get(sheet.mix)
        is_later = sheet.mood == "stop" if before is None else ORDER.index(sheet.mood) > ORDER.index(before)
        if is_later:
            self.rung.append((sheet.mix, sheet.mood))
            sounds.play(sheet.mood)
            flash(FLASHES[sheet.mood])
            return
        call = self._stirring.hear(sheet)
        if call:
            sounds.play(call)
            flash(1)
