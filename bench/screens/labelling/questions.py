"""Which questions a label raises, which of them are answered, and how each answer is said."""

from __future__ import annotations

from bench.adhesive.label import Label
from bench.screens.labelling.asked import questions
from bench.screens.labelling.model import WAY, Question
from bench.speech import plain_temperature, say, temperatures

__all__ = ["WAY", "Question", "answer_words", "is_answered", "question_of", "questions", "questions_for"]


def questions_for(label: Label) -> list[Question]:
    """Return the questions that this label raises, in order."""
    ready = label.get("kind") == "ready"
    return [q for q in questions() if not (q.two_part and ready) and q.way in ("", label.way)]


def is_answered(label: Label, question: Question) -> bool:
    """Tell whether a question was answered, be it that the label does not say."""
    if question.key == WAY:
        return bool(label.way)
    return any(label.knows(field) for field in question.fields)


def question_of(label: Label, field: str) -> Question | None:
    """Return the question about a field of the file, or about one within it."""
    asked = questions_for(label)
    for question in asked:
        if any(f == field or f.startswith(f"{field}.") or field.startswith(f"{f}.") for f in question.fields):
            return question
    of_ratio = field.startswith("ratio")
    return next((question for question in asked if of_ratio and question.key == WAY), None)


def answer_words(label: Label, question: Question) -> str:
    """Say an answer, '–' while there is none."""
    if question.key == WAY:
        return next((o.text for o in question.options if o.value == label.way), "–")
    field = next((f for f in question.fields if f in label.answers), "")
    if not field:
        return say("It does not say") if is_answered(label, question) else "–"
    value = label.get(field)
    if field == question.blend:
        told = (say("{parts:g} at {weight:g}", parts=parts, weight=weight) for parts, weight in value)
        return say("A blend: {parts}", parts=", ".join(told))
    if question.view == "codes":
        return ", ".join(value)
    if question.view == "numbers":
        return _numbers_words(question, value if isinstance(value, tuple) else (value,))
    return next((o.text for o in question.options if o.value == value), str(value))


def _numbers_words(question: Question, values: tuple[float, ...]) -> str:
    """Say one number or two with their unit."""
    first = question.numbers[0]
    if first.celsius:
        return plain_temperature(values[0]) if len(values) == 1 else temperatures(*values)
    if question.percent:
        values = tuple(100 * x for x in values)
    if len(values) > 1:
        return say("{one:g} : {other:g}", one=values[0], other=values[1])
    return say("{value:g} {unit}", value=values[0], unit=first.unit)
