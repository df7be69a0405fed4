"""A view for each kind of answer. Each is shown a question and what is known, and tells of one answer."""

from __future__ import annotations

from collections.abc import Callable

from kivy.properties import BooleanProperty, StringProperty

from bench.adhesive.label import Label
from bench.adhesive.part_words import part_word
from bench.adhesive.ratio import weighed_density_g_per_cm3
from bench.screens.labelling.questions import WAY, Question
from bench.screens.parts.choice import Choice
from bench.screens.parts.letters import LetterPad  # noqa: F401 - named by the kv file
from bench.screens.parts.plates import Rows
from bench.speech import celsius_typed, say, temperature_unit

Tell = Callable[..., object]
DECIMALS = 4  # as many as can be typed
ANY_NUMBER = 999_999.0  # what is not allowed is told in the words of the file, not by the pad


def as_written(value: float) -> float:
    """Return a number as a file has it: whole where it is whole."""
    return int(value) if value.is_integer() else value


class LabelView(Rows):
    """Ask one question. `told(value, field)` takes the answer over: field '' is the question's own."""

    title = StringProperty("")
    says = StringProperty("")
    beside_text = StringProperty("")  # an act beside the view, '' for none

    def ask(self, question: Question, label: Label, told: Tell) -> None:
        """Be turned to."""
        self.question, self.label, self.told = question, label, told
        self.title, self.says, self.beside_text = question.title, question.says, ""
        self.begin()

    def begin(self) -> None:
        """Set out the question."""

    def beside(self) -> None:
        """Do the act beside the view."""


class ChoiceView(LabelView):
    """Tap one of a few."""

    def begin(self) -> None:
        grid = self.ids.options
        grid.clear_widgets()
        first = next(iter(self.question.fields), "")
        now = self.label.way if self.question.key == WAY else self.label.get(first)
        silent = first in self.label.silent
        grid.cols = 2 if len(self.question.options) > 4 else 1
        for k, option in enumerate(self.question.options):
            chosen = option.value == now and (now is not None or silent)
            row = Choice(text=option.text, says=option.says, chosen=chosen, lines=2, large=True)
            row.test_name = f"option_{k}"
            row.bind(on_act=lambda _row, value=option.value: self.told(value))
            grid.add_widget(row)


class LettersView(LabelView):
    """Type a name."""

    def begin(self) -> None:
        self.ids.pad.begin(self.label.get(self.question.fields[0]) or "")


class NumbersView(LabelView):
    """Type one number, or two one after the other; a density may be found instead, a weight be a blend's."""

    below_zero = BooleanProperty(False)  # whether it may be

    def begin(self) -> None:
        self._typed: list[float] = []
        self._weighing = False
        self.beside_text = self._usual_beside()
        self._next()

    def _usual_beside(self) -> str:
        if self.question.weighed:
            return say("Find it: weigh 10 ml")
        return say("It is a blend") if self.question.blend else ""

    def _next(self) -> None:
        number = self.question.numbers[len(self._typed)]
        pad = self.ids.pad
        pad.title, pad.text, pad.below_zero = number.title, "", False
        pad.unit = temperature_unit() if number.celsius else number.unit
        self.below_zero = number.below_zero
        if number.below_zero:
            self.beside_text = say("Below zero")

    def use(self, value: float) -> None:
        """Take a number over; after the last the question is answered."""
        if self._weighing:
            self.told(round(weighed_density_g_per_cm3(value), 3))
            return
        if self.question.numbers[len(self._typed)].celsius:
            value = round(celsius_typed(value), DECIMALS)
        self._typed.append(round(value / 100, 6) if self.question.percent else as_written(value))
        if len(self._typed) < len(self.question.numbers):
            self._next()
        else:
            self.told(self._typed[0] if len(self._typed) == 1 else tuple(self._typed))

    def beside(self) -> None:
        if self.below_zero:
            self.ids.pad.below_zero = not self.ids.pad.below_zero
        elif self.question.weighed:
            self.told(None, "weigh")
        elif self.question.blend:
            self.told(None, "blend")

    def weigh(self) -> None:
        """Ask for the grams of ten millilitres."""
        self._weighing, self.beside_text = True, ""
        self.ids.pad.title = say("10 ml of {part}, weighed", part=part_word(self.question.weighed))
        self.ids.pad.unit, self.ids.pad.text = "g", ""


class WeighView(LabelView):
    """How a density is found on the bench: guided, one hand on the syringe."""

    def begin(self) -> None:
        part = part_word(self.question.weighed)
        self.title = say("Find the density of the {part}", part=part)
        self.ids.steps.lines = (
            say("1. Put an empty cup on the scale and set it to 0."),
            say(
                "2. Draw 10 ml of {part} into a syringe without air, and press it out into the cup.",
                part=part,
            ),
            say("3. Read the scale. The grams divided by 10 are the density."),
        )

    def done(self) -> None:
        """Type what the scale shows."""
        self.told(None, "weighed")


class BlendView(LabelView):
    """Type a blend: of each component its parts, then its equivalent weight, or that it does not react."""

    def begin(self) -> None:
        self._parts: list[tuple[float, float]] = []
        self._mass: float | None = None
        self._next()

    def _next(self) -> None:
        pad, number = self.ids.pad, len(self._parts) + 1
        pad.text = ""
        if self._mass is None:
            pad.title, pad.unit = say("Component {number}: parts by mass", number=number), ""
            self.beside_text = say("That is all") if self._parts else ""
        else:
            pad.title, pad.unit = say("Component {number}: equivalent weight", number=number), "g/eq"
            self.beside_text = say("It does not react")

    def use(self, value: float) -> None:
        """Take a number over."""
        if self._mass is None:
            self._mass = as_written(value)
        else:
            self._parts.append((self._mass, as_written(value)))
            self._mass = None
        self._next()

    def beside(self) -> None:
        if self._mass is not None:
            self.use(0.0)
        else:
            self.told(tuple(self._parts), self.question.blend)
