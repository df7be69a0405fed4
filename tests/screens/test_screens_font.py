"""The bundled typeface has a glyph for whatever is shown; the drawing library would show a silent box."""

import ast
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from bench.resources import resource

FONTS = ("B612-Regular.otf", "B612-Bold.otf")
HOUSE = Path(__file__).resolve().parents[2]


def glyphs(name: str) -> set[int]:
    return set(TTFont(str(resource("assets", "fonts", name)), recalcTimestamp=False).getBestCmap())


def shown_strings() -> dict[str, str]:
    """Every string literal of the house but docstrings, and every kv and table file, by where it stands."""
    found = {}
    for path in sorted((HOUSE / "bench").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        bare = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in bare:
                found[f"{path.name}:{node.lineno}"] = node.value
    for pattern in ("kv/*.kv", "shared/*.toml", "shared/*.json", "assets/adhesives/*.toml"):
        for path in HOUSE.glob(pattern):
            found[path.name] = path.read_text(encoding="utf-8")
    for path in HOUSE.glob("assets/words/*/*/*.po"):
        found[str(path.parent.parent.name)] = path.read_text(encoding="utf-8")
    return found


@pytest.mark.parametrize("name", FONTS)
def test_every_character_shown_has_a_glyph(name: str) -> None:
    known = glyphs(name)
    missing = {
        where: sorted({c for c in text if c.isprintable() and ord(c) not in known})
        for where, text in shown_strings().items()
    }
    assert {where: signs for where, signs in missing.items() if signs} == {}


@pytest.mark.parametrize("name", FONTS)
def test_english_and_german_and_the_signs_of_measure_have_glyphs(name: str) -> None:
    wanted = "ÄÖÜäöüßéè°²³½±×÷−–—…·→←↑↓≤≥µ‘’“”„‚"
    assert [sign for sign in wanted if ord(sign) not in glyphs(name)] == []


@pytest.mark.parametrize("name", FONTS)
def test_numerals_are_equally_wide_so_that_a_countdown_does_not_jitter(name: str) -> None:
    font = TTFont(str(resource("assets", "fonts", name)))
    names = font.getBestCmap()
    assert len({font["hmtx"][names[ord(digit)]][0] for digit in "0123456789"}) == 1


@pytest.mark.parametrize("name", FONTS)
def test_the_typeface_may_be_shipped_and_its_licence_travels_with_it(name: str) -> None:
    font = TTFont(str(resource("assets", "fonts", name)))
    assert "SIL Open Font License, Version 1.1" in font["name"].getDebugName(13)
    assert "SIL OPEN FONT LICENSE Version 1.1" in resource("assets", "fonts", "OFL.txt").read_text()
