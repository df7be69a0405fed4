"""Words said of areas at a step: each one is tried, kept in the draft, and can be taken back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import OptionProperty, StringProperty

from bench.drawing.study import Flow, Region, Study, StudyHow
from bench.drawing.study.edit import region_at
from bench.drawing.study.edits import Edit
from bench.drawing.study.mixing import Mix
from bench.fault import Fault
from bench.job.drafts import Draft
from bench.job.studying import Studied, check_lay, counted_anew, laid_so, said, taken_back
from bench.screens.aside import Progress
from bench.screens.tracing.area_parts import ASPECTS, PIECES_MM, stepped
from bench.screens.tracing.step import Step

SIDES = ("all", "region", "tell", "so", "flow")


class SaidStep(Step):
    """Base of the step of the areas: what was said of them, and what is chosen of them.

    study: the areas now, None while there are none. beside: the part at the side. doing: what a finger on
    the picture is for. told: why the last word was refused, "" where it was not.
    """

    beside = OptionProperty("all", options=SIDES)
    doing = OptionProperty("", options=("", "join", "draw", "flow"))
    told = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self.study: Study | None = None
        self._how = StudyHow()
        self._spot: tuple[float, float] | None = None
        self._word_last: tuple[Any, ...] = ()
        super().__init__(**kwargs)

    def draw(self) -> None:
        """Draw the areas as they are now."""

    def show_beside(self) -> None:
        """Show the part at the side as it is now."""

    def look(self, work: Callable[[Progress], Any], use: Callable[[Any], object]) -> None:
        """Look for areas aside; `use` gets what is found."""

    @property
    def kept(self) -> Studied | None:
        return self.flow.kept  # type: ignore[no-any-return]

    @property
    def number(self) -> int:
        """The area that was tapped, 0 for none."""
        return 0 if self.study is None or self._spot is None else region_at(self.study, *self._spot)

    @property
    def region(self) -> Region:
        assert self.study is not None
        return self.study.regions[self.number - 1]

    @property
    def so_far(self) -> Draft:
        """The draft with the words that fit it; those that do not go with the next one that is said."""
        return self.draft if self._how == self.draft.study else self.draft.changed(study=self._how)

    # -- one word ----------------------------------------------------------------------------------------

    def take(self, draft: Draft, how: StudyHow, study: Study) -> None:
        """Have these areas from now on, and keep the draft that says so."""
        self._how, self.study = how, study
        if draft is not self.draft:
            self.flow.take(draft)
        if not self.number:
            self._spot = None
            self.beside = "all" if self.beside in ("region", "so", "flow") else self.beside
        self.draw()
        self.show_beside()

    def say(self, edit: Edit, then: str = "") -> bool:
        """Say a word; one that cannot be done is told, and nothing has changed."""
        return self.attempt(lambda: said(self.so_far, edit), then)

    def attempt(self, change: Callable[[], Draft], then: str = "") -> bool:
        """Change the draft and turn to the part `then`; a fault is told, and nothing has changed."""
        assert self.kept is not None
        try:
            draft = change()
            study = self.kept.study(draft.study)
        except Fault as fault:
            self.tell(fault)
            return False
        self.told = ""
        if then:
            self.beside, self.doing = then, ""
        self.take(draft, draft.study, study)
        return True

    def tell(self, fault: Fault) -> None:
        self.told = fault.sentence
        self.show_beside()

    def warn(self) -> bool:
        """Say what keeps these areas from being laid, and whether anything does."""
        if self.study is not None:
            try:
                check_lay(self.draft, self.study)
            except Fault as fault:
                self.tell(fault)
                return True
        return False

    def take_back(self) -> None:
        """Take back what was said last."""
        self._word_last = ()
        self.attempt(lambda: taken_back(self.so_far))

    # -- all areas ---------------------------------------------------------------------------------------

    def step_number(self, by: int) -> None:
        """Ask for more areas, or for fewer; what was said of the old ones can be taken back to."""
        kept, draft = self.kept, self.so_far
        if kept is None or self.study is None:
            return

        def work(_progress: Progress) -> tuple[StudyHow, Study]:
            how = kept.stepped(draft.study, by)
            return how, kept.study(how)

        def use(found: tuple[StudyHow, Study]) -> None:
            how, study = found
            self.told = ""
            self.take(draft if how == draft.study else counted_anew(draft, how), how, study)

        self.look(work, use)

    def step_piece(self, by: int) -> None:
        """Lay all areas in larger pieces, or in smaller ones."""
        draft = self.so_far
        how = draft.study.model_copy(update={"piece_mm": stepped(PIECES_MM, draft.study.piece_mm, by)})
        if draft.kind != "empty" and how.edits:
            self.attempt(lambda: counted_anew(draft, how.model_copy(update={"edits": ()})))
        elif how != draft.study:
            self.attempt(lambda: draft.changed(study=how))
        self.warn()

    # -- how an area is laid -----------------------------------------------------------------------------

    def lay_so(self, what: str, **update: Any) -> None:
        """Say how the area is laid; the same thing said again and again is one word."""
        number, study, to = self.number, self.study, self.region.model_copy(update=update)
        if study is None or to == self.region:
            return
        instead = self._word_last == (number, what, len(self._how.edits))
        if self.attempt(lambda: laid_so(self.so_far, study, number, to, instead=instead)):
            self._word_last = (number, what, len(self._how.edits))

    def step_piece_here(self, by: int) -> None:
        self.lay_so("piece", piece_mm=stepped(PIECES_MM, self.region.piece_mm, by))

    def step_aspect(self, by: int) -> None:
        self.lay_so("aspect", aspect=stepped(ASPECTS, self.region.aspect, by))

    def flow_is(self, flow: Flow) -> None:
        """Let the rows of the area run so."""
        self.lay_so(f"flow/{flow.kind}", flow=flow)

    def mix_is(self, what: str, mix: Mix) -> None:
        """Lay the area in another mix of glass."""
        self.lay_so(what, mix=mix)
