"""What can be wrong with a picture that is to be read as a line drawing."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault
from bench.speech import say


class BlankPage(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("no line stands out on the page"),
            todo=say("draw darker, or scan with more contrast"),
        )


class NoClosedRegion(DrawingFault):
    """specks: closed regions there were, all of them too small."""

    def __init__(self, name: str, gap_mm: float, specks: int, least_mm2: float) -> None:
        if specks:
            what = say(
                "the lines do not close: there is no closed region of {least:g} mm² or more, "
                "only {specks:,} smaller",
                least=least_mm2,
                specks=specks,
            )
        else:
            what = say("the lines do not close: there is no closed region")
        todo = say("try a --gap-mm larger than {gap:g}, or close the lines by hand", gap=gap_mm)
        super().__init__(name, what, todo=todo)
        self.gap_mm = gap_mm
        self.specks = specks


class TooManyRegions(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            say("the lines enclose {count:,} regions; at most {limit:,} are read", count=count, limit=limit),
            todo=say("leave out small ones, or split the panel into several drawings"),
        )
        self.count = count
        self.limit = limit


class ReadingStopped(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("reading was stopped"), todo=say("open it again when it suits"))
