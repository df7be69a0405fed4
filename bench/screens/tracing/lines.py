"""A drawing of every piece: what its lines enclose, mended by hand until it is right, and made a panel."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.drawing.lines import LineHow, LinesReport, NoClosedRegion, Stroke, panel_of_lines
from bench.drawing.load import file_bytes
from bench.drawing.panel import Panel
from bench.drawing.photo import read_picture
from bench.fault import Fault
from bench.job.drafts import COLOURS, file_of, keep_colours
from bench.screens.aside import Progress
from bench.screens.drawings import PICTURES, folder_words, name_words
from bench.screens.parts.listing import Offer
from bench.screens.shelf import Shelf
from bench.screens.tracing.area_words import pieces_counted
from bench.screens.tracing.easel import Easel  # noqa: F401 - the kv file names it
from bench.screens.tracing.found_picture import MOST_RINGS, FoundPicture  # noqa: F401 - named by the kv file
from bench.screens.tracing.step import Step
from bench.speech import large_first, length, plain_length, say, unbroken

GAPS_MM = (0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0)
WAIT_S = 0.6  # for another tap, before it is looked for again


class LinesStep(Step):
    """Show the pieces over the picture with what there is to check; each change looks for them anew.

    drawing: a finger draws a line instead of moving the picture. finding: they are being looked for.
    """

    needs = "ready"
    head = StringProperty("")
    says = StringProperty("")
    details = StringProperty("")
    gap_text = StringProperty("")
    colours_text = StringProperty("")
    share = NumericProperty(0.0)
    drawing = BooleanProperty(False)
    finding = BooleanProperty(False)
    choosing = BooleanProperty(False)
    has_strokes = BooleanProperty(False)
    can_accept = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.panel: Panel | None = None
        self.report: LinesReport | None = None
        self._soon = Clock.create_trigger(self._find, WAIT_S)
        super().__init__(**kwargs)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self.remove_widget(self.ids.pictures)

    def arrive(self) -> None:
        picture, (width_mm, height_mm) = self.flow.picture, self.flow.size_mm
        self.ids.picture.lay_under(picture.pixels, (width_mm, height_mm))
        self.flow.aside.bind(share=self._follow)
        self._show_draft()
        self._find()

    def leave(self) -> None:
        self._soon.cancel()
        self.flow.aside.unbind(share=self._follow)

    def _follow(self, _aside: object, share: float) -> None:
        self.share = share

    # -- looking for the pieces --------------------------------------------------------------------------

    def _again(self) -> None:
        """Look for the pieces anew, once no further tap follows."""
        self._show_draft()
        self.flow.aside.drop()
        self.finding, self.can_accept, self.share = True, False, 0.0
        self._soon()

    def _find(self, *_: object) -> None:
        flow, draft, picture = self.flow, self.draft, self.flow.picture
        (width_mm, height_mm), raw_px = flow.size_mm, flow.raw_px
        try:
            data = file_of(flow.job.store, flow.draft_id, COLOURS) if draft.colours else None
        except Fault as fault:
            self._told(fault)
            return
        self.finding, self.can_accept = True, False

        def work(progress: Progress) -> tuple[Panel, LinesReport]:
            colours = None if data is None else read_picture(data, draft.colours)
            if colours is not None and colours.pixels.shape[1::-1] == raw_px:
                as_drawn = draft.changed(lighten=0, width_mm=width_mm, height_mm=height_mm)
                colours = as_drawn.ready(colours)
            return panel_of_lines(
                picture,
                width_mm=width_mm,
                height_mm=height_mm,
                how=draft.lines,
                strokes=draft.strokes,
                colours=colours,
                progress=progress,
            )

        flow.aside.begin(say("Looking for the pieces …"), work, self._found, self._told)

    def _found(self, found: tuple[Panel, LinesReport]) -> None:
        self.panel, self.report = found
        self.finding, self.can_accept = False, True
        report = self.report
        self.head = pieces_counted(report.count)
        self.says = _leaks_told(len(report.leaks))
        self.details = _details(report)
        self.ids.picture.show_found(self.panel)
        self.ids.picture.ring([(leak.x_mm, leak.y_mm) for leak in report.leaks])

    def _told(self, fault: Fault) -> None:
        """Say why nothing was found; the picture stays, so that it can be mended."""
        self.panel = self.report = None
        self.finding = self.can_accept = False
        by_hand = isinstance(fault, NoClosedRegion)
        todo = say("close larger gaps, or draw lines") if by_hand else fault.todo
        self.head, self.details = say("No pieces"), ""
        self.says = f"{large_first(fault.what)}; {todo}."
        self.ids.picture.show_found(None)
        self.ids.picture.ring(())

    def _show_draft(self) -> None:
        draft = self.draft
        self.gap_text = say("Gaps up to {size}", size=unbroken(plain_length(draft.lines.gap_mm)))
        self.has_strokes = bool(draft.strokes)
        self.colours_text = draft.colours or say("its own")
        self.ids.picture.draw([stroke.points_mm for stroke in draft.strokes])

    # -- mending -----------------------------------------------------------------------------------------

    def turn_drawing(self) -> None:
        """Let the finger draw, or move the picture again."""
        self.drawing = not self.drawing

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Take a line that a finger drew."""
        self.ids.picture.wipe()
        self.flow.change(strokes=(*self.draft.strokes, Stroke(points_mm=tuple(points_mm))))
        self._again()

    def take_stroke_back(self) -> None:
        """Take the newest line off again."""
        self.flow.change(strokes=self.draft.strokes[:-1])
        self._again()

    def step_gap(self, by: int) -> None:
        """Close larger gaps, or only smaller ones."""
        now = self.draft.lines.gap_mm
        wider = [gap for gap in GAPS_MM if (gap > now if by > 0 else gap < now)]
        if wider:
            gap_mm = wider[0] if by > 0 else wider[-1]
            lines = {**self.draft.lines.model_dump(), "gap_mm": gap_mm}
            self.flow.change(lines=LineHow.model_validate(lines))
            self._again()

    # -- colours -----------------------------------------------------------------------------------------

    def choose_colours(self) -> None:
        """List the pictures that colours may be taken from."""
        take = self._take_colours
        own = Offer(say("The drawing's own"), say("No other picture"), "colours_own", lambda: take(None))

        def row(path: Path) -> Offer:
            text, says = name_words(path.name), folder_words(path)
            return Offer(text, says, f"colours_{path.stem}", lambda: take(path))

        listing = self.ids.listing
        Shelf(listing=listing, endings=PICTURES, row=row, others=lambda _count, _done: [own]).offer()
        self.choosing = True
        self.ids.split.put_main(self.ids.pictures)

    def leave_choice(self) -> None:
        """Look at the picture again."""
        self.choosing = False
        self.ids.split.put_main(self.ids.looking)

    def _take_colours(self, path: Any) -> None:
        """Keep another picture beside the draft; one that cannot be read is told and changes nothing."""
        flow = self.flow
        try:
            data = None if path is None else file_bytes(path)
            if data is not None:
                read_picture(data, path.name)
            keep_colours(flow.job.store, flow.draft_id, data)
        except Fault as fault:
            flow.desk.tell(fault)
            return
        flow.change(colours="" if path is None else path.name)
        self.leave_choice()
        self._again()

    # -- the end -----------------------------------------------------------------------------------------

    def show_glass(self) -> None:
        """Show the pieces in their colours, or the picture again."""
        self.ids.picture.in_glass = not self.ids.picture.in_glass

    def back(self) -> None:
        """Stop what is being looked for; else go back to the step before."""
        if self.finding:
            self._soon.cancel()
            self.flow.aside.drop()
            self.finding = False
            self.head, self.says, self.details = say("Stopped"), say("Look again when it suits."), ""
            self.panel = None
        else:
            super().back()

    def done(self) -> None:
        """Make it a panel of the book; where it was stopped, look again."""
        if self.panel is not None and self.can_accept:
            self.flow.accept(self.panel)
        elif not self.finding:
            self._find()


def _leaks_told(leaks: int) -> str:
    if not leaks:
        return say("No line seems open.")
    if leaks == 1:
        return say("A line seems open at the ring: draw across it, or leave it.")
    if leaks <= MOST_RINGS:
        return say("Lines seem open at {count} rings: draw across them, or leave them.", count=leaks)
    return say(
        "Lines seem open at {count} places ({ringed} ringed): draw across them, or leave them.",
        count=leaks,
        ringed=MOST_RINGS,
    )


def _details(report: LinesReport) -> str:
    told = [
        say("{least:.0f} to {most:.0f} mm²", least=report.smallest_mm2, most=report.largest_mm2),
        say("lines {wide} wide", wide=unbroken(length(report.line_mm, 1))),
        *([say("gaps closed: {count}", count=len(report.gaps))] if report.gaps else []),
        *([say("specks left out: {count}", count=report.specks)] if report.specks else []),
    ]
    return ", ".join(told)
