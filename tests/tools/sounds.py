"""Write assets/sounds: our own, out of a few sines. Run: python -m tests.tools.sounds

The ideas are those of IEC 60601-1-8: a fundamental between 150 and 1,000 Hz, at least four harmonics
between 300 and 4,000 Hz so that the sound is heard and located in a noisy room, soft rises and falls so
that nobody starts, and more pulses the more it presses: three, and five and five. Half-time and the end of
the stirring only tell, so they have two; scraping the cup is a reminder of one. The seed sets the phases
of the harmonics, which keeps the peaks low.
"""

from __future__ import annotations

import io
import wave
from pathlib import Path

import numpy as np

from bench.resources import resource

RATE_HZ = 22050
HARMONICS = 6
RISE_S = 0.03
PEAK = 0.7

# name: notes as (fundamental [Hz], length [s], silence after it [s])
SCORES: dict[str, list[tuple[float, float, float]]] = {
    "scrape": [(329.63, 0.26, 0.10)],
    "stirred": [(329.63, 0.18, 0.14), (392.0, 0.26, 0.10)],
    "half": [(392.0, 0.22, 0.18), (392.0, 0.22, 0.10)],
    "last-pieces": [(440.0, 0.18, 0.16), (440.0, 0.18, 0.16), (523.25, 0.26, 0.10)],
    "stop": [
        *[(587.33, 0.12, 0.08), (587.33, 0.12, 0.08), (587.33, 0.12, 0.20), (698.46, 0.12, 0.08)],
        *[(698.46, 0.12, 0.55)],
    ]
    * 2,
}


def pulse(fundamental_hz: float, length_s: float, rng: np.random.Generator) -> np.ndarray:
    """Return one pulse: harmonics that fall off as 1/n, with a soft rise and fall. (n,)"""
    t = np.arange(int(length_s * RATE_HZ)) / RATE_HZ
    tone = sum(
        np.sin(2 * np.pi * n * fundamental_hz * t + rng.uniform(0, 2 * np.pi)) / n
        for n in range(1, HARMONICS + 1)
    )
    rise = np.clip(np.minimum(t, t[::-1]) / RISE_S, 0.0, 1.0)
    return np.asarray(tone * (0.5 - 0.5 * np.cos(np.pi * rise)))


def wav(score: list[tuple[float, float, float]], *, seed: int = 7) -> bytes:
    """Return a score as a WAV file: one channel, 16 bits."""
    rng = np.random.default_rng(seed)
    parts = []
    for fundamental_hz, length_s, silence_s in score:
        parts += [pulse(fundamental_hz, length_s, rng), np.zeros(int(silence_s * RATE_HZ))]
    samples = np.concatenate(parts)
    levels = np.round(samples / np.abs(samples).max() * PEAK * 32767).astype("<i2")
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(levels.tobytes())
    return out.getvalue()


def write(folder: Path) -> list[Path]:
    """Write every sound into a folder and return the paths."""
    paths = []
    for name, score in SCORES.items():
        paths.append(folder / f"{name}.wav")
        paths[-1].write_bytes(wav(score))
    return paths


if __name__ == "__main__":
    for path in write(resource("assets") / "sounds"):
        print(path.name, path.stat().st_size)
