"""Papers: the record, templates at true size, and the edge of what is set traced on a photo."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from bench.book import documents_folder
from bench.job import papers
from bench.job.advice import advise
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.templates import is_mirrored
from bench.screens.drawings import folder_words, name_words
from bench.screens.finishing.figures import FiguresPart
from bench.screens.parts.listing import Offer
from bench.speech import day_of_month, say


class PapersPart(FiguresPart):
    """Rows of what can be written; a tap writes it and says where."""

    def __init__(self, **kwargs: Any) -> None:
        self.written: Path | None = None
        super().__init__(**kwargs)
        self.title = say("Papers")

    def offers(self) -> Sequence[Offer]:
        job = self.screen.job
        units, number = papers.units_of(job), _next(job)
        whole, one = _templates(mirrored=is_mirrored(job))
        for_whom = say("For you, for the client, and tables")
        offers = [
            Offer(say("Write the record"), for_whom, "record", self._record),
            Offer(say("Template of the panel"), whole, "whole", self._whole),
        ]
        if number is not None:
            text = say("Template of section {number}", number=number)
            offers.append(Offer(text, one, "next_section", lambda: self._section(number)))
        in_units = say("mm, °C") if units.length == "mm" else say("inches, °F")
        offers += [
            Offer(say("Another section"), say("Its template by its number"), "another", self._ask_section),
            Offer(say("Trace the edge of what is set"), _traced(job), "edge", self._edge),
            Offer(say("Cost and hours"), say("For you alone"), "costs", self.screen.show_costs),
            Offer(say("Paper"), papers.paper_of(job), "paper", self._other_paper),
            Offer(say("Units"), in_units, "units", self._other_units),
        ]
        return offers

    def sums(self) -> tuple[str, str]:
        if self.written is None:
            return say("Papers"), say("They go to your documents.")
        name, folder = name_words(self.written.name), folder_words(self.written)
        return say("Written"), say("{name}, in {folder}.", name=name, folder=folder)

    def all_lines(self) -> list[str]:
        if self.written is None:
            folder = papers.folder_of(self.screen.job, documents_folder())
            return [say("Papers of this panel go to {folder}.", folder=_way(folder))]
        return [say("Written: {place}.", place=_way(self.written))]

    # -- writing -----------------------------------------------------------------------------------------

    def _record(self) -> None:
        self._soon(say("Writing the record …"), papers.write_all)

    def _whole(self) -> None:
        self._soon(say("Drawing the templates …"), papers.write_templates)

    def _section(self, number: int) -> None:
        self._soon(say("Drawing the template …"), papers.write_templates, (number,))

    def _ask_section(self) -> None:
        numbers = self.screen.job.state.sections
        self.screen.ask(
            say("Which section?"),
            lambda _job, number: self._section(int(number)),
            "",
            decimals=0,
            least=1.0,
            most=float(max(numbers, default=1)),
        )

    def _soon(self, words: str, write: Callable[..., Path], *more: Any) -> None:
        """Say that it is being written, write it, and say where it is."""

        if self.screen.desk.practice:
            what = say("practice leaves no trace, and no papers")
            self.screen.desk.tell(WrongOrder(what, say("end practice first")))
            return

        def now() -> None:
            done, path = self.screen.desk.attempt(write, documents_folder(), *more)
            if done:
                self.written = path
                self.show()

        self.screen.soon(words, now)

    # -- how ---------------------------------------------------------------------------------------------

    def _edge(self) -> None:
        self.screen.desk.go("edge")

    def _other_paper(self) -> None:
        known = papers.PAPERS
        now = known.index(papers.paper_of(self.screen.job))
        self.screen.desk.attempt(papers.set_paper, known[(now + 1) % len(known)])

    def _other_units(self) -> None:
        length = papers.units_of(self.screen.job).length
        self.screen.desk.attempt(papers.set_units, "inch" if length == "mm" else "mm")


def _next(job: Job) -> int | None:
    """Return the section to lay or set next; where none can be now, the first that is not set."""
    advised = advise(job).section
    left = sorted(s.number for s in job.state.sections.values() if s.stage in ("drawn", "dry"))
    return advised if advised in left else left[0] if left else None


def _traced(job: Job) -> str:
    if job.state.edge_utc is None:
        return say("On a photo: templates then show it as it is")
    return say("Traced on {day}", day=day_of_month(job.state.edge_utc.astimezone()))


def _templates(*, mirrored: bool) -> tuple[str, str]:
    """Say what a template of the whole panel is, and one of the next section."""
    if mirrored:
        return say("The whole at true size, mirrored"), say("The next one, at true size, mirrored")
    return say("The whole at true size"), say("The next one, at true size")


def _way(path: Path) -> str:
    """Say the whole way to a file, folder by folder: a path is one word that no line holds."""
    return ", ".join(name_words(part) for part in path.parts if part != path.anchor)
