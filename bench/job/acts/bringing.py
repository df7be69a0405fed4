"""Open a bundle: bring a panel from another tablet, or what was done to it there, once and no more.

A panel is known by the act that opened it, the same on every tablet. Of its entries those come that are
not here yet. Where both tablets went on after they parted, neither is bent into the other: what came is a
panel of its own, which shares the entries up to there. All is written in one transaction, after the panel
was looked at as it would be; whatever is wrong, nothing of it stays.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from bench.book import WORKSHOP, Clock, Mark, Store
from bench.book import events as e
from bench.book.bundle import Bundle, EntryLine, MarkLine, open_bundle
from bench.book.bundle import layout as at
from bench.book.bundle.faults import BundleBroken
from bench.book.elsewhere import Written
from bench.job.brought import How, Place, place_of, told_by
from bench.job.brought_trial import try_out
from bench.job.drafts import PICTURE, draft_is_readable
from bench.job.job import Job
from bench.job.same_hands import not_asked, say_hands
from bench.speech import say, say_n

AT_ONCE = 500  # entries
_KEY = re.compile(r"(glue|cure):(\d{1,9})", re.ASCII)
_OF_BOTTLES = (e.BottleOpened, e.BottleWeighed, e.BottleEmptied, e.ActUndone)


@dataclass(frozen=True)
class Brought:
    """What came of a bundle. entries: how many are new; ask_hands: books whose hands nobody has told of."""

    job: Job
    name: str
    how: How
    entries: int
    drafts: int
    ask_hands: tuple[str, ...]

    @property
    def said(self) -> str:
        """What became of it, in one line."""
        news = self._news()
        if not self.drafts:
            return news
        return say_n("{news}, and {count} draft", "{news}, and {count} drafts", self.drafts, news=news)

    def _news(self) -> str:
        if self.how == "nothing":
            return say("All of {name} was here already", name=self.name)
        if self.how == "new":
            return say_n(
                "{name} is here, with {count} entry",
                "{name} is here, with {count} entries",
                self.entries,
                name=self.name,
            )
        if self.how == "more":
            return say_n(
                "{count} entry more on {name}, from the other tablet",
                "{count} entries more on {name}, from the other tablet",
                self.entries,
                name=self.name,
            )
        return say_n(
            "Both tablets went on with it, and both are kept: what came is {name}, with {count} entry of its "
            "own",
            "Both tablets went on with it, and both are kept: what came is {name}, with {count} entries of "
            "its own",
            self.entries,
            name=self.name,
        )


def open_the_bundle(store: Store, clock: Clock, path: Path, *, same_hands: bool = False) -> Brought:
    """Bring what a bundle holds and the book does not; nothing of it where anything is wrong.

    same_hands: the maker says that the glue-ups of it are of these hands. Raises what `open_bundle`
    raises, BundleBroken for a book that cannot be, and the faults of its drawing and adhesives.
    """
    with open_bundle(path) as bundle:
        told = told_by(bundle)
        place = place_of(store, bundle, told)
        with store.together():
            _keep_files(store, bundle, told.files)
            panel_id = _panel_for(store, bundle, place)
            _keep_entries(store, bundle, panel_id, place)
            _keep_bottles(store, bundle)
            drafts = _keep_drafts(store, bundle)
            job = try_out(store, clock, panel_id, bundle.name)
            _keep_marks(job, bundle)
            entries = store.events(panel_id)
            if same_hands:
                say_hands(store, {x.book for x in entries if x.book}, same=True)
            return Brought(
                job,
                next(p.name for p in store.panels() if p.panel_id == panel_id),
                place.how,
                len(told.prints) - place.shared,
                drafts,
                not_asked(store, entries),
            )


def _keep_files(store: Store, bundle: Bundle, named: frozenset[str]) -> None:
    """Keep the files that the entries name; one that neither the bundle nor the book has is missed."""
    for sha256 in sorted(named):
        if sha256 in bundle.files:
            store.put_blob(bundle.file(sha256), bundle.files[sha256][1])
        elif store.media(sha256) is None:
            why = say("the file {hash} that its book names is missing", hash=sha256[:12])
            raise BundleBroken(bundle.name, why)


def _panel_for(store: Store, bundle: Bundle, place: Place) -> int:
    told = bundle.manifest.panel
    if place.how in ("nothing", "more"):
        assert place.panel is not None
        return place.panel.panel_id
    name = told.name if place.how == "new" else _of_the_other(store, _first_name(bundle))
    panel_id = store.add_panel(name, told.drawing_sha256, told.created_utc)
    if place.how == "parted":
        store.elsewhere.part(panel_id, place.owner, place.after_seq)
    return panel_id


def _first_name(bundle: Bundle) -> str:
    """Return the name under which a panel was opened; what a tablet added to it, in its language, is left."""
    told = bundle.manifest.panel.name
    first = next(iter(bundle.entries())).event
    is_first = isinstance(first, e.PanelOpened) and bool(first.name) and told.startswith(first.name)
    return first.name if is_first and isinstance(first, e.PanelOpened) else told


def _of_the_other(store: Store, name: str) -> str:
    """Return a name that no panel of the book has yet, which says where it comes from.

    It is kept as it is said now, like a name that the maker gives.
    """
    names = {panel.name for panel in store.panels()}
    told, number = say("{name} (from the other tablet)", name=name), 2
    while told in names:
        told = say("{name} (from the other tablet, {number})", name=name, number=number)
        number += 1
    return told


def _keep_entries(store: Store, bundle: Bundle, panel_id: int, place: Place) -> None:
    rest = islice(bundle.entries(), place.shared, None)
    while some := [_written(line) for line in islice(rest, AT_ONCE)]:
        store.bring(panel_id, some)


def _written(line: EntryLine) -> Written:
    return Written(line.act, line.at_utc, line.event, line.book)


def _keep_bottles(store: Store, bundle: Bundle) -> None:
    """Keep what the other workshop tells of its bottles; of our own, what is not in the book any more."""
    acts = store.elsewhere.written([line.act for line in _bottles(bundle)])
    store.bring(WORKSHOP, [_written(line) for line in _bottles(bundle) if line.act not in acts])


def _bottles(bundle: Bundle) -> Iterator[EntryLine]:
    for line in bundle.entries(at.WORKSHOP):
        if not isinstance(line.event, _OF_BOTTLES):
            raise BundleBroken(bundle.name, say("it is about no bottle"), at.WORKSHOP)
        yield line


def _keep_drafts(store: Store, bundle: Bundle) -> int:
    """Keep the drafts that are not here yet; one of the same picture, gone on with here, stays as it is."""
    here = {(row.name, store.drafts.file(row.draft_id, PICTURE) or row.body) for row in store.drafts.all()}
    kept = 0
    for line in bundle.drafts():
        if not draft_is_readable(line.body) or not bundle.files.keys() >= set(line.files.values()):
            raise BundleBroken(bundle.name, say("a draft cannot be read"), at.DRAFTS)
        files = {role: bundle.file(sha256) for role, sha256 in line.files.items()}
        if (line.name, files.get(PICTURE) or line.body) in here:
            continue
        draft_id = store.drafts.add(line.name, line.body, line.changed_utc)
        for role, data in files.items():
            store.drafts.put_file(draft_id, role, data)
        kept += 1
    return kept


def _keep_marks(job: Job, bundle: Bundle) -> None:
    """Keep how far the panel's mixes had come; a clock that ran here all along knows better."""
    here = job.store.countdowns(job.panel_id)
    for line in bundle.manifest.countdowns:
        found = _KEY.fullmatch(line.mix)
        if found is None or int(found[2]) not in job.state.mixes:
            raise BundleBroken(bundle.name, say("it counts the time of a mix that it has not"), at.MANIFEST)
        came, known = _mark_of(job, line, int(found[2])), here.get(line.mix)
        if known is None or (known.unsure and came.surely_s > known.surely_s):
            job.store.set_countdown(job.panel_id, line.mix, came)


def _mark_of(job: Job, line: MarkLine, mix: int) -> Mark:
    """Return a mark as it can be trusted here: by another tablet's clocks, so unsure.

    Its certain time is never more than what passed since first contact by both wall clocks.
    """
    contact_utc = job.mix(mix).contact_utc
    passed_s = 0.0 if contact_utc is None else (job.clock.utc() - contact_utc).total_seconds()
    surely_s = max(0.0, min(line.surely_s, passed_s if math.isfinite(passed_s) else 0.0))
    return Mark(
        line.total_s, line.spent_s, line.wall_utc, None, None, line.running, unsure=True, surely_s=surely_s
    )
