"""What a campaign has seen, counted and printed."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field


@dataclass
class Figures:
    """What a campaign has seen."""

    done: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    def lines(self, head: str) -> list[str]:
        told = [f"  {what}: {count}" for what, count in sorted(self.done.items())]
        return [f"{head}: wrong: {len(self.wrong)}", *told, *(f"  WRONG {what}" for what in self.wrong[:20])]
