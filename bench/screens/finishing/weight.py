"""What the panel weighs, on what it hangs, and whether its board bends: figures that only the maker knows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.finish.bend import BOARDS_GPA, board_said
from bench.finish.hanging import MOST_POINTS
from bench.finish.weight import pounds
from bench.job import finishing, hanging, papers
from bench.screens.finishing.figures import FiguresPart
from bench.screens.parts.listing import Offer
from bench.speech import plain_length, say


def not_told() -> str:
    """Say that a figure was not entered."""
    return say("not told yet")


class WeightPart(FiguresPart):
    """Rows of what was entered; a tap asks anew."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.title = say("Weight and hanging")

    def offers(self) -> Sequence[Offer]:
        job = self.screen.job
        told, backer = hanging.figures_of(job), finishing.finishing(job).backer_kg_per_m2
        wire = say("none")
        if told.above_mm is not None:
            wire = say("hook {length} above its rings", length=plain_length(told.above_mm))
        thick = not_told() if told.board_mm is None else plain_length(told.board_mm)
        apart = plain_length(told.apart_mm)
        return (
            Offer(say("Board, a square metre"), _told(backer, "kg"), "board", self._ask_board()),
            Offer(say("Board, thickness"), thick, "board_mm", self._ask_thickness()),
            Offer(say("Board, what it is"), board_said(told.board), "board_kind", self._next_board),
            Offer(say("Frame"), _told(told.frame_g, "g"), "frame", self._ask_frame()),
            Offer(say("Fixings"), str(told.points), "points", self._ask_points()),
            Offer(say("Distance of the outer ones"), apart, "apart", self._ask_apart()),
            Offer(say("Wire"), wire, "wire", self._ask_wire()),
        )

    def sums(self) -> tuple[str, str]:
        found = hanging.hanging(self.screen.job)
        weight = found.weight
        low, high = weight.p10_g / 1000, weight.p90_g / 1000
        lb = pounds(weight.total_g)
        says = [say("{low:.2f} to {high:.2f} kg, {lb:.1f} lb.", low=low, high=high, lb=lb)]
        if found.hung is not None:
            says.append(say("A fixing carries up to {mass_kg:.2f} kg.", mass_kg=found.hung.worst_g / 1000))
        if found.bend is not None:
            says.append(
                {
                    "stiff": say("The board is stiff."),
                    "doubtful": say("The board may bend."),
                    "flexes": say("The board bends: joints will break."),
                }[found.bend.verdict]
            )
        return say("{mass_kg:.2f} kg", mass_kg=weight.total_g / 1000), " ".join(says)

    def all_lines(self) -> list[str]:
        job = self.screen.job
        return hanging.hanging_lines(job, papers.units_of(job))

    def _next_board(self) -> None:
        """Take the next kind of board."""
        kinds = list(BOARDS_GPA)
        now = hanging.figures_of(self.screen.job).board
        self.screen.desk.attempt(hanging.set_board, kinds[(kinds.index(now) + 1) % len(kinds)])

    def _ask_board(self):
        most = finishing.MOST_BACKER_KG_PER_M2
        title = say("Mass of a square metre of board")
        return self.ask(title, finishing.set_backer_kg_per_m2, "kg", most=most)

    def _ask_thickness(self):
        title, most = say("How thick is the board?"), hanging.MOST_BOARD_MM
        return self.ask_length(title, hanging.set_board_mm, least_mm=1.0, most_mm=most)

    def _ask_frame(self):
        title = say("What does the frame weigh?")
        return self.ask(title, hanging.set_frame_g, "g", most=hanging.MOST_FRAME_G)

    def _ask_points(self):
        title, most = say("On how many fixings?"), float(MOST_POINTS)
        return self.ask(title, hanging.set_points, "", decimals=0, least=1.0, most=most)

    def _ask_apart(self):
        title = say("Distance of the outer fixings, or of a wire's rings")
        return self.ask_length(title, hanging.set_apart_mm, least_mm=10.0, most_mm=hanging.MOST_APART_MM)

    def _ask_wire(self):
        title = say("How far is the hook above the rings? 0: no wire")
        return self.ask_length(title, hanging.set_above_mm, least_mm=0.0, most_mm=hanging.MOST_ABOVE_MM)


def _told(value: float | None, unit: str) -> str:
    if value is None:
        return not_told()
    return say("{value:g} {unit}", value=value, unit=unit)
