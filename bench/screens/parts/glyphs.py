"""Show a text with what the typeface has: its lack would be a silent box in a maker's own name.

Only what is drawn is changed, never what is kept. Nothing here knows of Kivy.
"""

from __future__ import annotations

from functools import cache, lru_cache

# The code points that both cuts of the typeface have, from-to in hexadecimal; a test reads the fonts.
RANGES = (
    "20-7e a0-ff 152-153 160-161 178 192 2c6-2c7 2d8-2dd 391-39f 3a1 3a3-3a9 3b1-3c0 3c2-3c9 3d1-3d2 "
    "3d5-3d6 2010 2013-2016 2018-201a 201c-201e 2020-2023 2026 2030-2035 2039-203a 2042 2051 2070-2071 "
    "2074-208e 20ac 20b9 2103 2109 2111 2113 2118 211c 2122 2126 212b 2134-2135 2153-216b 2170-217b "
    "2190-2199 21a9-21aa 21b3 21b5-21b7 21d0-21d9 21de-21e3 21e7 21ea 2200-2205 2207-2209 220b-220c "
    "2212-2213 2218 221a 221d-221e 2222 2225 2227-222b 222e 2234-2235 223c 2243 2245 2248 2259 2260-2261 "
    "2264-2265 2282-2283 2286-2287 2295-2298 22a5 22c6 22ee 2302 2308-230b 231c-231f 25b6-25b9 25bc-25bf "
    "25c9 25ce-25d3 2600-2603 2605 260e 2610-2612 2639-263a 263c 263e 2660-2663 2690-2691 26a0-26a1 "
    "2708-2709 2713 2780-2794 e000-e007 e020-e029 e040-e043 e060-e06e e080-e08e e0a0-e0b2 e0d0-e0d1 "
    "fb00-fb06"
)
UNKNOWN = "?"

# Letters that are no base letter with a mark, by code point: Latin ones, then Cyrillic as it is romanised.
_LIKE = {
    **{0x110: "D", 0x111: "d", 0x126: "H", 0x127: "h", 0x131: "i", 0x138: "k", 0x141: "L", 0x142: "l"},
    **{0x14A: "N", 0x14B: "n", 0x166: "T", 0x167: "t", 0x18F: "E", 0x259: "e", 0x1E9E: "SS", 0x2011: "-"},
    **{0x404: "Ie", 0x406: "I", 0x408: "J", 0x454: "ie", 0x456: "i", 0x458: "j", 0x490: "G", 0x491: "g"},
    **{0x2028: " ", 0x2029: " ", 0x2E3: "x", 0x2BC: "'", 0x2BB: "'"},
}
_CYRILLIC = (  # from 0x430 on
    *("a", "b", "v", "g", "d", "e", "zh", "z", "i", "i", "k", "l", "m", "n", "o", "p"),
    *("r", "s", "t", "u", "f", "kh", "ts", "ch", "sh", "shch", "", "y", "", "e", "yu", "ya"),
)
_CYRILLIC_SMALL = 0x430


@cache
def covered() -> frozenset[int]:
    """Return the code points that the typeface has."""
    ends = ([int(end, 16) for end in part.split("-")] for part in RANGES.split())
    return frozenset(point for first, *last in ends for point in range(first, (last or [first])[0] + 1))


@cache
def _like() -> dict[int, str]:
    small = {_CYRILLIC_SMALL + k: word for k, word in enumerate(_CYRILLIC)}
    large = {point - 0x20: word.capitalize() for point, word in small.items()}
    return {**small, **large, **_LIKE}


def drawable(text: str) -> str:
    """Return a text as the typeface can draw it: base letters where it lacks a mark, else a question mark."""
    return text if text.isascii() else _drawable(text)


@lru_cache(maxsize=4096)
def _drawable(text: str) -> str:
    if all(map(_is_drawn, text)):
        return text  # as German is, at a start too: that costs no import
    from unicodedata import normalize

    return "".join(map(_sign, normalize("NFC", text)))


def _is_drawn(sign: str) -> bool:
    return ord(sign) < 0x80 or ord(sign) in covered()


def _sign(sign: str) -> str:
    from unicodedata import category, normalize

    if _is_drawn(sign):
        return sign
    if ord(sign) in _like():
        return _like()[ord(sign)]
    if category(sign) in ("Mn", "Me", "Cf", "Cc"):
        return ""  # marks without a letter, and what has no shape of its own
    apart = normalize("NFKD", sign)
    return UNKNOWN if apart == sign else "".join(map(_sign, apart))
