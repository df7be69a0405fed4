"""Read a bundle's entries through, and see which panel of the book they go on from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from bench.book import Store
from bench.book.bundle import Bundle, EntryLine, at_line, files_named
from bench.book.bundle import layout as at
from bench.book.bundle.faults import BundleBroken
from bench.book.events import ActUndone, CautionsAcknowledged, Envelope, Event, PanelOpened, event_json
from bench.book.rows import PanelRow, utc_text
from bench.speech import say

How = Literal["new", "nothing", "more", "parted"]


@dataclass(frozen=True)
class Told:
    """What a bundle's entries come to. prints: one for each entry; acts: of each entry; files: hashes."""

    prints: tuple[bytes, ...]
    acts: tuple[str, ...]
    files: frozenset[str]


@dataclass(frozen=True)
class Place:
    """Where a bundle's entries go. panel: the one they belong to or part from, None for a new one.

    shared: how many of them are here already. after_seq, owner: the last entry that both share, and the
    panel in whose rows it stands; 0 where none is.
    """

    how: How
    panel: PanelRow | None = None
    shared: int = 0
    after_seq: int = 0
    owner: int = 0


def print_of(act_id: str, at_utc: datetime, event: Event) -> bytes:
    """Return what tells an entry from every other, wherever it stands."""
    told = f"{act_id}\n{utc_text(at_utc)}\n{event_json(event)}"
    return hashlib.blake2b(told.encode(), digest_size=16).digest()


def told_by(bundle: Bundle) -> Told:
    """Read a bundle's entries through; raises BundleBroken where they are no panel's book."""
    prints: list[bytes] = []
    acts: list[str] = []
    seen: set[str] = set()
    files = {bundle.manifest.panel.drawing_sha256}
    for entry in bundle.entries():
        _check_place(bundle, entry, acts, seen)
        prints.append(print_of(entry.act, entry.at_utc, entry.event))
        acts.append(entry.act)
        seen.add(entry.act)
        if not isinstance(entry.event, CautionsAcknowledged):  # its file may be a shipped one's
            files |= files_named(entry.event)
    if len(prints) != bundle.manifest.entries or not prints:
        raise BundleBroken(bundle.name, say("its book is not as long as it says"))
    return Told(tuple(prints), tuple(acts), frozenset(files))


def _check_place(bundle: Bundle, entry: EntryLine, acts: Sequence[str], seen: set[str]) -> None:
    where = at_line(at.BOOK, len(acts) + 1)
    if isinstance(entry.event, PanelOpened) != (not acts):
        raise BundleBroken(bundle.name, say("a panel's book begins with its opening, once"), where)
    if entry.act in seen and acts[-1] != entry.act:
        raise BundleBroken(bundle.name, say("an act stands in two places"), where)
    undone = entry.event.undone_act_id if isinstance(entry.event, ActUndone) else None
    if undone is not None and (undone not in seen or undone == acts[0]):
        raise BundleBroken(bundle.name, say("it takes back what was not done"), where)


def place_of(store: Store, bundle: Bundle, told: Told) -> Place:
    """Return where a bundle's entries go, by the panels of the book that the same act opened.

    Raises BundleBroken where acts of it stand in the book already, and not where they should.
    """
    best: tuple[int, PanelRow, list[Envelope]] | None = None
    whole: tuple[int, PanelRow] | None = None
    for panel in store.panels():
        if store.elsewhere.first_act(panel.panel_id) != told.acts[0]:
            continue
        entries = store.events(panel.panel_id)
        shared = _shared(entries, told.prints)
        if shared == len(told.prints):
            return Place("nothing", panel, shared)
        if shared == len(entries) and (whole is None or shared > whole[0]):
            whole = shared, panel
        if best is None or shared > best[0]:
            best = shared, panel, entries
    _refuse_known(store, bundle, told, 0 if best is None else best[0])
    if whole is not None and best is not None and whole[0] == best[0]:
        return Place("more", whole[1], whole[0])
    if best is None or best[0] == 0:
        return Place("new")
    last = best[2][best[0] - 1]
    return Place("parted", best[1], best[0], last.seq, _owner(store, best[1].panel_id, last.seq))


def _shared(entries: Iterable[Envelope], prints: Sequence[bytes]) -> int:
    """Return how many entries two books of one panel begin with alike."""
    shared = 0
    for entry, other in zip(entries, prints, strict=False):
        if print_of(entry.act_id, entry.at_utc, entry.event) != other:
            break
        shared += 1
    return shared


def _refuse_known(store: Store, bundle: Bundle, told: Told, shared: int) -> None:
    """Raise for acts that are in the book, but for the one that both went on with."""
    rest = dict.fromkeys(told.acts[shared:])
    if shared:
        rest.pop(told.acts[shared - 1], None)
    if store.elsewhere.written(tuple(rest)):
        raise BundleBroken(bundle.name, say("acts of it are in the book in another order"))


def _owner(store: Store, panel_id: int, seq: int) -> int:
    """Return the panel in whose own rows an entry of a panel stands."""
    parted = store.elsewhere.parted(panel_id)
    return panel_id if parted is None or seq > parted.after_seq else _owner(store, parted.from_panel, seq)
