"""What a maker was told is kept, and what a book must then hold: the two sides of a campaign.

The maker's side writes a line before each act is written (what it is about to write) and one after each
act that returned (what is now true). The other side reads the lines that came through and checks the book.
"""

from __future__ import annotations

import hashlib
import json
import random
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any
from uuid import uuid4

from bench.book import Store, SystemClock, open_book
from bench.book.events import DryPhotographed, Event, event_json
from bench.book.faults import NotSynced
from bench.fault import Fault
from bench.job.fold import fold
from bench.job.job import Job
from bench.job.state import PanelState
from tests.campaigns.walk import COUNTER, Walk

Tell = Callable[[dict[str, Any]], None]
Acts = list[tuple[str, str, int]]  # id, what it says, how many entries
CLOSE_S = 1.0


def digest_of(bodies: list[str]) -> str:
    return hashlib.sha256("\n".join(bodies).encode()).hexdigest()[:16]


def state_digest(state: PanelState) -> str:
    """Return what is true of a panel as a short text that is the same wherever it is worked out."""
    plain = _plain_keys(asdict(state))
    for name in ("used_numbers", "worked_numbers", "laid_once"):
        plain[name] = sorted(plain[name])
    return digest_of([json.dumps(plain, sort_keys=True, default=_plain)])


def _plain_keys(value: Any) -> Any:
    """Return the same with every key of a dictionary as text, those of several parts too."""
    if isinstance(value, dict):
        return {str(key): _plain_keys(inner) for key, inner in value.items()}
    return [_plain_keys(inner) for inner in value] if isinstance(value, list) else value


def _plain(value: Any) -> Any:
    return value.model_dump(mode="json") if hasattr(value, "model_dump") else str(value)


@contextmanager
def announced(store: Store, tell: Tell) -> Iterator[None]:
    """Tell what each act is about to write before any of it is written."""
    append = store.append

    def telling(panel_id: int, events: list[Event], *, act_id: str | None = None, **how: Any) -> Any:
        act_id = act_id or uuid4().hex
        tell({"writes": [act_id, digest_of([event_json(event) for event in events]), len(events)]})
        return append(panel_id, events, act_id=act_id, **how)

    store.append = telling  # type: ignore[method-assign, assignment]
    try:
        yield
    finally:
        del store.append  # type: ignore[method-assign]


def work(folder: Path, seed: int, tell: Tell, acts: int) -> None:
    """Go on with the book of a folder, telling of each act, until killed or done."""
    opened = open_book(folder, SystemClock())
    with opened.store as store, announced(store, tell):
        going = Walk(store, SystemClock(), random.Random(seed))
        tell(true_now(going))
        for _ in range(acts):
            tell({"stepped": stepped(going), **true_now(going)})


def stepped(going: Walk) -> str:
    """Do one act; say whether it was acknowledged, refused, or left in doubt by the disk."""
    try:
        going.step()
    except NotSynced:
        return "in doubt"
    except Fault:
        return "refused"
    return "done"


def true_now(going: Walk) -> dict[str, Any]:
    """Return what is true once an act has returned."""
    job, store = going.job, going.store
    zero_s = {}
    for mix in job.state.running_mixes:
        boot_s = job.clock.boot_s()
        zero_s[str(mix.number)] = None if boot_s is None else boot_s - job.reading(mix.number).spent_s
    drafts = store.drafts.all()
    return {
        "panel": job.panel_id,
        "state": state_digest(job.state),
        "zero_s": zero_s,
        "setting": int(store.setting(COUNTER) or 0),
        "draft": int(drafts[0].name) if drafts else 0,
    }


@dataclass
class Told:
    """What came through of one life of the maker: acts acknowledged, one perhaps in flight, what was true.

    doubtful: what the disk would not say that it has; the last of it may be there.
    """

    acts: Acts = field(default_factory=list)
    doubtful: Acts = field(default_factory=list)
    in_flight: Acts = field(default_factory=list)
    true: dict[str, Any] | None = None

    def hear(self, line: str) -> None:
        said = json.loads(line)
        if "writes" in said:
            self.in_flight.append(tuple(said["writes"]))
            return
        if said.get("stepped") == "in doubt":
            self.doubtful = self.in_flight
        elif said.get("stepped") != "refused":
            self.acts += self.in_flight
        if self.in_flight and said.get("stepped", "done") == "done":
            self.doubtful = []  # written over since
        self.in_flight, self.true = [], said


@dataclass
class Found:
    """What a check found. wrong: whatever must not be, empty where all is well."""

    wrong: list[str] = field(default_factory=list)
    acts: int = 0
    running: int = 0
    kept_untold: int = 0  # an act in flight that the book has all the same
    off_s: float = 0.0  # how far a countdown stood from where it should, at most


def check(folder: Path, acts_before: Acts, told: Told) -> tuple[Found, Acts]:
    """Open the book again and compare it with what was told; return that, and the acts in it.

    acts_before: the acts that the book held when this life of the maker began.
    """
    clock, found = SystemClock(), Found()
    opened = open_book(folder, clock)
    found.wrong += [f"opened with: {fault}" for fault in opened.told]
    with opened.store as store:
        kept = _acts_in(store)
        found.acts = len(kept)
        _compare_acts(kept, acts_before, told, found)
        try:
            _compare_states(store, told, found)
            _look_at_clocks(store, clock, told, found)
        except (LookupError, AttributeError, AssertionError) as error:  # what others build upon is gone
            found.wrong.append(f"the book does not fold: {error!r}")
        _look_at_files(store, told, found)
    return found, kept


