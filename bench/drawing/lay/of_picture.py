"""A squared-up picture of a painted study, all the way to the panel of its trial lay."""

from __future__ import annotations

from bench.drawing.lay.cut import panel_of_lay
from bench.drawing.lay.laid import Progress, lay
from bench.drawing.panel import Panel
from bench.drawing.photo import Picture
from bench.drawing.study.propose import propose


def panel_of_study(
    picture: Picture,
    size_mm: tuple[float, float],
    *,
    piece_mm: float = 6.0,
    joint_mm: float = 0.8,
    regions: int | None = None,
    seed: int = 0,
    progress: Progress | None = None,
) -> Panel:
    """Return the panel that a painted study is laid to, nothing changed by hand.

    size_mm: true width and height. regions: how many; as many as the study seems to have for None. The same
    for the same picture and seed. Raises OneColour, PieceTooLarge, JointTooWide or TooManyPieces; LayStopped
    where progress says so.
    """
    study = propose(picture, size_mm, seed).study(regions, piece_mm=piece_mm)
    return panel_of_lay(lay(study, joint_mm=joint_mm, seed=seed, progress=progress), picture)
