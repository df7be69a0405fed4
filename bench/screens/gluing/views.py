"""What can be asked beside the time left, by name."""

from __future__ import annotations

from bench.screens.gluing.closing import GlueDone, GlueLeft, GlueWhich, GlueWhy
from bench.screens.gluing.late import GlueLate, GluePadLate, GluePadLeft
from bench.screens.gluing.ratio import GluePadHardener, GluePadResin, GlueRatio
from bench.screens.gluing.view import GlueView

VIEWS: dict[str, type[GlueView]] = {
    "done": GlueDone,
    "left": GlueLeft,
    "which": GlueWhich,
    "why": GlueWhy,
    "late": GlueLate,
    "ratio": GlueRatio,
    "pad hardener": GluePadHardener,
    "pad resin": GluePadResin,
    "pad left": GluePadLeft,
    "pad late": GluePadLate,
}
