"""Colour as the eye sees it: sRGB to CIELAB and back, and the CIEDE2000 difference."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
RGB = tuple[int, int, int]

# IEC 61966-2-1: linear sRGB to XYZ, and the D65 white it is relative to
_TO_XYZ = np.array(
    [
        [0.412453, 0.357580, 0.180423],
        [0.212671, 0.715160, 0.072169],
        [0.019334, 0.119193, 0.950227],
    ]
)
_FROM_XYZ = np.linalg.inv(_TO_XYZ)
_WHITE = np.array([0.95047, 1.0, 1.08883])
_EPSILON, _KAPPA = 0.008856, 7.787  # CIE 15: where the cube root gives way to a straight line


def code_of(colour: RGB) -> str:
    """Return the code of an sRGB colour, e.g. '#2a5caa'."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


def srgb_to_lab(rgb: ArrayLike) -> FloatArray:
    """Return CIELAB (D65, 2°) of 8-bit sRGB colours. (…, 3) → (…, 3)"""
    xyz = srgb_to_linear(rgb) @ _TO_XYZ.T / _WHITE
    f = np.where(xyz > _EPSILON, np.cbrt(xyz), _KAPPA * xyz + 16.0 / 116.0)
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=-1)


def lab_to_srgb(lab: ArrayLike) -> NDArray[np.uint8]:
    """Return 8-bit sRGB of CIELAB (D65, 2°); out of gamut, each channel is cut off. (…, 3) → (…, 3)"""
    found: NDArray[np.uint8] = np.clip(np.rint(lab_to_unbounded_srgb(lab)), 0, 255).astype(np.uint8)
    return found


def lab_to_unbounded_srgb(lab: ArrayLike) -> FloatArray:
    """Return sRGB of CIELAB (D65, 2°) on the scale 0 to 255, neither rounded nor cut off. (…, 3) → (…, 3)

    A colour that sRGB cannot show comes out below 0 or above 255.
    """
    lab = np.asarray(lab, dtype=float)
    y = (lab[..., 0] + 16.0) / 116.0
    f = np.stack([y + lab[..., 1] / 500.0, y, y - lab[..., 2] / 200.0], axis=-1)
    xyz = np.where(f**3 > _EPSILON, f**3, (f - 16.0 / 116.0) / _KAPPA) * _WHITE
    return linear_to_unbounded_srgb(xyz @ _FROM_XYZ.T)


def srgb_to_linear(rgb: ArrayLike) -> FloatArray:
    """Return the linear light of 8-bit sRGB, 0 to 1, as IEC 61966-2-1 has it. Any shape."""
    c = np.asarray(rgb, dtype=float) / 255.0
    found: FloatArray = np.where(c > 0.04045, ((c + 0.055) / 1.055) ** 2.4, c / 12.92)
    return found


def linear_to_srgb(linear: ArrayLike) -> NDArray[np.uint8]:
    """Return 8-bit sRGB of linear light; each channel is cut off. Any shape."""
    found: NDArray[np.uint8] = np.clip(np.rint(linear_to_unbounded_srgb(linear)), 0, 255).astype(np.uint8)
    return found


def linear_to_unbounded_srgb(linear: ArrayLike) -> FloatArray:
    """Return sRGB of linear light on the scale 0 to 255, neither rounded nor cut off. Any shape."""
    light = np.asarray(linear, dtype=float)
    steep = np.maximum(light, 0.0031308)
    found: FloatArray = 255.0 * np.where(light > 0.0031308, 1.055 * steep ** (1 / 2.4) - 0.055, 12.92 * light)
    return found


def delta_e_2000(lab1: ArrayLike, lab2: ArrayLike) -> FloatArray:
    """Return ΔE00 between CIELAB colours, all weights 1. (…, 3), (…, 3) → (…)

    Sharma, Wu & Dalal, "The CIEDE2000 color-difference formula", Color Res. Appl. 30 (2005) 21.
    Two greys have no hue; their hue difference counts as 0.
    """
    a, b = np.asarray(lab1, dtype=float), np.asarray(lab2, dtype=float)
    mean_chroma = (np.hypot(a[..., 1], a[..., 2]) + np.hypot(b[..., 1], b[..., 2])) / 2.0
    g = 0.5 * (1.0 - np.sqrt(mean_chroma**7 / (mean_chroma**7 + 25.0**7)))
    a1, a2 = (1.0 + g) * a[..., 1], (1.0 + g) * b[..., 1]
    c1, c2 = np.hypot(a1, a[..., 2]), np.hypot(a2, b[..., 2])
    h1 = np.degrees(np.arctan2(a[..., 2], a1)) % 360.0
    h2 = np.degrees(np.arctan2(b[..., 2], a2)) % 360.0
    grey = c1 * c2 == 0.0
    turn = h2 - h1
    turn = np.where(turn > 180.0, turn - 360.0, np.where(turn < -180.0, turn + 360.0, turn))
    turn = np.where(grey, 0.0, turn)
    big_h = 2.0 * np.sqrt(c1 * c2) * np.sin(np.radians(turn) / 2.0)
    light, chroma = (a[..., 0] + b[..., 0]) / 2.0, (c1 + c2) / 2.0
    total = h1 + h2
    hue = np.where(
        np.abs(h1 - h2) <= 180.0, total / 2.0, (total + np.where(total < 360.0, 360.0, -360.0)) / 2
    )
    hue = np.where(grey, total, hue)
    t = (
        1.0
        - 0.17 * np.cos(np.radians(hue - 30.0))
        + 0.24 * np.cos(np.radians(2.0 * hue))
        + 0.32 * np.cos(np.radians(3.0 * hue + 6.0))
        - 0.20 * np.cos(np.radians(4.0 * hue - 63.0))
    )
    s_l = 1.0 + 0.015 * (light - 50.0) ** 2 / np.sqrt(20.0 + (light - 50.0) ** 2)
    s_c, s_h = 1.0 + 0.045 * chroma, 1.0 + 0.015 * chroma * t
    theta = 30.0 * np.exp(-(((hue - 275.0) / 25.0) ** 2))
    r = -2.0 * np.sqrt(chroma**7 / (chroma**7 + 25.0**7)) * np.sin(np.radians(2.0 * theta))
    d_l, d_c, d_h = (b[..., 0] - a[..., 0]) / s_l, (c2 - c1) / s_c, big_h / s_h
    found: FloatArray = np.sqrt(np.maximum(0.0, d_l**2 + d_c**2 + d_h**2 + r * d_c * d_h))
    return found
