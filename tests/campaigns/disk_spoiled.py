"""Spoil a worked book: bits flipped, pages blanked, bytes overwritten, its end cut off.

It is then opened as the app opens it; whatever it holds afterwards must be what was written, and whatever
is missing must have been told.
"""

from __future__ import annotations

import random
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bench.book import Store, open_book
from bench.book.countdown import Mark
from bench.book.files import BOOK_NAME
from bench.book.told import Mended
from bench.book.worded import LOST, SEALED
from bench.fault import Fault
from bench.job.fold import fold
from tests.campaigns.figures import Figures
from tests.campaigns.walk import Walk
from tests.fakes.clock import FakeClock

DAY_S = 24 * 3600.0


@dataclass(frozen=True)
class Truth:
    """What a book truly held."""

    rows: list[tuple[Any, ...]]
    marks: dict[tuple[int, str], Mark]
    files: dict[str, bytes]
    words: dict[str, list[tuple[Any, ...]]]  # what is said in tables that hold words
    backed_up: int  # entries in its newest backup


def _rows_of(store: Store) -> list[tuple[Any, ...]]:
    events = "SELECT seq, panel_id, act_id, at_utc, body FROM event ORDER BY seq"
    return store._connection.execute(events).fetchall()


def _marks_of(store: Store) -> dict[tuple[int, str], Mark]:
    panels = [row[0] for row in store._connection.execute("SELECT panel_id FROM panel")]
    return {(panel, mix): mark for panel in panels for mix, mark in store.countdowns(panel).items()}


def _words_of(store: Store) -> dict[str, list[tuple[Any, ...]]]:
    wanted = {table: ", ".join(columns) for table, columns in SEALED.items()}
    return {t: sorted(store._connection.execute(f"SELECT {what} FROM {t}")) for t, what in wanted.items()}


def worked_folder(folder: Path, seed: int, *, backups: bool) -> Truth:
    """Work a book for three days, the newest acts without a backup, and return what it holds."""
    clock, rng = FakeClock(), random.Random(seed)
    backed_up = 0
    for day in range(3):
        opened = open_book(folder, clock)
        with opened.store as store:
            backed_up = len(_rows_of(store))
            going = Walk(store, clock, rng, photo_bytes=3000)
            for _ in range(25 if day == 1 else 12):
                try:
                    going.step()
                except Fault:
                    continue
                finally:
                    clock.advance(45)
            held = Truth(_rows_of(store), _marks_of(store), _files_of(store), _words_of(store), backed_up)
        clock.advance(DAY_S)
    if not backups:
        shutil.rmtree(folder / "backups")
        return Truth(held.rows, held.marks, held.files, held.words, 0)
    return held


def _files_of(store: Store) -> dict[str, bytes]:
    return dict(store._connection.execute("SELECT sha256, data FROM blob").fetchall())


def _flip(data: bytearray, rng: random.Random) -> bytearray:
    data[rng.randrange(len(data))] ^= 1 << rng.randrange(8)
    return data


