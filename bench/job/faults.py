"""What a person can be told when an act is not allowed: each names the rule and what to do instead."""

from datetime import date
from functools import reduce

from bench.fault import Fault
from bench.job.key_words import day_name, part_name, section_is, stage_rule
from bench.speech import plain_length, plain_temperature, said, say, say_n


class NoSuchSection(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("there is no section {number}", number=number), todo=say("choose one that is on the panel")
        )


class NoSuchMix(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("there is no mix {number}", number=number), todo=say("choose one that the book knows")
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


class CupInUse(Fault):
    def __init__(self, mix: int, section: int) -> None:
        self.mix, self.section = mix, section
        super().__init__(
            say("the cup is already being made ready for section {section}", section=section),
            todo=say("finish that mix or put it away first"),
        )


class CautionsNotRead(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("the cautions for this mix have not been read"),
            todo=say("read them and say so before gloves go on and resin meets hardener"),
        )


class LabelNotRead(Fault):
    """The hardener's file lists no H314, and nobody has said whether its label does."""

    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("nobody has looked whether H314 is on the hardener's label"),
            todo=say("read the label of the hardener and say whether it is"),
        )


class AlreadyStarted(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("resin has met hardener and the clock runs"),
            todo=say("correct first contact if it was earlier; it cannot be taken back"),
        )


class NotRunning(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("mix {mix} is not running", mix=mix),
            todo=say("start it at first contact, or look it up in the book"),
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


class TimeOutOfRange(Fault):
    """A moment was told that lies before first contact or in the time to come."""

    def __init__(self, told_s: float, most_s: float) -> None:
        self.told_s, self.most_s = told_s, most_s
        super().__init__(
            say("{told:.1f} minutes ago is not within this glue-up", told=told_s / 60),
            todo=say("give a time from now back to {most:.1f} minutes ago", most=most_s / 60),
        )


class GramsOutOfRange(Fault):
    def __init__(self, grams: float, most_g: float, part: str = "resin") -> None:
        self.grams, self.most_g, self.part = grams, most_g, part
        super().__init__(
            say("{grams:g} g of {part} cannot be right for this section", grams=grams, part=part_name(part)),
            todo=say("weigh it in grams, more than 0 and up to {most_g:g}", most_g=most_g),
        )


class RunsAway(Fault):
    """One cup of so much would heat itself until it smokes."""

    def __init__(self, mass_g: float, cups: int, temperature_C: float) -> None:
        self.mass_g, self.cups, self.each_g = mass_g, cups, mass_g / cups
        super().__init__(
            say(
                "{mass_g:.1f} g in one cup would run away at {warmth}",
                mass_g=mass_g,
                warmth=plain_temperature(temperature_C),
            ),
            todo=say(
                "split it: {cups} cups of {each_g:.1f} g, one after the other",
                cups=cups,
                each_g=self.each_g,
            ),
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


class CupGrams(Fault):
    """A weighed cup that cannot be."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, where=say("cup"), todo=todo)


class BottleGrams(Fault):
    def __init__(self, what: str, grams: float, most_g: float, *, nothing: bool) -> None:
        self.grams, self.most_g = grams, most_g
        todo = say("give grams, more than 0 up to {most_g:g}", most_g=most_g)
        if nothing:
            todo = say("give grams, from 0 up to {most_g:g}", most_g=most_g)
        told = say("{what} cannot be {grams:g} g", what=what, grams=grams)
        super().__init__(told, where=say("bottle"), todo=todo)


class LotUnreadable(Fault):
    def __init__(self, lot: str, longest: int) -> None:
        self.lot = lot
        cut = f"{lot[:longest]} …" if len(lot) > longest else lot
        super().__init__(
            say("'{lot}' is no lot that can be kept", lot=cut),
            where=say("lot"),
            todo=say(
                "give up to {longest} letters and digits, as they stand on the bottle", longest=longest
            ),
        )


class DayOutOfRange(Fault):
    def __init__(self, what: str, day: date, first: date, last: date) -> None:
        self.day, self.first, self.last = day, first, last
        super().__init__(
            say("{day} cannot be", day=day),
            where=day_name(what),
            todo=say("give a day from {first} to {last}", first=first, last=last),
        )


class NoSuchBottle(Fault):
    def __init__(self, number: int, *, emptied: bool) -> None:
        self.number = number
        none = say("there is no bottle {number}", number=number)
        what = say("bottle {number} is empty", number=number) if emptied else none
        super().__init__(what, todo=say("choose one that is in use"))


class NotOpen(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(say("bottle {number} stands unopened", number=number), todo=say("open it first"))


class AlreadyOpen(Fault):
    def __init__(self, number: int, opened: date) -> None:
        self.number, self.opened = number, opened
        super().__init__(
            say("bottle {number} is open since {opened}", number=number, opened=opened),
            todo=say("weigh it, or say that it is empty"),
        )


class OtherProduct(Fault):
    def __init__(self, number: int, holds: str, wanted: str) -> None:
        self.number, self.holds, self.wanted = number, holds, wanted
        what = say(
            "bottle {number} holds {holds}, and the section takes {wanted}",
            number=number,
            holds=said(holds),
            wanted=said(wanted),
        )
        super().__init__(what, todo=say("choose a bottle of {wanted}", wanted=said(wanted)))


class BottleInUse(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        todo = say("weigh it or say that it is empty; it stays in the book")
        super().__init__(say("a mix came out of bottle {number}", number=number), todo=todo)


class LotPast(Fault):
    """A mix would come out of a bottle that is past its date, and nobody said that this is known."""

    def __init__(self, mix: int, words: tuple[str, ...]) -> None:
        self.mix = mix
        super().__init__(" ".join(words).rstrip("."), todo=say("take another bottle, or say that you know"))


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
