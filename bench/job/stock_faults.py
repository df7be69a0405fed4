"""What a person can be told of bottles that cannot be: the rule, and what to do instead."""

from datetime import date

from bench.fault import Fault
from bench.job.key_words import day_name
from bench.speech import said, say


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
