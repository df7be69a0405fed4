"""A panel in one file: written from Book, opened from Drawings, its maker asked whose hands it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.book.events import MixClosed
from bench.job.acts.bringing import Brought
from bench.job.acts.bundling import bundle_name, bundle_panel
from bench.job.job import Job
from bench.job.same_hands import say_hands
from bench.job.settings import LAST_PANEL
from bench.screens.drawings import documents_folder, folder_words
from bench.screens.stack import stack
from bench.speech import say, say_n


class BringPart(BoxLayout):
    """Say what came of a bundle; ask once whose hands wrote it; then the panel is a tap away."""

    desk = ObjectProperty(None)
    name = StringProperty("")
    says = StringProperty("")
    more = StringProperty("")
    asks = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._books: tuple[str, ...] = ()
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self._told = self.ids.told.__self__
        self._acts = {name: self.ids[name].__self__ for name in ("whose", "turn")}

    def show(self, brought: Brought) -> None:
        """Work on what came from now on, and say what it is."""
        self.desk.hold_job(brought.job)
        brought.job.store.set_setting(LAST_PANEL, str(brought.job.panel_id))
        self._books = brought.ask_hands
        self.name, self.says = brought.name, f"{brought.said}."
        self._put(asks=bool(self._books))

    def answer(self, *, same: bool) -> None:
        """Keep what the maker says of the hands."""
        say_hands(self.desk.job.store, self._books, same=same)
        self._put(asks=False)
        yours, alone = say("Its glue-ups count as yours."), say("Its glue-ups stay in its book alone.")
        self.more = yours if same else alone

    def turn(self) -> None:
        self.desk.go("panel")

    def _put(self, *, asks: bool) -> None:
        ask = say("Whose hands set its glue-ups? The pace is learned from them only if they are yours.")
        self.asks, self.more = asks, ask if asks else ""
        stack(self, [self._told, self._acts["whose" if asks else "turn"]])


def bundled_words(job: Job) -> list[str]:
    """Write the panel into one file where a maker looks for it; return what to say of that."""
    path = _free(documents_folder() / bundle_name(job.state.name, job.clock.utc().astimezone()))
    done = bundle_panel(job.store, job.clock, job.panel_id, path)
    glue_ups = sum(isinstance(x.event, MixClosed) for x in job.store.events(job.panel_id))
    return [
        path.stem,
        say(
            "It lies in: {folder}. {entries}, {glue_ups}, {files}, {mb:.1f} MB.",
            folder=folder_words(path),
            entries=say_n("{count} entry", "{count} entries", done.entries),
            glue_ups=say_n("{count} glue-up", "{count} glue-ups", glue_ups),
            files=say_n("{count} file", "{count} files", done.files),
            mb=max(0.1, done.size_bytes / 1e6),
        ),
        say(
            "Copy it to the other tablet and open it there under Drawings. It holds this panel's whole book, "
            "its photos and its adhesives; whoever has it can read them."
        ),
    ]


def _free(path: Path) -> Path:
    """Return a path that is not taken."""
    number, free = 2, path
    while free.exists():
        free, number = path.with_stem(f"{path.stem} {number}"), number + 1
    return free
