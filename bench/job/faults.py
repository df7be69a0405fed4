"""What a person can be told when an act is not allowed: each names the rule and what to do instead."""

from datetime import date

from bench.fault import Fault


class NoSuchSection(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(f"there is no section {number}", todo="choose one that is on the panel")


class NoSuchMix(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(f"there is no mix {number}", todo="choose one that the book knows")


class WrongStage(Fault):
    """An act was asked of a section that is not at the stage for it."""

    def __init__(self, number: int, stage: str, wanted: str, act: str) -> None:
        self.number, self.stage, self.wanted = number, stage, wanted
        super().__init__(
            f"section {number} is {stage}, and only a {wanted} section can be {act}",
            todo=f"choose a {wanted} section",
        )


class BesideSoftWork(Fault):
    """A section would be set against work that still gives way."""

    def __init__(self, number: int, soft: tuple[int, ...]) -> None:
        self.number, self.soft = number, soft
        names = " and ".join(str(n) for n in soft)
        super().__init__(
            f"section {number} lies beside section {names}, which is not firm",
            todo="wait until it is firm, or choose another section",
        )


class CupInUse(Fault):
    def __init__(self, mix: int, section: int) -> None:
        self.mix, self.section = mix, section
        super().__init__(
            f"the cup is already being made ready for section {section}",
            todo="finish that mix or put it away first",
        )


class CautionsNotRead(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            "the cautions for this mix have not been read",
            todo="read them and say so before gloves go on and resin meets hardener",
        )


class LabelNotRead(Fault):
    """The hardener's file lists no H314, and nobody has said whether its label does."""

    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            "nobody has looked whether H314 is on the hardener's label",
            todo="read the label of the hardener and say whether it is",
        )


class AlreadyStarted(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            "resin has met hardener and the clock runs",
            todo="correct first contact if it was earlier; it cannot be taken back",
        )


class NotRunning(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            f"mix {mix} is not running", todo="start it at first contact, or look it up in the book"
        )


class WrongOrder(Fault):
    """Something was told of a glue-up that cannot be so, e.g. going on without a pause."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, todo=todo)


class CountOutOfRange(Fault):
    def __init__(self, count: float, least: int, most: int, of: str) -> None:
        self.count, self.least, self.most = count, least, most
        super().__init__(f"{count:g} {of} cannot be", todo=f"give a whole number from {least} to {most}")


class NoSuchEntry(Fault):
    """Words cannot stand on this entry of the book; `seq` is its number."""

    def __init__(self, seq: int, *, taken_back: bool = False) -> None:
        self.seq, self.taken_back = seq, taken_back
        what = "that entry was taken back" if taken_back else f"no entry {seq} of this panel takes a note"
        super().__init__(what, todo="choose one that counts, or write a note of its own")


class NotLonger(Fault):
    """The book does not show that an adhesive lasts longer than its label."""

    def __init__(self, adhesive: str, exact_count: int, needed: int) -> None:
        self.adhesive, self.exact_count, self.needed = adhesive, exact_count, needed
        few = exact_count < needed
        what = f"{exact_count} mixes were seen to go stringy" if few else "the mixes seen lasted no longer"
        todo = f"wait for {needed}" if few else "keep to the label"
        super().__init__(what, where=adhesive, todo=todo)


class HoursLaying(Fault):
    def __init__(self, hours: float, most: float) -> None:
        self.hours, self.most = hours, most
        super().__init__(
            f"{hours:g} h of laying one section cannot be", todo=f"give hours, more than 0 and up to {most:g}"
        )


class TimeOutOfRange(Fault):
    """A moment was told that lies before first contact or in the time to come."""

    def __init__(self, told_s: float, most_s: float) -> None:
        self.told_s, self.most_s = told_s, most_s
        super().__init__(
            f"{told_s / 60:.1f} minutes ago is not within this glue-up",
            todo=f"give a time from now back to {most_s / 60:.1f} minutes ago",
        )


class GramsOutOfRange(Fault):
    def __init__(self, grams: float, most_g: float, part: str = "resin") -> None:
        self.grams, self.most_g, self.part = grams, most_g, part
        super().__init__(
            f"{grams:g} g of {part} cannot be right for this section",
            todo=f"weigh it in grams, more than 0 and up to {most_g:g}",
        )


class RunsAway(Fault):
    """One cup of so much would heat itself until it smokes."""

    def __init__(self, mass_g: float, cups: int, temperature_C: float) -> None:
        self.mass_g, self.cups, self.each_g = mass_g, cups, mass_g / cups
        super().__init__(
            f"{mass_g:.1f} g in one cup would run away at {temperature_C:g} °C",
            todo=f"split it: {cups} cups of {self.each_g:.1f} g, one after the other",
        )


class NothingToUndo(Fault):
    def __init__(self, why: str) -> None:
        super().__init__(why, todo="go on from here")


class NotAttachable(Fault):
    """A photo cannot be attached to this entry of the book; `seq` is its number."""

    def __init__(self, seq: int, *, taken_back: bool = False) -> None:
        self.seq, self.taken_back = seq, taken_back
        what = "that entry was taken back" if taken_back else f"entry {seq} of this panel takes no photo"
        super().__init__(what, todo="choose an entry that counts")


class UnknownAdhesive(Fault):
    """A tessera asks for an adhesive that nobody has."""

    def __init__(self, name: str, tessera: str, choices: tuple[str, ...]) -> None:
        self.name, self.tessera, self.choices = name, tessera, choices
        super().__init__(
            f"its adhesive '{name}' is not known",
            where=f"tessera {tessera}",
            todo=f"choose one of {', '.join(choices)}, or give a file",
        )


class NoSuchPanel(Fault):
    def __init__(self, panel_id: int) -> None:
        self.panel_id = panel_id
        super().__init__(f"the book holds no panel {panel_id}", todo="open a drawing first")


class DraftUnreadable(Fault):
    """What a draft says was written by another version; its picture is still there."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(
            "what was set for this picture cannot be read",
            where=name,
            todo="set it anew; the picture is still here",
        )


