"""Choose the codes on a label by tapping them, each with its wording."""

from __future__ import annotations

from kivy.properties import StringProperty

from bench.adhesive import hazards
from bench.screens.labelling.views import LabelView
from bench.screens.parts.paged import Offer, Paged  # noqa: F401 - the second is named by the kv file
from bench.speech import say

# What labels of these adhesives state most often, first; then the rest by number.
FIRST = ("H314", "H315", "H317", "H318", "H319", "H335", "H411", "H412", "EUH205")


def offered_codes(chosen: tuple[str, ...]) -> list[str]:
    """Return the codes to choose from: the usual ones, the rest of the table, what the file had beside."""
    known = hazards.hazard_codes()
    return [*FIRST, *(code for code in known if code not in FIRST), *(c for c in chosen if c not in known)]


class CodesView(LabelView):
    """Tap every code that stands on the label; the ones that are on it stand out."""

    done_text = StringProperty("")

    def begin(self) -> None:
        self._chosen = list(self.label.get(self.question.fields[0]) or ())
        self._codes = offered_codes(tuple(self._chosen))
        self._show(keep_page=False)

    def _show(self, *, keep_page: bool) -> None:
        chosen, count = set(self._chosen), len(self._chosen)
        self.done_text = say("That is all: {count}", count=count) if count else say("It states none")
        offers = [
            Offer(code, hazards.wording(code), f"code_{code}", lambda c=code: self._tap(c), code in chosen)
            for code in self._codes
        ]
        self.ids.codes.offer(offers, keep_page=keep_page)

    def _tap(self, code: str) -> None:
        if code in self._chosen:
            self._chosen.remove(code)
        else:
            self._chosen.append(code)
        self._show(keep_page=True)

    def done(self) -> None:
        """Take the codes over, in the order of the list; none is an answer too."""
        chosen = tuple(code for code in self._codes if code in self._chosen)
        self.told(chosen or None)
