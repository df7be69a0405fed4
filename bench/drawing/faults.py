"""What can be wrong with a drawing; each fault keeps the offending data and says what to do."""

from __future__ import annotations

from bench.fault import Fault

_SAVE_AGAIN = "save the drawing again as plain SVG"


def quoted(text: str, limit: int = 40) -> str:
    """Return `text` in quotes on one line, cut to `limit` characters."""
    flat = " ".join(text.split())
    return f"'{flat}'" if len(flat) <= limit else f"'{flat[:limit]}…'"


class DrawingFault(Fault):
    """Any mistake in a drawing; `name` is the file."""

    def __init__(self, name: str, what: str, *, at: str = "", todo: str = _SAVE_AGAIN) -> None:
        super().__init__(what, where=f"{name}, {at}" if at else name, todo=todo)
        self.name = name
        self.at = at


class DrawingMissing(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "there is no such file", todo="check the name and the folder")


class DrawingIsNoFile(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "this is a folder or a device, not a file", todo="name an SVG file")


class DrawingUnreadable(DrawingFault):
    def __init__(self, name: str, reason: str) -> None:
        super().__init__(name, f"the file cannot be opened ({reason})", todo="check its permissions")
        self.reason = reason


class DrawingEmpty(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "the file is empty")


class DrawingTooLarge(DrawingFault):
    def __init__(self, name: str, limit_bytes: int) -> None:
        mib = limit_bytes // 2**20
        super().__init__(
            name, f"the file is larger than {mib} MiB", todo="take pictures and layers out of it"
        )
        self.limit_bytes = limit_bytes


class NotAnSvg(DrawingFault):
    def __init__(self, name: str, seen: str) -> None:
        super().__init__(
            name, f"this is not an SVG drawing but {seen}", todo="open a drawing saved as plain SVG"
        )
        self.seen = seen


class BrokenXml(DrawingFault):
    def __init__(self, name: str, line: int, reason: str) -> None:
        super().__init__(name, f"the XML breaks off ({reason})", at=f"line {line}")
        self.line = line
        self.reason = reason


class EntitiesRefused(DrawingFault):
    """Entity declarations can blow up or reach outside the file, so none is ever followed."""

    def __init__(self, name: str, line: int, entity: str) -> None:
        super().__init__(
            name, f"it declares the entity {quoted(entity)}, which is never read", at=f"line {line}"
        )
        self.line = line
        self.entity = entity


class NestedTooDeep(DrawingFault):
    def __init__(self, name: str, line: int, limit: int) -> None:
        super().__init__(
            name,
            f"groups are nested more than {limit} deep",
            at=f"line {line}",
            todo="ungroup and save again",
        )
        self.line = line
        self.limit = limit


class UseLoop(DrawingFault):
    def __init__(self, name: str, line: int, target: str) -> None:
        super().__init__(
            name,
            f"a `use` of {quoted(target)} ends in itself",
            at=f"line {line}",
            todo="take this `use` out of the drawing",
        )
        self.line = line
        self.target = target


class TooManyShapes(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        told = f"{count:,}" if count < 10**12 else "endlessly many"
        super().__init__(
            name,
            f"it holds {told} shapes; at most {limit:,} are read",
            todo="split the panel into several drawings",
        )
        self.count = count
        self.limit = limit


class TooManyElements(TooManyShapes):
    """Shapes apart, a drawing may not hold endless groups, texts and references either."""


class TooManyPoints(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            f"its outlines have {count:,} points; at most {limit:,} are read",
            todo="simplify the outlines",
        )
        self.count = count
        self.limit = limit


class PageSizeWrong(DrawingFault):
    def __init__(self, name: str, text: str) -> None:
        super().__init__(
            name,
            f"its page size {quoted(text)} cannot be used",
            todo="give the page a width and height between 5 mm and 20 m",
        )
        self.text = text


class SizeOutOfRange(DrawingFault):
    def __init__(self, name: str, width_mm: float, height_mm: float) -> None:
        super().__init__(
            name,
            f"the panel would be {width_mm:.6g} × {height_mm:.6g} mm; 5 mm to 20 m is possible",
            todo="give the true width or height in mm",
        )
        self.width_mm = width_mm
        self.height_mm = height_mm


class UnreadableNumber(DrawingFault):
    """A length, coordinate, path or transform that is no number, not finite or absurdly large."""

    def __init__(self, name: str, at: str, attribute: str, text: str) -> None:
        super().__init__(
            name,
            f"its {attribute} cannot be read at {quoted(text)}",
            at=at,
            todo="draw this shape again or delete it",
        )
        self.attribute = attribute
        self.text = text


class CoordinateTooFar(DrawingFault):
    def __init__(self, name: str, at: str, limit_mm: float) -> None:
        super().__init__(
            name,
            f"it reaches more than {limit_mm / 1000:g} m from the page",
            at=at,
            todo="move the shape onto the page or delete it",
        )
        self.limit_mm = limit_mm


class OutlineNotClosed(DrawingFault):
    def __init__(self, name: str, at: str) -> None:
        super().__init__(
            name,
            "the panel outline is not closed or encloses nothing",
            at=at,
            todo="close it or take its mark away",
        )


class NoTesserae(DrawingFault):
    def __init__(self, name: str, seen: str) -> None:
        super().__init__(
            name,
            f"it has no closed filled shape{f', only {seen}' if seen else ''}",
            todo="draw each tessera as a closed shape with a fill",
        )
        self.seen = seen


class TooTangled(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            "far too many shapes lie on top of one another",
            todo="keep one closed shape for each tessera",
        )


class PageDiffers(DrawingFault):
    """A revised drawing is not of the page that the panel is made on."""

    def __init__(self, name: str, size_mm: tuple[float, float], wanted_mm: tuple[float, float]) -> None:
        (width, height), (wide, high) = size_mm, wanted_mm
        super().__init__(
            name,
            f"its page of {width:.1f} × {height:.1f} mm is not the panel's of {wide:.1f} × {high:.1f} mm",
            todo="give it the panel's page, or one of the same proportion",
        )
        self.size_mm = size_mm
        self.wanted_mm = wanted_mm


class NotWrittenWhole(DrawingFault):
    """A panel written as a drawing would not read back with all its tesserae."""

    def __init__(self, name: str, count: int, read: int) -> None:
        super().__init__(
            name,
            f"of {count} tesserae only {read} could be kept",
            todo="draw those again that are next to nothing, or nearly as large as the panel",
        )
        self.count = count
        self.read = read
