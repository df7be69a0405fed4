"""The areas of a painted study, or of an empty panel: how many, which are one, and how each is laid."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import BooleanProperty

from bench.drawing.lay import along
from bench.drawing.study import Flow, Study, StudyHow
from bench.drawing.study.edit import region_at
from bench.drawing.study.edits import MadeOne, Parted
from bench.fault import Fault
from bench.job.studying import Studied, main_glass, pieces_of, studied
from bench.screens.aside import Progress
from bench.screens.parts.naming import AskName  # noqa: F401 - the kv file names it
from bench.screens.theme import theme
from bench.screens.tracing import area_glass  # noqa: F401 - the kv file names its parts
from bench.screens.tracing import area_parts as parts
from bench.screens.tracing.area_asked import AskingStep
from bench.screens.tracing.area_words import (
    areas_and_pieces,
    areas_counted,
    how_to,
    pieces_of_size,
    todo_alone,
)
from bench.screens.tracing.areas_picture import AreasPicture, flat  # noqa: F401 - named by the kv file
from bench.screens.tracing.easel import Easel  # noqa: F401 - the kv file names it
from bench.speech import say, say_n


class AreasStep(AskingStep):
    """Show the areas over the picture, and beside it what can be done with them.

    flat: the main glass of each area is shown instead of the picture. finding: areas are being looked for.
    painted: there is a picture.
    """

    needs = "ready"
    flat = BooleanProperty(False)
    finding = BooleanProperty(False)
    painted = BooleanProperty(True)
    may_take_back = BooleanProperty(False)

    # -- coming and going --------------------------------------------------------------------------------

    def arrive(self) -> None:
        draft, picture, size_mm = self.draft, self.flow.picture, self.flow.size_mm
        self.painted = picture is not None
        if picture is not None:
            self.ids.picture.show_under(picture.pixels, size_mm)
        known = self.kept if self.kept is not None and self.kept.fits(draft, picture) else None

        def work(_progress: Progress) -> tuple[Studied, StudyHow, Study]:
            found = known or studied(draft, picture, size_mm)
            return found, *found.as_far_as_it_goes(draft.study)

        self.look(work, self._found)

    def look(self, work: Callable[[Progress], Any], use: Callable[[Any], object]) -> None:
        def found(result: Any) -> None:
            self.finding = False
            use(result)

        self.finding = True
        self.show_beside()
        self.flow.aside.begin(say("Looking for the areas …"), work, found, self._cannot)

    def _found(self, found: tuple[Studied, StudyHow, Study]) -> None:
        self.flow.kept, how, study = found
        lost = len(self.draft.study.edits) - len(how.edits)
        self.told = _lost(lost) if lost else ""
        self.take(self.draft, how, study)

    def _cannot(self, fault: Fault) -> None:
        """Say why there are no areas; back lies what can be mended."""
        self.finding, self.beside = False, "all"
        self.tell(fault)

    def back(self) -> None:
        """Stop what is being looked for; else go back to the step before."""
        if self.finding and self.study is not None:
            self.flow.aside.drop()
            self.finding = False
            self.show_beside()
        else:
            super().back()

    def done(self) -> None:
        """Go on to the lay, if these areas can be laid."""
        if self.study is None or self.finding:
            return
        if self.warn():
            self.turn_to("all", told=self.told)
        else:
            super().done()

    def act_on_key(self) -> None:
        if self.alone:
            self.leave_asking()
        elif self.beside == "all":
            self.done()
        else:
            self.close()

    # -- what is shown -----------------------------------------------------------------------------------

    def draw(self) -> None:
        picture, study = self.ids.picture, self.study
        if study is None:
            return
        is_flat = self.flat or not self.painted
        pixels = flat(study, main_glass(study)) if is_flat else self.flow.picture.pixels
        picture.show_under(pixels, study.size_mm)
        picture.show_areas(study, self.number)

    def show_beside(self) -> None:
        part = self._held[self.beside]
        getattr(self, f"_fill_{self.beside}")(part)
        self.may_take_back = bool(self._how.edits or self.draft.study_before) and not self.finding
        if self._asked[-1:] == ["glass"]:
            self._held["glass"].show(self.region)
        self.ids.split.put_side(part)

    def _fill_all(self, part: parts.AllPart) -> None:
        study, draft = self.study, self.so_far
        part.painted, part.ready = self.painted, study is not None and not self.finding
        part.piece_text = pieces_of_size(draft.study.piece_mm)
        part.number_text = "–" if study is None else areas_counted(len(study.regions))
        part.says = self.told or how_to(draft)
        if self.finding:
            part.head = say("Looking …")
            part.says = say("Colours are compared; this takes a moment.")
        elif study is None:
            part.head = say("No areas")
        else:
            pieces = sum(pieces_of(study, draft.lay.joint_mm))
            part.head = areas_and_pieces(len(study.regions), pieces)

    def _fill_region(self, part: parts.RegionPart) -> None:
        assert self.study is not None
        k = self.number - 1
        part.show(self.region, float(self.study.area_mm2()[k]), self._pieces_here())
        if self.told:
            part.says, part.mix = self.told, ""  # there is no room for both

    def _fill_tell(self, part: parts.TellPart) -> None:
        if self.doing == "join":
            part.head = say("Make one with …")
            says = say("Tap the area beside it to join the two.")
        else:
            part.head = say("Draw an area")
            says = say("Go round it with a finger. Its ends close by themselves.")
        part.says = self.told or says

    def _fill_so(self, part: parts.SoPart) -> None:
        part.show(self.region, self._pieces_here())
        if self.told:
            part.head, part.says = "", todo_alone(self.told) if theme.text_scale > 1.1 else self.told

    def _fill_flow(self, part: parts.FlowPart) -> None:
        part.show(self.region.flow)
        part.says = self.told or say("Stroke over the picture: rows run along the stroke.")

    def _pieces_here(self) -> int:
        assert self.study is not None
        return pieces_of(self.study, self.draft.lay.joint_mm)[self.number - 1]

    def turn_to(self, beside: str, doing: str = "", told: str = "") -> None:
        """Put another part at the side."""
        self.beside, self.doing, self.told, self._word_last = beside, doing, told, ()
        self.ids.picture.wipe()
        self.show_beside()

    def turn_drawing(self) -> None:
        """Let the finger draw an area, or move the picture again."""
        if self.doing == "draw":
            self.close()
        else:
            self.turn_to("tell", "draw")

    def close(self) -> None:
        """Go back to the part before; from the area to all of them."""
        before = {"flow": "so", "so": "region", "region": "all"}
        to = before.get(self.beside, "region" if self.number else "all")
        if to == "all":
            self._spot = None
            self.draw()
        self.turn_to(to)

    def turn_flat(self) -> None:
        """Show the glass instead of the picture, or the picture again."""
        self.flat = not self.flat
        self.draw()

    # -- fingers on the picture --------------------------------------------------------------------------

    def spot(self, x_mm: float, y_mm: float) -> None:
        """Take a tap: it chooses an area, or the one to make one with."""
        if self.study is None or self.finding or self.doing == "draw":
            return
        number = region_at(self.study, x_mm, y_mm)
        if self.doing == "join":
            if number:
                self.say(MadeOne(one=self.number, other=number), "region")
            return
        self._spot = (x_mm, y_mm) if number else None
        self.draw()
        beside = self.beside if self.beside in ("so", "flow") else "region"
        self.turn_to(beside if number else "all", "flow" if number and beside == "flow" else "")

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Take a stroke: an area's outline, or the way its rows run."""
        self.ids.picture.wipe()
        if self.study is None or self.finding:
            return
        if self.doing == "flow":
            self.flow_is(Flow(kind="straight", angle_deg=round(along(points_mm).angle_deg, 1)))
        elif self.doing == "draw" and self.painted:
            self.draw_area(points_mm, None)
        elif self.doing == "draw":
            self._stroke = points_mm
            self.offer_sheet(say("The glass of the new area"), whole=True, may_turn=False)

    def part_it(self) -> None:
        """Part the area where its paint differs most."""
        self.say(Parted(region=self.number))


def _lost(count: int) -> str:
    return say_n(
        "{count:,} change did not fit this panel any more.",
        "{count:,} changes did not fit this panel any more.",
        count,
    )