def _blank_a_page(data: bytearray, rng: random.Random) -> bytearray:
    page = 4096 * rng.randrange(max(1, len(data) // 4096))
    data[page : page + 4096] = bytes(min(4096, len(data) - page))
    return data


def _overwrite(data: bytearray, rng: random.Random) -> bytearray:
    at = rng.randrange(len(data))
    some = rng.randbytes(rng.randint(1, 600))[: len(data) - at]
    data[at : at + len(some)] = some
    return data


def _cut_off(data: bytearray, rng: random.Random) -> bytearray:
    return data[: rng.randrange(len(data))]


SPOILS: dict[str, Callable[[bytearray, random.Random], bytearray]] = {
    "a bit flipped": _flip,
    "a page blanked": _blank_a_page,
    "bytes overwritten": _overwrite,
    "the end cut off": _cut_off,
}


def flips(folder: Path, times: int, seed: int) -> Figures:
    """Spoil a worked book so many times, and open each."""
    figures, rng = Figures(), random.Random(seed)
    names = ("with", "without")
    truths = {name: worked_folder(folder / name, seed, backups=name == "with") for name in names}
    for number in range(times):
        name, how = rng.choice(["with", "with", "without"]), rng.choice(list(SPOILS))
        here = Path(shutil.copytree(folder / name, folder / "here"))
        spoiled = bytes(SPOILS[how](bytearray((here / BOOK_NAME).read_bytes()), rng))
        (here / BOOK_NAME).write_bytes(spoiled)
        try:
            _look(here, truths[name], spoiled, figures, f"{number}, {how}, {name} backups")
        except Fault as fault:
            _refused(fault, how, figures)
        except Exception as error:
            figures.wrong.append(f"{number}, {how}: {type(error).__name__}: {error}")
        shutil.rmtree(here)
    return figures


def _refused(fault: Fault, how: str, figures: Figures) -> None:
    """A spoiled header may say another program or version: the file is then left alone, and that is told."""
    figures.done[f"left alone: {type(fault).__name__}"] += 1
    if type(fault).__name__ not in ("NewerBook", "OtherFile"):
        figures.wrong.append(f"{how}: {fault}")


def _look(here: Path, truth: Truth, spoiled: bytes, figures: Figures, where: str) -> None:
    clock = FakeClock()
    clock.advance(2 * DAY_S + 10 * 3600)  # the evening of the book's third day: its backup is made
    opened = open_book(here, clock)
    with opened.store as store:
        store._connection.text_factory = lambda data: data.decode(errors="replace")  # for the looks below
        told = [fault for fault in opened.told if isinstance(fault, Mended)]
        rows, marks = _rows_of(store), _marks_of(store)
        if rows != truth.rows[: len(rows)]:
            figures.wrong.append(f"{where}: an entry is not what was written")
        for key, mark in marks.items():
            if mark != truth.marks.get(key):
                figures.wrong.append(f"{where}: the countdown {key} is not what was written")
        for sha256 in store._connection.execute("SELECT sha256 FROM blob").fetchall():
            _look_at_a_file(store, sha256[0], truth, figures, where)
        for panel in store.panels():
            fold(store.events(panel.panel_id))
        if told:
            _look_at_mended(here, truth, spoiled, told[0], rows, figures, where)
            _look_at_words(_words_of(store), truth, told[0], figures)
            return
        figures.done["whole, nothing told"] += 1
        if len(rows) != len(truth.rows) or marks.keys() != truth.marks.keys():
            if len(rows) == len(truth.rows):
                figures.done["  … a countdown lost: unsure from now on"] += 1
            else:
                figures.wrong.append(f"{where}: entries are gone and nobody is told")
        for table, words in _words_of(store).items():
            if words != truth.words[table]:
                figures.wrong.append(f"{where}: a {table} says something else and nobody is told")


def _look_at_a_file(store: Store, sha256: str, truth: Truth, figures: Figures, where: str) -> None:
    try:
        if store.blob(sha256) != truth.files[sha256]:
            figures.wrong.append(f"{where}: a file is not what was kept")
    except Fault:
        figures.done["  … a file that has changed, named when it is asked for"] += 1


def _look_at_mended(
    here: Path, truth: Truth, spoiled: bytes, told: Mended, rows: list[Any], figures: Figures, where: str
) -> None:
    lost = len(truth.rows) - len(rows)
    which = "with backups" if truth.backed_up else "without a backup"
    figures.done[f"mended {which}"] += 1
    figures.done[f"mended {which}, entries there before"] += len(truth.rows)
    figures.done[f"mended {which}, entries lost"] += lost
    figures.done[f"mended {which}, nothing lost"] += lost == 0
    if (here / told.aside).read_bytes() != spoiled:
        figures.wrong.append(f"{where}: the damaged file is not kept as it was")
    if len(rows) < truth.backed_up:
        figures.wrong.append(f"{where}: {truth.backed_up - len(rows)} entries of the backup are gone")
    if told.kept != len(rows) or (told.lost is not None and told.lost != lost):
        figures.wrong.append(f"{where}: told {told.kept} kept, {told.lost} lost; {len(rows)}, {lost} are")


def _look_at_words(words: dict[str, list[Any]], truth: Truth, told: Mended, figures: Figures) -> None:
    """Count what is said that is not as it was, and what of it is told.

    What lay on a page that cannot be read at all is not told: nobody knows how much there was.
    """
    lost = told.words_lost
    here = {row[0] for row in words["panel"]}  # of those whose entries are lost, that is told
    files = {row[0] for row in words["blob"] if row[1] != LOST}  # those that are lost are told apart
    named = {
        "panel": {row[:2] for row in truth.words["panel"] if row[0] in here},
        "blob": {row for row in truth.words["blob"] if row[0] in files},
        "parted": {row for row in truth.words["parted"] if row[0] in here},
    }
    drafts = None if lost.drafts is None else lost.drafts + lost.drafts_gone
    counted = (
        *(("panel", lost.names), ("setting", lost.settings), ("draft", drafts)),
        *(("blob", lost.kinds), ("brought", lost.origins), ("parted", lost.beginnings)),
    )
    for table, said in counted:
        was = named.get(table, set(truth.words[table]))
        width = len(next(iter(was), ()))
        changed = len(was - {row[:width] for row in words[table]})
        figures.done[f"mended, {table}s not as they were"] += changed
        figures.done[f"mended, {table}s told as lost"] += said or 0
        figures.done[f"mended, {table}s not as they were, and nobody is told"] += bool(changed and said == 0)
