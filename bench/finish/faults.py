"""What can be wrong with sheets, stock and shares; each fault keeps the offending data."""

from __future__ import annotations

from collections.abc import Sequence

from bench.fault import Fault


class FinishFault(Fault):
    """Any mistake in what glass and finishing are asked for."""


class BadSheet(FinishFault):
    """A size that no sheet can have."""

    def __init__(self, text: str, *, where: str = "sheet") -> None:
        super().__init__(
            f"'{text[:40]}' is no size of a sheet",
            where=where,
            todo="give width and height in mm from 20 to 5000, e.g. 300x300",
        )
        self.text = text


class TooManySizes(FinishFault):
    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            f"{count} sizes of sheets are too many", where="sheet", todo=f"give at most {most} sizes"
        )
        self.count = count


class BadCut(FinishFault):
    """A sheet used up and what was laid of it that cannot belong together."""

    def __init__(self, used_mm2: float, laid_mm2: float) -> None:
        super().__init__(
            f"{laid_mm2:g} mm² laid from {used_mm2:g} mm² of sheet cannot be",
            where="cutting waste",
            todo="give the sheet used, more than 0, and no more laid than that",
        )
        self.used_mm2, self.laid_mm2 = used_mm2, laid_mm2


class AmountOutOfRange(FinishFault):
    """A figure that finishing cannot reckon with."""

    def __init__(self, name: str, value: float, allowed: str) -> None:
        super().__init__(f"{value:g} cannot be", where=name, todo=f"give {allowed}")
        self.name, self.value = name, value


class TooColdForGrout(FinishFault):
    def __init__(self, temperature_C: float, least_C: float) -> None:
        super().__init__(
            f"at {temperature_C:g} °C grout does not cure",
            where="grout",
            todo=f"warm the room to {least_C:g} °C or more, and tell Setup how warm it is",
        )
        self.temperature_C = temperature_C


class JointsDeeperThanGlass(FinishFault):
    def __init__(self, depth_mm: float, glass_mm: float) -> None:
        super().__init__(
            f"joints {depth_mm:g} mm deep are deeper than the glass, {glass_mm:g} mm",
            where="depth",
            todo="give the glass less the adhesive in the joint",
        )
        self.depth_mm, self.glass_mm = depth_mm, glass_mm


class JointsWiderThanPieces(FinishFault):
    def __init__(self, joint_mm: float, piece_mm: float) -> None:
        super().__init__(
            f"joints of {joint_mm:.1f} mm are wider than pieces of {piece_mm:.1f} mm",
            where="joints",
            todo="check the size of the drawing, or mark the panel's outline",
        )
        self.joint_mm, self.piece_mm = joint_mm, piece_mm


class ZoneWithoutGrout(FinishFault):
    """A zone that has no joint to fill."""

    def __init__(self, name: str) -> None:
        super().__init__("no joint lies in it, so it leaves no grout", where=name, todo="add pieces to it")
        self.name = name


class NamelessColour(FinishFault):
    def __init__(self, of: str) -> None:
        super().__init__(f"the {of} has no name", where="colour", todo="give the name on the bag or bottle")
        self.of = of


class UnknownColour(FinishFault):
    def __init__(self, name: str, known: Sequence[str]) -> None:
        super().__init__(
            f"no colour is known for {name}", where="colour", todo=f"choose one of {', '.join(known)}"
        )
        self.name = name


class TooManyColours(FinishFault):
    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            f"{count} colours are more than can be compared", where="colour", todo=f"give {most} or fewer"
        )
        self.count, self.most = count, most


class NotOnTile(FinishFault):
    """A place that lies off the squared-up photo."""

    def __init__(self, at_mm: tuple[float, float]) -> None:
        super().__init__("that place is not on the tile", where="sample tile", todo="tap between its corners")
        self.at_mm = at_mm


class NotWhiteCard(FinishFault):
    """A white point that cannot be one."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, where="sample tile", todo=todo)
