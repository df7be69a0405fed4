"""What the panel weighs, on what it hangs, and whether its board bends: figures that only the maker knows."""

from __future__ import annotations

from collections.abc import Sequence

from bench.finish import BOARDS_GPA, pounds
from bench.finish.hanging import MOST_POINTS
from bench.job import finishing, hanging, papers
from bench.screens.finishing.figures import FiguresPart
from bench.screens.parts.listing import Offer

NOT_TOLD = "not told yet"


class WeightPart(FiguresPart):
    """Rows of what was entered; a tap asks anew."""

    title = "Weight and hanging"

    def offers(self) -> Sequence[Offer]:
        job = self.screen.job
        told, backer = hanging.figures_of(job), finishing.finishing(job).backer_kg_per_m2
        wire = "none" if told.above_mm is None else f"hook {told.above_mm:g} mm above its rings"
        return (
            Offer("Board, a square metre", _told(backer, "kg"), "board", self._ask_board()),
            Offer("Board, thickness", _told(told.board_mm, "mm"), "board_mm", self._ask_thickness()),
            Offer("Board, what it is", told.board, "board_kind", self._next_board),
            Offer("Frame", _told(told.frame_g, "g"), "frame", self._ask_frame()),
            Offer("Fixings", str(told.points), "points", self._ask_points()),
            Offer("Distance of the outer ones", f"{told.apart_mm:g} mm", "apart", self._ask_apart()),
            Offer("Wire", wire, "wire", self._ask_wire()),
        )

    def sums(self) -> tuple[str, str]:
        found = hanging.hanging(self.screen.job)
        weight = found.weight
        low, high = weight.p10_g / 1000, weight.p90_g / 1000
        says = [f"{low:.2f} to {high:.2f} kg, {pounds(weight.total_g):.1f} lb."]
        if found.hung is not None:
            says.append(f"A fixing carries up to {found.hung.worst_g / 1000:.2f} kg.")
        if found.bend is not None:
            says.append(
                {"stiff": "The board is stiff.", "doubtful": "The board may bend."}.get(
                    found.bend.verdict, "The board bends: joints will break."
                )
            )
        return f"{weight.total_g / 1000:.2f} kg", " ".join(says)

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
        return self.ask("Mass of a square metre of board", finishing.set_backer_kg_per_m2, "kg", most=most)

    def _ask_thickness(self):
        most = hanging.MOST_BOARD_MM
        return self.ask("How thick is the board?", hanging.set_board_mm, "mm", least=1.0, most=most)

    def _ask_frame(self):
        return self.ask("What does the frame weigh?", hanging.set_frame_g, "g", most=hanging.MOST_FRAME_G)

    def _ask_points(self):
        return self.ask(
            "On how many fixings?", hanging.set_points, "", decimals=0, least=1.0, most=float(MOST_POINTS)
        )

    def _ask_apart(self):
        title = "Distance of the outer fixings, or of a wire's rings"
        return self.ask(title, hanging.set_apart_mm, "mm", least=10.0, most=hanging.MOST_APART_MM)

    def _ask_wire(self):
        title = "How far is the hook above the rings? 0: no wire"
        return self.ask(title, hanging.set_above_mm, "mm", most=hanging.MOST_ABOVE_MM)


def _told(value: float | None, unit: str) -> str:
    return NOT_TOLD if value is None else f"{value:g} {unit}"
