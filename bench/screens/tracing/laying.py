"""The trial lay: the areas filled with pieces in their glass, brushed by finger, and made a panel."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from bench.drawing.lay import Brush, LayHow
from bench.drawing.study import Flow
from bench.drawing.study.edit import region_at
from bench.fault import Fault
from bench.job.studying import Studied, main_glass, studied
from bench.job.trial import JOINTS_MM, Trial, stepped_joint, trial
from bench.screens.aside import Progress
from bench.screens.parts.acts import SideAct
from bench.screens.parts.plates import Rows
from bench.screens.parts.stepper import Stepper  # noqa: F401 - the kv file names it
from bench.screens.tracing.area_words import pieces_counted
from bench.screens.tracing.areas_picture import AreasPicture, flat  # noqa: F401 - named by the kv file
from bench.screens.tracing.easel import Easel  # noqa: F401 - the kv file names it
from bench.screens.tracing.step import Step
from bench.speech import plain_length, say, unbroken

WAIT_S = 0.6  # for another tap, before it is laid again
_LARGER = 1.25
_LEAST_REACH = 0.75  # of a piece: a brush that reaches less far touches none
_MOST_POINTS = 2000
_BRUSHES: dict[str, dict[str, Any]] = {
    "smaller": {"larger": 1 / _LARGER},
    "larger": {"larger": _LARGER},
    "along": {"follow": True},
    "loose": {"flow": Flow(kind="loose")},
}


class BrushAct(SideAct):
    """One way of brushing; the one that is on is inverted."""

    brush = StringProperty("")
    current = StringProperty("")


class BrushPart(Rows):
    """What the finger does to the pieces that it strokes."""

    brush = OptionProperty("smaller", options=tuple(_BRUSHES))
    head = StringProperty("")
    says = StringProperty("")
    laying = BooleanProperty(False)
    share = NumericProperty(0.0)
    low = BooleanProperty(False)  # there is little height: how to brush is said, and not how many pieces lie
    __events__ = ("on_close",)

    def on_close(self) -> None:
        """Bound by the step."""


class LayStep(Step):
    """Lay the areas aside, show the pieces, and lay again what is changed; the rest stays as it is.

    trial: the lay that is shown, None while there is none. laying: it is being laid, `share` of it done.
    hindered: it could not be laid as was asked, or was stopped. beside: which part stands at the side.
    """

    needs = "ready"
    head = StringProperty("")
    says = StringProperty("")
    joint_text = StringProperty("")
    share = NumericProperty(0.0)
    laying = BooleanProperty(False)
    can_accept = BooleanProperty(False)
    narrowest = BooleanProperty(False)
    widest = BooleanProperty(False)
    may_take_back = BooleanProperty(False)
    hindered = BooleanProperty(False)
    beside = OptionProperty("lay", options=("lay", "brush", "counts"))

    def __init__(self, **kwargs: Any) -> None:
        self.trial: Trial | None = None
        self._wanted = LayHow()
        self._soon = Clock.create_trigger(self._lay, WAIT_S)
        super().__init__(**kwargs)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self._held = {name: self.ids[name].__self__ for name in ("lay", "brush", "counts")}
        for name in ("brush", "counts"):
            self.remove_widget(self._held[name])

    def arrive(self) -> None:
        self._wanted = self.draft.lay
        self.flow.aside.bind(share=self._follow)
        if self.flow.picture is not None:
            self.ids.picture.show_under(self.flow.picture.pixels, self.flow.size_mm)
        self.ids.picture.in_glass = True
        self._say()
        self._lay()

    def leave(self) -> None:
        self._soon.cancel()
        self.flow.aside.unbind(share=self._follow)

    def _follow(self, _aside: object, share: float) -> None:
        self.share = share

    # -- laying ------------------------------------------------------------------------------------------

    def _again(self, how: LayHow, *, soon: bool = False) -> None:
        """Lay it so, once no further tap follows; the draft has it when it is laid."""
        self._wanted = how
        self.flow.aside.drop()
        self.laying, self.can_accept, self.share = True, False, 0.0
        self._say()
        if soon:
            self._soon()
        else:
            self._lay()

    def _lay(self, *_: object) -> None:
        flow, draft, how = self.flow, self.draft, self._wanted
        picture, size_mm = flow.picture, flow.size_mm
        known = flow.kept if flow.kept is not None and flow.kept.fits(draft, picture) else None

        def work(progress: Progress) -> tuple[Studied, Trial | None]:
            found = known or studied(draft, picture, size_mm)
            _, study = found.as_far_as_it_goes(draft.study)
            return found, trial(study, how, picture, found.trial, progress)

        self.laying, self.can_accept, self.share = True, False, 0.0
        flow.aside.begin(say("Laying …"), work, self._laid, self._told)

    def _laid(self, found: tuple[Studied, Trial | None]) -> None:
        self.flow.kept, self.trial = found
        self.laying = False
        if self.trial is None:
            return
        self.flow.kept.trial = self.trial
        if self.trial.how != self.draft.lay:
            self.flow.change(lay=self.trial.how)
        self.can_accept = True
        if self.flow.picture is None:
            study = self.trial.study
            self.ids.picture.show_under(flat(study, main_glass(study)), study.size_mm)
        self.ids.picture.show_found(self.trial.panel)
        self._say()

    def _told(self, fault: Fault) -> None:
        """Say why it cannot be laid so; what was laid before stays, and the draft with it."""
        self.laying, self._wanted = False, self.draft.lay
        self.can_accept = self.trial is not None
        self._say(fault.sentence)

    def _say(self, told: str = "") -> None:
        shown = self.trial
        self.head = say("No pieces yet") if shown is None else pieces_counted(shown.panel.tessera_count)
        self.hindered = bool(told)
        self.says = told or say("A trial: you lay what your eye wants; the dry count corrects it.")
        self._held["brush"].says = told or say(
            "Stroke over pieces: a finger's width is laid anew. Zoom in for fewer."
        )
        joint_mm = self._wanted.joint_mm
        self.joint_text = say("Joints of {size}", size=unbroken(plain_length(joint_mm)))
        self.narrowest, self.widest = joint_mm <= JOINTS_MM[0], joint_mm >= JOINTS_MM[-1]
        self.may_take_back = bool(self._wanted.brushes)

    # -- what the maker says -----------------------------------------------------------------------------

    def step_joint(self, by: int) -> None:
        """Leave wider joints, or narrower ones."""
        joint_mm = stepped_joint(self._wanted.joint_mm, by)
        self._again(self._wanted.model_copy(update={"joint_mm": joint_mm}), soon=True)

    def lay_otherwise(self) -> None:
        """Lay it with another throw of chance; strokes stay where they were drawn."""
        self._again(self._wanted.model_copy(update={"seed": self._wanted.seed + 1}))

    def take_back(self) -> None:
        """Take the newest stroke back."""
        self._again(self._wanted.taken_back())

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Lay the pieces under a stroke anew."""
        self.ids.picture.wipe()
        if self.trial is None or self.laying or self.beside != "brush":
            return
        study = self.trial.study
        number = region_at(study, *points_mm[len(points_mm) // 2])
        piece_mm = study.regions[number - 1].piece_mm if number else 0.0
        every = max(1, -(-len(points_mm) // _MOST_POINTS))
        brush = Brush(
            stroke_mm=tuple((float(x), float(y)) for x, y in points_mm[::every]),
            radius_mm=max(self.ids.picture.reach_mm, _LEAST_REACH * piece_mm),
            **_BRUSHES[self._held["brush"].brush],
        )
        self._again(self._wanted.brushed(brush))

    def spot(self, x_mm: float, y_mm: float) -> None:
        """Take a tap as a stroke of no length."""
        self.stroked([(x_mm, y_mm)])

    # -- what is shown -----------------------------------------------------------------------------------

    def show_glass(self) -> None:
        """Show the pieces in their colours, or the picture again."""
        self.ids.picture.in_glass = not self.ids.picture.in_glass

    def turn_to(self, beside: str) -> None:
        """Put another part at the side."""
        if beside == "counts" and self.trial is not None:
            lines = [say("{count:,} {area}", count=count, area=name) for name, count in self.trial.counts()]
            self._held["counts"].lines = lines
        self.beside = beside
        self._say()
        self.ids.split.put_side(self._held[beside])

    def turn_brushing(self) -> None:
        """Let the finger brush, or move the picture again."""
        self.turn_to("lay" if self.beside == "brush" else "brush")

    def back(self) -> None:
        """Stop laying; else go back to the areas."""
        if self.laying:
            self._soon.cancel()
            self.flow.aside.drop()
            self.laying, self._wanted = False, self.draft.lay
            self.can_accept = self.trial is not None
            self._say(say("Stopped; what was laid before stays.") if self.trial else say("Stopped."))
        else:
            super().back()

    def done(self) -> None:
        """Make it a panel of the book; where it was stopped, lay it."""
        if self.trial is not None and self.can_accept:
            self.flow.accept(self.trial.panel)
        elif not self.laying:
            self._lay()

    def act_on_key(self) -> None:
        if self.beside == "lay":
            self.done()
        else:
            self.turn_to("lay")
