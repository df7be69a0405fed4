"""Glue-up: time left from across the room, what the hands do now, and nothing that need be touched.

The time and the chart follow the clock twice a second; all else follows the book. What is asked stands
beside the time left, never over it. Ending takes two touches in two places.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty

from bench.job.acts import glueup, record
from bench.job.acts.glueup import STEPS
from bench.job.glue_sheet import GlueSheet
from bench.job.sizing import ROUTINE
from bench.screens.fault_card import FaultCard
from bench.screens.gluing.alarm import alarm_of
from bench.screens.gluing.area import CountArea
from bench.screens.gluing.beside import Beside
from bench.screens.gluing.chart import PaceChart  # noqa: F401 - named by the kv file
from bench.screens.gluing.ending import Ending
from bench.screens.gluing.keyboard import GlueKeys
from bench.screens.gluing.lay_photo import LayPhoto
from bench.screens.gluing.pacing import Pacing
from bench.screens.gluing.stirring import GlueStir
from bench.screens.gluing.twins import Twins
from bench.screens.gluing.view import GlueView
from bench.screens.gluing.views import VIEWS
from bench.screens.gluing.work import GlueTime, GlueWork, next_quarter
from bench.screens.keys import Keyed
from bench.screens.practice_plate import practice_plate
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

LOW_DP = 640
LOW_CHART = 4.0  # lines of text in height, below which a chart tells nothing


class GlueUpScreen(Keyed, Screen):
    """Follow one running mix; `view` is what is asked beside it, '' for the work itself."""

    view = StringProperty("")
    share = NumericProperty(1.0)
    marks = ListProperty()
    time_px = NumericProperty(0)  # of the time left: no other number is larger
    wide = NumericProperty(1)

    def __init__(self, **kwargs: Any) -> None:
        self.sheet: GlueSheet = None  # type: ignore[assignment] - a mix runs whenever it is read
        self._views: dict[str, GlueView] = {}
        self.ending = Ending(self)
        self._beside = Beside()
        self._pacing = Pacing()
        self._seen_job: Any = None
        self._keys = GlueKeys(self)
        super().__init__(**kwargs)
        parts = self.hold("chart", "chart_plate", "top", "nothing", "content", "rim")
        self._chart, self._chart_plate, self._top, self._nothing, self._content, self._rim = parts.values()
        self._rim.add_widget(self._content)
        self._chart_plate.add_widget(self._chart)
        self.alarm = alarm_of(self.desk)
        self._time, self._work = GlueTime(), GlueWork(glue=self)
        self._stir, self._stirring = GlueStir(), False
        self._time.bind(time_px=self.setter("time_px"))
        self.bind(time_px=self._stir.setter("time_px"))
        self._area = CountArea()
        self._area.bind(on_count=lambda _area, pieces: self.count_more(pieces))
        self._twins = Twins()
        self._twins.bind(on_choose=lambda _twins, mix: self.look_at(mix))
        self._photo = LayPhoto()
        self._photo.bind(ready=self._lay_out, chosen=self._lay_out)
        self._practice = practice_plate(self)
        self._fault = FaultCard(desk=self.desk)
        self.bind(size=lambda *_: self._lay_out())
        self._top.bind(height=Clock.create_trigger(self._lay_out))
        self.desk.bind(fault_what=self._lay_out)

    @property
    def weighs(self) -> bool:
        """Whether hardener is still to be weighed, so that nothing is counted yet."""
        return bool(self._work.weighs)

    @property
    def offers_photo(self) -> bool:
        """Whether the photo of the lay may stand in the chart's place."""
        return bool(self._photo.ready) and not self._stirring

    @property
    def can_undo(self) -> bool:
        """Whether anything was told of this mix that can be taken back."""
        return bool(self.job.mix(self.sheet.mix).told_acts)

    @property
    def tells_faults(self) -> bool:
        """While a mix runs: a card above would push the time together."""
        return bool(self.bare)

    # -- following ---------------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.view = ""

    def refresh(self) -> None:
        sheets = self.alarm.look()
        if self._seen_job is not self.job:
            self._seen_job = self.job
            self._pacing.forget()
            self._twins.forget()
            self._views.clear()
            self._photo.forget()
            self._beside.forget()
        if not sheets:
            self.sheet, self.view = None, ""  # type: ignore[assignment]
            self.bare, self.title = False, say("Glue-up")
            self._put(self._nothing)
            return
        if self.desk.mix not in sheets:
            self.desk.mix = min(sheets, key=lambda number: sheets[number].left_s)
            self.view = ""
        self.bare = True
        self._put(self._rim)
        self.tick()
        self._lay_out()

    def tick(self) -> None:
        sheet = self.alarm.look().get(self.desk.mix)
        if sheet is None:
            return
        self.sheet = sheet
        self._time.show(sheet)
        self.share = sheet.left_s / sheet.total_s if sheet.total_s else 0.0
        self._work.show(sheet, can_undo=self.can_undo, next_step=self.next_step)
        self.marks = self._pacing.follow(self._chart, self.job, sheet)
        self._photo.follow(self.job, sheet.section)
        self._follow_wish()
        self._follow_stirring(sheet)
        self._area.follow(self.job, sheet)
        self._twins.follow(self.alarm.sheets, sheet.mix)

    def _follow_stirring(self, sheet: GlueSheet) -> None:
        """Have the stirring's own countdown in place of the chart, as long as it lasts."""
        self._stir.follow(sheet.stir_left_s, ROUTINE.stir_s)
        if self._stirring != (sheet.stir_left_s > 0):
            self._stirring = sheet.stir_left_s > 0
            self._lay_out()

    def _follow_wish(self) -> None:
        """Have beside the time what was asked for of this mix, whatever was asked for of another."""
        area, photo = self._beside.of(self.sheet.mix)
        if (self._work.area, self._photo.chosen) != (area, photo):
            self._work.area, self._photo.chosen = area, photo
            self._lay_out()

    def _put(self, body: Any) -> None:
        """Have a body on the screen, below the plate of practice where there is one."""
        stack(self, [body] if self._practice is None else [self._practice, body])

    # -- what lies where --------------------------------------------------------------------------------

    def turn(self, view: str, *, ago_s: float = 0.0) -> None:
        """Ask something beside the time left, '' to go back to the work; it was done so long ago."""
        if view == "done":
            self.ending.begin(ago_s=ago_s, coming_from=self.view)
        self.view = view
        if view:
            self._open_view().ask()
        self._lay_out()

    def _lay_out(self, *_: object) -> None:
        self.wide = int(self.width >= self.height)
        if self.sheet is None:
            return
        self._work.wide = self.wide
        self._work.low = bool(self.wide) and self.height < LOW_DP * dp(1)
        if self._twins.show(self.job, self.alarm.sheets):
            self.tick()
        self._work.offer_photo(self.offers_photo, self._photo.chosen)
        twins = [self._twins] if self._twins.children else []
        flat = bool(twins) and self._work.low and self._aside() is self._chart_plate  # no room for the chart
        self._twins.lie(wide=bool(self.wide), low=flat)
        asked = self._fault if self.desk.fault_what else self._open_view() if self.view else None
        if asked is not None:
            beside = [asked]
            self._time.size_hint = (0.36 if self._work.low else 0.6, 1) if self.wide else (1, 0.4)
        else:
            aside = self._aside()
            beside = [aside, *(twins if self.wide else [])]
            lines_low = self.wide and self._top.height < LOW_CHART * theme.text
            if flat or (aside is self._chart_plate and lines_low):
                beside.remove(aside)  # lines that nobody could read
            time = (1.4, 1.2)
            if aside is self._photo:
                time = (1.0 if self._photo.broad else 1.4, 0.8)
            self._time.size_hint = (time[0], 1) if self.wide else (1, time[1])
        above = [] if self.wide or asked else twins
        stack(self._top, [*above, self._time, *beside])
        stack(self._content, [self._top] if asked else [self._top, self._work])
        if self._practice is not None:
            self._practice.about = "done" if self.view else self.sheet.step

    def _aside(self) -> Any:
        """Return what stands beside the time: the stirring, the count area, the photo or the chart."""
        if self._stirring:
            return self._stir
        if self._work.area and not self._work.weighs:
            return self._area
        return self._photo if self._photo.stands else self._chart_plate

    def turn_area(self) -> None:
        """Have the count area in the chart's place, or the chart again."""
        self._beside.turn_area(self.sheet.mix)
        self._follow_wish()

    def _open_view(self) -> GlueView:
        return self.look_into(self.view)

    def look_into(self, view: str) -> Any:
        """Return a view, made on first use."""
        if view not in self._views:
            self._views[view] = VIEWS[view](glue=self)
        return self._views[view]

    def turn_photo(self) -> None:
        """Show the chart in place of the photo, or the photo again."""
        self._beside.turn_photo(self.sheet.mix)
        self._follow_wish()

    def look_at(self, mix: int) -> None:
        """Turn to another running mix."""
        self.desk.go("glueup", mix=mix)
        self.view = ""
        self.refresh()

    # -- telling ----------------------------------------------------------------------------------------

    @property
    def next_step(self) -> str:
        """Return the step that comes after the present one, '' after the last."""
        place = STEPS.index(self.sheet.step) + 1
        return STEPS[place] if place < len(STEPS) else ""

    def begin(self, step: str) -> None:
        """Say that a step begins now; one that is past says nothing."""
        told = self.job.mix(self.sheet.mix).steps_s
        if step not in told and all(STEPS.index(s) < STEPS.index(step) for s in told):  # type: ignore[arg-type]
            self.desk.attempt(glueup.begin_step, self.sheet.mix, step)

    def count_more(self, pieces: float) -> None:
        """Say that so many more are down, up to all of them."""
        placed = min(self.sheet.pieces, self.sheet.placed + int(pieces))
        self.desk.attempt(glueup.count, self.sheet.mix, placed)

    def count_few(self) -> None:
        """Say that as many more are down as the count area counts with a touch."""
        self.count_more(int(self._area.pieces))

    def count_quarter(self) -> None:
        """Say that the next quarter is down."""
        self.desk.attempt(glueup.count, self.sheet.mix, self.sheet.pieces * next_quarter(self.sheet) // 4)

    def take_back(self) -> None:
        """Take back what was told last of the mix that is shown."""
        self.desk.attempt(record.undo_of_mix, self.sheet.mix)

    def pause(self) -> None:
        """Rest the hands, or go on."""
        self.desk.attempt(glueup.resume if self.sheet.paused else glueup.pause, self.sheet.mix)

    def stringy(self) -> None:
        """Say that the adhesive starts to go."""
        if not self.sheet.stringy:
            self.desk.attempt(glueup.stringy, self.sheet.mix)

    # -- keys -------------------------------------------------------------------------------------------

    def on_key(self, name: str) -> bool:
        return self._keys.on_key(name)

    def must_be_meant(self, name: str) -> bool:
        return self._keys.must_be_meant(name)

    def on_key_meant(self, name: str) -> None:
        self._keys.on_key_meant()
