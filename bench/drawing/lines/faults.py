"""What can be wrong with a picture that is to be read as a line drawing."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault


class BlankPage(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name, "no line stands out on the page", todo="draw darker, or scan with more contrast"
        )


class NoClosedRegion(DrawingFault):
    """specks: closed regions there were, all of them too small."""

    def __init__(self, name: str, gap_mm: float, specks: int, least_mm2: float) -> None:
        seen = f" of {least_mm2:g} mm² or more, only {specks:,} smaller" if specks else ""
        super().__init__(
            name,
            f"the lines do not close: there is no closed region{seen}",
            todo=f"try a --gap-mm larger than {gap_mm:g}, or close the lines by hand",
        )
        self.gap_mm = gap_mm
        self.specks = specks


class TooManyRegions(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            f"the lines enclose {count:,} regions; at most {limit:,} are read",
            todo="leave out small ones, or split the panel into several drawings",
        )
        self.count = count
        self.limit = limit


class ReadingStopped(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "reading was stopped", todo="open it again when it suits")
