"""What can be wrong with a drawing; each fault keeps the offending data and says what to do."""

from __future__ import annotations

from bench.fault import Fault
from bench.speech import say, size


def quoted(text: str, limit: int = 40) -> str:
    """Return `text` in quotes on one line, cut to `limit` characters."""
    flat = " ".join(text.split())
    return f"'{flat}'" if len(flat) <= limit else f"'{flat[:limit]}…'"


def line_words(line: int) -> str:
    """Say which line of a file."""
    return say("line {line}", line=line)


class DrawingFault(Fault):
    """Any mistake in a drawing; `name` is the file. Without a todo the drawing is to be saved again."""

    def __init__(self, name: str, what: str, *, at: str = "", todo: str | None = None) -> None:
        where = say("{name}, {at}", name=name, at=at) if at else name
        again = say("save the drawing again as plain SVG") if todo is None else todo
        super().__init__(what, where=where, todo=again)
        self.name = name
        self.at = at


class DrawingMissing(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("there is no such file"), todo=say("check the name and the folder"))


class DrawingIsNoFile(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("this is a folder or a device, not a file"), todo=say("name an SVG file"))


class DrawingUnreadable(DrawingFault):
    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            name,
            say("the file cannot be opened ({reason})", reason=reason),
            todo=say("check its permissions"),
        )
        self.reason = reason


class DrawingEmpty(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("the file is empty"))


class DrawingTooLarge(DrawingFault):
    def __init__(self, name: str, limit_bytes: int) -> None:
        mib = limit_bytes // 2**20
        super().__init__(
            name,
            say("the file is larger than {mib} MiB", mib=mib),
            todo=say("take pictures and layers out of it"),
        )
        self.limit_bytes = limit_bytes


class NotAnSvg(DrawingFault):
    def __init__(self, name: str, seen: str) -> None:
        super().__init__(
            name,
            say("this is not an SVG drawing but {seen}", seen=seen),
            todo=say("open a drawing saved as plain SVG"),
        )
        self.seen = seen


class BrokenXml(DrawingFault):
    def __init__(self, name: str, line: int, reason: str) -> None:
        super().__init__(name, say("the XML breaks off ({reason})", reason=reason), at=line_words(line))
        self.line = line
        self.reason = reason


class EntitiesRefused(DrawingFault):
    """Entity declarations can blow up or reach outside the file, so none is ever followed."""

    def __init__(self, name: str, line: int, entity: str) -> None:
        super().__init__(
            name,
            say("it declares the entity {entity}, which is never read", entity=quoted(entity)),
            at=line_words(line),
        )
        self.line = line
        self.entity = entity


class NestedTooDeep(DrawingFault):
    def __init__(self, name: str, line: int, limit: int) -> None:
        super().__init__(
            name,
            say("groups are nested more than {limit} deep", limit=limit),
            at=line_words(line),
            todo=say("ungroup and save again"),
        )
        self.line = line
        self.limit = limit


class UseLoop(DrawingFault):
    def __init__(self, name: str, line: int, target: str) -> None:
        super().__init__(
            name,
            say("a `use` of {target} ends in itself", target=quoted(target)),
            at=line_words(line),
            todo=say("take this `use` out of the drawing"),
        )
        self.line = line
        self.target = target


class TooManyShapes(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        if count < 10**12:
            what = say("it holds {count:,} shapes; at most {limit:,} are read", count=count, limit=limit)
        else:
            what = say("it holds endlessly many shapes; at most {limit:,} are read", limit=limit)
        super().__init__(
            name,
            what,
            todo=say("split the panel into several drawings"),
        )
        self.count = count
        self.limit = limit


class TooManyElements(TooManyShapes):
    """Shapes apart, a drawing may not hold endless groups, texts and references either."""


class TooManyPoints(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            say("its outlines have {count:,} points; at most {limit:,} are read", count=count, limit=limit),
            todo=say("simplify the outlines"),
        )
        self.count = count
        self.limit = limit


class PageSizeWrong(DrawingFault):
    def __init__(self, name: str, text: str) -> None:
        super().__init__(
            name,
            say("its page size {size} cannot be used", size=quoted(text)),
            todo=say("give the page a width and height between 5 mm and 20 m"),
        )
        self.text = text


class SizeOutOfRange(DrawingFault):
    def __init__(self, name: str, width_mm: float, height_mm: float) -> None:
        super().__init__(
            name,
            say(
                "the panel would be {wide:.6g} × {high:.6g} mm; 5 mm to 20 m is possible",
                wide=width_mm,
                high=height_mm,
            ),
            todo=say("give the true width or height in mm"),
        )
        self.width_mm = width_mm
        self.height_mm = height_mm


class UnreadableNumber(DrawingFault):
    """A length, coordinate, path or transform that is no number, not finite or absurdly large."""

    def __init__(self, name: str, at: str, attribute: str, text: str) -> None:
        super().__init__(
            name,
            say("its {attribute} cannot be read at {place}", attribute=attribute, place=quoted(text)),
            at=at,
            todo=say("draw this shape again or delete it"),
        )
        self.attribute = attribute
        self.text = text


class CoordinateTooFar(DrawingFault):
    def __init__(self, name: str, at: str, limit_mm: float) -> None:
        super().__init__(
            name,
            say("it reaches more than {limit:g} m from the page", limit=limit_mm / 1000),
            at=at,
            todo=say("move the shape onto the page or delete it"),
        )
        self.limit_mm = limit_mm


class OutlineNotClosed(DrawingFault):
    def __init__(self, name: str, at: str) -> None:
        super().__init__(
            name,
            say("the panel outline is not closed or encloses nothing"),
            at=at,
            todo=say("close it or take its mark away"),
        )


class NoTesserae(DrawingFault):
    def __init__(self, name: str, seen: str) -> None:
        super().__init__(
            name,
            say("it has no closed filled shape, only {seen}", seen=seen)
            if seen
            else say("it has no closed filled shape"),
            todo=say("draw each tessera as a closed shape with a fill"),
        )
        self.seen = seen


class TooTangled(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("far too many shapes lie on top of one another"),
            todo=say("keep one closed shape for each tessera"),
        )


class PageDiffers(DrawingFault):
    """A revised drawing is not of the page that the panel is made on."""

    def __init__(self, name: str, size_mm: tuple[float, float], wanted_mm: tuple[float, float]) -> None:
        (width, height), (wide, high) = size_mm, wanted_mm
        super().__init__(
            name,
            say(
                "its page of {given} is not the panel's of {wanted}",
                given=size(width, height, 1),
                wanted=size(wide, high, 1),
            ),
            todo=say("give it the panel's page, or one of the same proportion"),
        )
        self.size_mm = size_mm
        self.wanted_mm = wanted_mm


class NotWrittenWhole(DrawingFault):
    """A panel written as a drawing would not read back with all its tesserae."""

    def __init__(self, name: str, count: int, read: int) -> None:
        super().__init__(
            name,
            say("of {count} tesserae only {read} could be kept", count=count, read=read),
            todo=say("draw those again that are next to nothing, or nearly as large as the panel"),
        )
        self.count = count
        self.read = read