def _acts_in(store: Store) -> Acts:
    """Return the entries of the book act by act, as they were told: an act that goes on counts twice."""
    rows = store._connection.execute("SELECT act_id, body FROM event ORDER BY seq").fetchall()
    acts: list[tuple[str, list[str]]] = []
    for act_id, body in rows:
        if not acts or acts[-1][0] != act_id:
            acts.append((act_id, []))
        acts[-1][1].append(body)
    return [(act_id, digest_of(bodies), len(bodies)) for act_id, bodies in acts]


def _compare_acts(kept: Acts, before: Acts, told: Told, found: Found) -> None:
    if kept[: len(before)] != before:
        found.wrong.append("acts from before are gone or changed")
    there = {act_id: (digest, count) for act_id, digest, count in kept[len(before) :]}
    for act_id, parts in _parts(told.acts).items():
        digest, count = there.get(act_id, ("", 0))
        if count < sum(size for _, size in parts):
            found.wrong.append(f"act {act_id[:8]} was told of and has {count} entries, not {parts}")
        elif len(parts) == 1 and count == parts[0][1] and digest != parts[0][0]:
            found.wrong.append(f"act {act_id[:8]} says something else")
    told_whole = _parts([*told.acts, *told.doubtful, *told.in_flight])
    for act_id, (_, count) in there.items():
        sizes = [size for _, size in told_whole.get(act_id, [])]
        if count not in [sum(sizes[: k + 1]) for k in range(len(sizes))]:
            found.wrong.append(f"act {act_id[:8]} has {count} entries, about to be written were {sizes}")
    in_flight = {act_id for act_id, _, _ in [*told.in_flight, *told.doubtful]}
    acknowledged = {act_id: sum(n for _, n in parts) for act_id, parts in _parts(told.acts).items()}
    untold = [a for a in in_flight if a in there and there[a][1] > acknowledged.get(a, 0)]
    found.kept_untold = len(untold)
    if len(untold) > 1:
        found.wrong.append(f"{len(untold)} acts are there that nobody was told of")


def _parts(acts: Acts) -> dict[str, list[tuple[str, int]]]:
    """Return the writes of each act, in order: one that goes on has several."""
    parts: dict[str, list[tuple[str, int]]] = {}
    for act_id, digest, count in acts:
        parts.setdefault(act_id, []).append((digest, count))
    return parts


def _compare_states(store: Store, told: Told, found: Found) -> None:
    """The fold of what was acknowledged is what was true; the fold of all of it can be made."""
    if told.true is None:
        return
    entries = store.events(told.true["panel"])
    in_flight = {act_id for act_id, _, _ in [*told.in_flight, *told.doubtful]}
    last = {act_id for act_id, _, _ in told.acts}
    if not in_flight & last:  # otherwise an act goes on, and its first part alone cannot be told apart here
        only = [entry for entry in entries if entry.act_id not in in_flight]
        if state_digest(fold(only)) != told.true["state"]:
            found.wrong.append("the fold is not what was told")
    fold(entries)


def _look_at_clocks(store: Store, clock: SystemClock, told: Told, found: Found) -> None:
    """Each mix that runs has spent what passed since its first contact, and its clock is not unsure."""
    for panel in store.panels():
        job = Job(store, clock, panel.panel_id)
        for mix in job.state.running_mixes:
            reading = job.reading(mix.number)
            spent_s = (clock.utc() - mix.contact_utc).total_seconds()
            off_s = abs(reading.spent_s - spent_s)
            sure = told.true is not None and not (told.in_flight or told.doubtful)
            if sure and panel.panel_id == told.true["panel"]:
                zero_s = told.true["zero_s"].get(str(mix.number))
                if zero_s is None:
                    found.wrong.append(f"mix {mix.number} runs, and nobody was told")
                else:
                    off_s = max(off_s, abs(clock.boot_s() - zero_s - reading.spent_s))
            found.running += 1
            found.off_s = max(found.off_s, off_s)
            if reading.unsure or off_s > CLOSE_S:
                found.wrong.append(f"mix {mix.number} is {off_s:.1f} s off, unsure: {reading.unsure}")


def _look_at_files(store: Store, told: Told, found: Found) -> None:
    """Photos, drafts and settings are as they were told, or one further where that was in flight."""
    for entry in store.of_kinds(("dry_photographed",)):
        assert isinstance(entry.event, DryPhotographed)
        store.blob(entry.event.photo)
    drafts = store.drafts.all()
    number = int(drafts[0].name) if drafts else 0
    if drafts and (len(drafts) > 1 or not store.drafts.file(drafts[0].draft_id, "picture")):
        found.wrong.append("a draft is half there")
    if told.true is not None:
        for what, now in (("draft", number), ("setting", int(store.setting(COUNTER) or 0))):
            if not told.true[what] <= now <= told.true[what] + 1:
                found.wrong.append(f"the {what} says {now}, told was {told.true[what]}")
    readings = store.folder / "readings"
    leavings = [p.name for p in readings.glob(".new-*")] if readings.exists() else []
    if len(leavings) > 1:
        found.wrong.append(f"{len(leavings)} half readings lie about")
