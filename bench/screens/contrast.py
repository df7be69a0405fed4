"""Contrast of two colours, as the Web Content Accessibility Guidelines define it."""

from collections.abc import Sequence

TEXT_CONTRAST = 7.0  # WCAG 2.2, success criterion 1.4.6 (AAA), text of any size


def rgb(code: str) -> tuple[float, float, float]:
    """Return '#rrggbb' as three numbers from 0 to 1; anything else raises ValueError."""
    if len(code) != 7 or code[0] != "#":
        raise ValueError(f"{code!r} is not of the form '#rrggbb'")
    red, green, blue = (int(code[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return red, green, blue


def luminance(colour: Sequence[float]) -> float:
    """Return the relative luminance of an sRGB colour, 0 (black) to 1 (white).

    colour: red, green, blue from 0 to 1; what follows (an alpha) is not looked at.
    Source: WCAG 2.2, definition of relative luminance.
    """
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour[:3]]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Sequence[float], other: Sequence[float]) -> float:
    """Return (L1 + 0.05) / (L2 + 0.05), the lighter on top: 1 for equal colours, 21 for black on white."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
