"""Long text is cut where a reader would rest."""

import pytest

from bench.screens.parts.choice import short
from bench.screens.parts.reading import _cut

HOT = (
    "Wear gloves, and keep the cup from the window when sun is on it. A large cup warms itself, and "
    "then it goes sooner than its label says. Spread it flat at once where you cannot set it."
)


def test_a_long_text_is_cut_after_sentences() -> None:
    assert _cut(HOT) == [
        "Wear gloves, and keep the cup from the window when sun is on it. A large cup warms itself, and "
        "then it goes sooner than its label says.",
        "Spread it flat at once where you cannot set it.",
    ]


def test_a_long_sentence_is_cut_after_a_clause_and_else_between_words() -> None:
    clauses = ", ".join(["the bowl of lemons on its blue cloth"] * 8)
    assert all(part.endswith("cloth,") for part in _cut(clauses)[:-1])
    words = " ".join(["lemon"] * 60)
    assert all(set(part.split()) == {"lemon"} and len(part) <= 160 for part in _cut(words))


@pytest.mark.parametrize("mark", ["z. B. im", "am 4. Mai", "Nr. 5"])
def test_a_point_that_ends_no_sentence_is_no_place_to_cut(mark: str) -> None:
    text = f"{'Zitronen ' * 15}liegen dort {mark} {'Korb ' * 20}".strip()
    assert mark in " ".join(_cut(text))
    assert not any(part.endswith(("B.", "z.", "4.")) for part in _cut(text))


@pytest.mark.parametrize("text", [HOT, "x" * 400, "", "One word.", " ".join(["yellow"] * 90)])
def test_nothing_is_lost_by_cutting_and_no_part_is_longer_than_it_may_be(text: str) -> None:
    assert "".join(_cut(text)).replace(" ", "") == text.replace(" ", "")
    assert all(len(part) <= 160 for part in _cut(text))


def test_what_is_shortened_ends_with_a_whole_word() -> None:
    entry = "Section 5: 60 pieces set in 16:57, all placed"
    assert short(entry, 40) == "Section 5: 60 pieces set in 16:57, all …"
    assert short(entry, 36) == "Section 5: 60 pieces set in 16:57 …"
    assert short("lemons.svg", 10) == "lemons.svg"


def test_a_single_word_that_is_too_long_is_cut_within() -> None:
    assert short("x" * 80, 20) == "x" * 18 + " …"
