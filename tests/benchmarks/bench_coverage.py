"""Print how many batches suffice, and how much is mixed over need, as cups are weighed. Asserts nothing.

    python -m tests.benchmarks.bench_coverage [makers]

Makers' beds take e^N(0, 0.30²) times what the settings reckon, scattering by about 0.10 from glue-up to
glue-up; a cup keeps 1.5 g give or take 40 %, scattering by 20 %. The scale is read to 3 %; three readings in
a hundred are off ten times. Beside it, as the peer: the same beds mixed for by the settings alone.
"""

from __future__ import annotations

import math
import sys

import numpy as np

from bench.pace.coverage import Weighing, learn_coverage

RECKONED_G_PER_CM2, SETTINGS_WASTE, SETTINGS_RESIDUE_G = 0.12, 0.1, 1.5
AFTER = (0, 1, 2, 3, 5, 10)


def weigh_on(rng: np.random.Generator) -> tuple[list[float], list[float]]:
    """Return mixed over needed, glue-up by glue-up, of one maker: as learned, and by the settings."""
    factor, scatter = math.exp(0.3 * rng.standard_normal()), 0.1 * math.exp(0.3 * rng.standard_normal())
    residue_g = SETTINGS_RESIDUE_G * math.exp(0.4 * rng.standard_normal())
    book: list[Weighing] = []
    learned, fixed = [], []
    for _ in range(max(AFTER) + 1):
        known = learn_coverage(book, residue_g=SETTINGS_RESIDUE_G)
        bed_cm2 = rng.uniform(25, 60)
        reckoned_g = bed_cm2 * RECKONED_G_PER_CM2
        mixed_g = reckoned_g * known.bed_factor * (1 + known.waste(SETTINGS_WASTE)) + known.batch_residue_g
        bed_g = reckoned_g * factor * math.exp(scatter * rng.standard_normal())
        keeps_g = residue_g * math.exp(0.2 * rng.standard_normal())
        learned.append(mixed_g / (bed_g + keeps_g))
        fixed.append((reckoned_g * (1 + SETTINGS_WASTE) + SETTINGS_RESIDUE_G) / (bed_g + keeps_g))
        suffices = mixed_g >= bed_g + keeps_g
        stayed_g = (mixed_g - bed_g if suffices else min(keeps_g, 0.9 * mixed_g)) * math.exp(
            0.03 * rng.standard_normal()
        )
        cup = "short" if not suffices else "over" if stayed_g > 1.15 * keeps_g else "scraped"
        stayed_g *= rng.choice([0.1, 10.0]) if rng.random() < 0.03 else 1.0
        if stayed_g < mixed_g:
            book.append(Weighing(None, bed_cm2, RECKONED_G_PER_CM2, mixed_g, stayed_g, cup))
    return learned, fixed


def main(makers: int) -> None:
    rng = np.random.default_rng(5)
    learned, fixed = (np.array(x) for x in zip(*(weigh_on(rng) for _ in range(makers)), strict=True))
    for k in AFTER:
        of = learned[:, k]
        print(
            f"after {k:2d} weighings: suffices {(of >= 1).mean():.2f}, mixed over needed "
            f"{np.median(of):.2f}, in one of ten over {np.quantile(of, 0.9):.2f}"
        )
    print(
        f"by the settings: suffices {(fixed >= 1).mean():.2f}, mixed over needed {np.median(fixed):.2f}, "
        f"in one of ten over {np.quantile(fixed, 0.9):.2f}"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
