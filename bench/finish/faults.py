"""What can be wrong with sheets, stock and shares; each fault keeps the offending data."""

from __future__ import annotations

from collections.abc import Sequence

from bench.fault import Fault
from bench.finish.zone_called import zone_called
from bench.speech import length, plain_length, plain_temperature, say


class FinishFault(Fault):
    """Any mistake in what glass and finishing are asked for."""


class BadSheet(FinishFault):
    """A size that no sheet can have."""

    def __init__(self, text: str, *, where: str = "") -> None:
        super().__init__(
            say("'{size}' is no size of a sheet", size=text[:40]),
            where=where or say("sheet"),
            todo=say("give width and height in mm from 20 to 5000, e.g. 300x300"),
        )
        self.text = text


class TooManySizes(FinishFault):
    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            say("{count} sizes of sheets are too many", count=count),
            where=say("sheet"),
            todo=say("give at most {most} sizes", most=most),
        )
        self.count = count


class BadCut(FinishFault):
    """A sheet used up and what was laid of it that cannot belong together."""

    def __init__(self, used_mm2: float, laid_mm2: float) -> None:
        super().__init__(
            say("{laid:g} mm² laid from {used:g} mm² of sheet cannot be", laid=laid_mm2, used=used_mm2),
            where=say("cutting waste"),
            todo=say("give the sheet used, more than 0, and no more laid than that"),
        )
        self.used_mm2, self.laid_mm2 = used_mm2, laid_mm2


class AmountOutOfRange(FinishFault):
    """A figure that finishing cannot reckon with; name and allowed in the language spoken."""

    def __init__(self, name: str, value: float, allowed: str) -> None:
        super().__init__(
            say("{value:g} cannot be", value=value),
            where=name,
            todo=say("give {allowed}", allowed=allowed),
        )
        self.name, self.value = name, value


class TooColdForGrout(FinishFault):
    def __init__(self, temperature_C: float, least_C: float) -> None:
        super().__init__(
            say("at {temperature} grout does not cure", temperature=plain_temperature(temperature_C)),
            where=say("grout"),
            todo=say(
                "warm the room to {least} or more, and tell Setup how warm it is",
                least=plain_temperature(least_C),
            ),
        )
        self.temperature_C = temperature_C


class JointsDeeperThanGlass(FinishFault):
    def __init__(self, depth_mm: float, glass_mm: float) -> None:
        super().__init__(
            say(
                "joints {depth} deep are deeper than the glass, {glass}",
                depth=plain_length(depth_mm),
                glass=plain_length(glass_mm),
            ),
            where=say("depth"),
            todo=say("give the glass less the adhesive in the joint"),
        )
        self.depth_mm, self.glass_mm = depth_mm, glass_mm


class JointsWiderThanPieces(FinishFault):
    def __init__(self, joint_mm: float, piece_mm: float) -> None:
        super().__init__(
            say(
                "joints of {joint} are wider than pieces of {piece}",
                joint=length(joint_mm, 1),
                piece=length(piece_mm, 1),
            ),
            where=say("joints"),
            todo=say("check the size of the drawing, or mark the panel's outline"),
        )
        self.joint_mm, self.piece_mm = joint_mm, piece_mm


class ZoneWithoutGrout(FinishFault):
    """A zone that has no joint to fill."""

    def __init__(self, name: str) -> None:
        super().__init__(
            say("no joint lies in it, so it leaves no grout"),
            where=zone_called(name),
            todo=say("add pieces to it"),
        )
        self.name = name


class NamelessColour(FinishFault):
    """of: zone, grout, ink, or any other word for either of the last two."""

    def __init__(self, of: str) -> None:
        what = {
            "zone": say("the zone has no name"),
            "grout": say("the grout has no name"),
            "ink": say("the ink has no name"),
        }.get(of, say("the grout or ink has no name"))
        super().__init__(what, where=say("colour"), todo=say("give the name on the bag or bottle"))
        self.of = of


class UnknownColour(FinishFault):
    def __init__(self, name: str, known: Sequence[str]) -> None:
        super().__init__(
            say("no colour is known for {name}", name=name),
            where=say("colour"),
            todo=say("choose one of {names}", names=", ".join(known)),
        )
        self.name = name


class TooManyColours(FinishFault):
    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            say("{count} colours are more than can be compared", count=count),
            where=say("colour"),
            todo=say("give {most} or fewer", most=most),
        )
        self.count, self.most = count, most


class NotOnTile(FinishFault):
    """A place that lies off the squared-up photo."""

    def __init__(self, at_mm: tuple[float, float]) -> None:
        super().__init__(
            say("that place is not on the tile"),
            where=say("sample tile"),
            todo=say("tap between its corners"),
        )
        self.at_mm = at_mm


class NotWhiteCard(FinishFault):
    """A white point that cannot be one; both texts in the language spoken."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, where=say("sample tile"), todo=todo)
