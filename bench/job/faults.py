"""What a person can be told when an act is not allowed: each names the rule and what to do instead."""

from functools import reduce

from bench.fault import Fault
from bench.job.key_words import section_is, stage_rule
from bench.speech import plain_length, say, say_n


class NoSuchSection(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("there is no section {number}", number=number), todo=say("choose one that is on the panel")
        )


class WrongStage(Fault):
    """An act was asked of a section that is not at the stage for it; `wanted` and `act` are keys."""

    def __init__(self, number: int, stage: str, wanted: str, act: str) -> None:
        self.number, self.stage, self.wanted = number, stage, wanted
        rule, todo = stage_rule(wanted, act)
        super().__init__(say("{is_so}, and {rule}", is_so=section_is(number, stage), rule=rule), todo=todo)


class BesideSoftWork(Fault):
    """A section would be set against work that still gives way."""

    def __init__(self, number: int, soft: tuple[int, ...]) -> None:
        self.number, self.soft = number, soft
        names = reduce(lambda this, that: say("{this} and {that}", this=this, that=that), map(str, soft))
        super().__init__(
            say_n(
                "section {number} lies beside section {sections}, which is not firm",
                "section {number} lies beside section {sections}, which is not firm",
                len(soft),
                number=number,
                sections=names,
            ),
            todo=say("wait until it is firm, or choose another section"),
        )


class WrongOrder(Fault):
    """Something was told of a glue-up that cannot be so, e.g. going on without a pause."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, todo=todo)


class CountOutOfRange(Fault):
    """A count that cannot be, of pieces or of patches; left: of those left over."""

    def __init__(self, count: float, least: int, most: int, of: str, *, left: bool = False) -> None:
        self.count, self.least, self.most = count, least, most
        if of == "patches":
            what = say("{count:g} patches left cannot be", count=count) if left else ""
            what = what or say("{count:g} patches cannot be", count=count)
        else:
            what = say("{count:g} pieces left cannot be", count=count) if left else ""
            what = what or say("{count:g} pieces cannot be", count=count)
        super().__init__(what, todo=say("give a whole number from {least} to {most}", least=least, most=most))


class NoSuchEntry(Fault):
    """Words cannot stand on this entry of the book; `seq` is its number."""

    def __init__(self, seq: int, *, taken_back: bool = False) -> None:
        self.seq, self.taken_back = seq, taken_back
        none = say("no entry {seq} of this panel takes a note", seq=seq)
        what = say("that entry was taken back") if taken_back else none
        super().__init__(what, todo=say("choose one that counts, or write a note of its own"))


class NotLonger(Fault):
    """The book does not show that an adhesive lasts longer than its label."""

    def __init__(self, adhesive: str, exact_count: int, needed: int) -> None:
        self.adhesive, self.exact_count, self.needed = adhesive, exact_count, needed
        few = exact_count < needed
        what, todo = say("the mixes seen lasted no longer"), say("keep to the label")
        if few:
            what = say_n(
                "{count} mix was seen to go stringy", "{count} mixes were seen to go stringy", exact_count
            )
            todo = say("wait for {count}", count=needed)
        super().__init__(what, where=adhesive, todo=todo)


class HoursLaying(Fault):
    def __init__(self, hours: float, most: float) -> None:
        self.hours, self.most = hours, most
        super().__init__(
            say("{hours:g} h of laying one section cannot be", hours=hours),
            todo=say("give hours, more than 0 and up to {most:g}", most=most),
        )


class NothingToUndo(Fault):
    def __init__(self, why: str) -> None:
        super().__init__(why, todo=say("go on from here"))


class NotAttachable(Fault):
    """A photo cannot be attached to this entry of the book; `seq` is its number."""

    def __init__(self, seq: int, *, taken_back: bool = False) -> None:
        self.seq, self.taken_back = seq, taken_back
        none = say("entry {seq} of this panel takes no photo", seq=seq)
        what = say("that entry was taken back") if taken_back else none
        super().__init__(what, todo=say("choose an entry that counts"))


class UnknownAdhesive(Fault):
    """A tessera asks for an adhesive that nobody has."""

    def __init__(self, name: str, tessera: str, choices: tuple[str, ...]) -> None:
        self.name, self.tessera, self.choices = name, tessera, choices
        super().__init__(
            say("its adhesive '{name}' is not known", name=name),
            where=say("tessera {name}", name=tessera),
            todo=say("choose one of {choices}, or give a file", choices=", ".join(choices)),
        )


class NoSuchPanel(Fault):
    def __init__(self, panel_id: int) -> None:
        self.panel_id = panel_id
        super().__init__(
            say("the book holds no panel {panel_id}", panel_id=panel_id), todo=say("open a drawing first")
        )


class DraftUnreadable(Fault):
    """What a draft says was written by another version; its picture is still there. title: its name, said."""

    def __init__(self, name: str, title: str) -> None:
        self.name = name
        super().__init__(
            say("what was set for this picture cannot be read"),
            where=title,
            todo=say("set it anew; the picture is still here"),
        )


class SizeNotTold(Fault):
    """A picture has no size of its own, unless it was scanned."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(
            say("its true size is not known"),
            where=name,
            todo=say("type the true width and height of the panel"),
        )


class ShapedTooLarge(Fault):
    """A section shaped by hand would not keep the promise; its own probability says so."""

    def __init__(self, number: int, sure: float, promised: float) -> None:
        self.number, self.sure, self.promised = number, sure, promised
        super().__init__(
            say(
                "section {number} would be sure of {sure:.0f} in 100; promised are {promised:.0f}",
                number=number,
                sure=100 * sure,
                promised=100 * promised,
            ),
            todo=say("take fewer pieces, or promise less in the bench's settings"),
        )


def _short(names: tuple[str, ...]) -> list[str]:
    return [name[:40] for name in names]


class AcrossASeam(Fault):
    """A section would lie on two boards."""

    def __init__(self, number: int, boards: tuple[str, ...]) -> None:
        self.number, self.boards = number, boards
        names = reduce(lambda this, that: say("{this} and {that}", this=this, that=that), _short(boards))
        super().__init__(
            say("section {number} would lie across the seam of boards {boards}", number=number, boards=names),
            todo=say("keep to one board"),
        )


class FigureOutOfRange(Fault):
    """A figure of finishing that cannot be."""

    def __init__(self, value: float, least: float, most: float) -> None:
        self.value, self.least, self.most = value, least, most
        super().__init__(
            say("{value:g} cannot be", value=value),
            todo=say("give {least:g} to {most:g}", least=least, most=most),
        )


class NoSuchZone(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("there is no zone {number}", number=number), todo=say("choose one that is on the panel")
        )


class NothingSet(Fault):
    def __init__(self) -> None:
        super().__init__(
            say("nothing is set yet"),
            where=say("edge"),
            todo=say("set a section first, then trace its edge"),
        )


class EdgeTooShort(Fault):
    def __init__(self, least_mm: float) -> None:
        super().__init__(
            say("no line is as long as {length}", length=plain_length(least_mm)),
            where=say("edge"),
            todo=say("draw along the edge of what is set"),
        )