class SizeNotTold(Fault):
    """A picture has no size of its own, unless it was scanned."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(
            "its true size is not known", where=name, todo="type the true width and height of the panel"
        )


class ShapedTooLarge(Fault):
    """A section shaped by hand would not keep the promise; its own probability says so."""

    def __init__(self, number: int, sure: float, promised: float) -> None:
        self.number, self.sure, self.promised = number, sure, promised
        super().__init__(
            f"section {number} would be sure of {100 * sure:.0f} in 100; promised are {100 * promised:.0f}",
            todo="take fewer pieces, or promise less in the bench's settings",
        )


class AcrossASeam(Fault):
    """A section would lie on two boards."""

    def __init__(self, number: int, boards: tuple[str, ...]) -> None:
        self.number, self.boards = number, boards
        super().__init__(
            f"section {number} would lie across the seam of boards {' and '.join(b[:40] for b in boards)}",
            todo="keep to one board",
        )


class FigureOutOfRange(Fault):
    """A figure of finishing that cannot be."""

    def __init__(self, value: float, least: float, most: float) -> None:
        self.value, self.least, self.most = value, least, most
        super().__init__(f"{value:g} cannot be", todo=f"give {least:g} to {most:g}")


class CupGrams(Fault):
    """A weighed cup that cannot be."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, where="cup", todo=todo)


class BottleGrams(Fault):
    def __init__(self, what: str, grams: float, most_g: float, *, nothing: bool) -> None:
        self.grams, self.most_g = grams, most_g
        least = "from 0" if nothing else "more than 0"
        todo = f"give grams, {least} up to {most_g:g}"
        super().__init__(f"{what} cannot be {grams:g} g", where="bottle", todo=todo)


class LotUnreadable(Fault):
    def __init__(self, lot: str, longest: int) -> None:
        self.lot = lot
        super().__init__(
            f"'{lot[:longest]}{' …' if len(lot) > longest else ''}' is no lot that can be kept",
            where="lot",
            todo=f"give up to {longest} letters and digits, as they stand on the bottle",
        )


class DayOutOfRange(Fault):
    def __init__(self, what: str, day: date, first: date, last: date) -> None:
        self.day, self.first, self.last = day, first, last
        super().__init__(f"{day} cannot be", where=what, todo=f"give a day from {first} to {last}")


class NoSuchBottle(Fault):
    def __init__(self, number: int, *, emptied: bool) -> None:
        self.number = number
        what = f"bottle {number} is empty" if emptied else f"there is no bottle {number}"
        super().__init__(what, todo="choose one that is in use")


class NotOpen(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(f"bottle {number} stands unopened", todo="open it first")


class AlreadyOpen(Fault):
    def __init__(self, number: int, opened: date) -> None:
        self.number, self.opened = number, opened
        super().__init__(f"bottle {number} is open since {opened}", todo="weigh it, or say that it is empty")


class OtherProduct(Fault):
    def __init__(self, number: int, holds: str, wanted: str) -> None:
        self.number, self.holds, self.wanted = number, holds, wanted
        what = f"bottle {number} holds {holds}, and the section takes {wanted}"
        super().__init__(what, todo=f"choose a bottle of {wanted}")


class BottleInUse(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        todo = "weigh it or say that it is empty; it stays in the book"
        super().__init__(f"a mix came out of bottle {number}", todo=todo)


class LotPast(Fault):
    """A mix would come out of a bottle that is past its date, and nobody said that this is known."""

    def __init__(self, mix: int, words: tuple[str, ...]) -> None:
        self.mix = mix
        super().__init__(" ".join(words).rstrip("."), todo="take another bottle, or say that you know")


class NoSuchZone(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(f"there is no zone {number}", todo="choose one that is on the panel")


class NothingSet(Fault):
    def __init__(self) -> None:
        super().__init__("nothing is set yet", where="edge", todo="set a section first, then trace its edge")


class EdgeTooShort(Fault):
    def __init__(self, least_mm: float) -> None:
        super().__init__(
            f"no line is as long as {least_mm:g} mm", where="edge", todo="draw along the edge of what is set"
        )
