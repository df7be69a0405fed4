"""What lies on the bench where a scene begins; a start plays the app and yields its desk."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from bench.job.settings import FIRST_RUN, LAST_PANEL, OWED
from bench.resources import resource
from tests.fakes.benches import PACE, at_the_bench, changed, set_section, settle, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import hard_at_once
from tests.fakes.long_books import book_of, days
from tests.fakes.photographing import GRID
from tests.fakes.tracing import app_on

PATCH = BenchSet(pace_per_min=5.0, transfer="patch")
WARM = BenchSet(pace_per_min=40.0, adhesive="clear-fast", bed_mm=1.5, sure=0.75, temperature_C=23.0)
READY = BenchSet(adhesive="white-ready", pace_per_min=5.0)
COLOURS = grid_svg(
    24, 14, colour=lambda c, r: "#b3262a" if 3 < c < 9 and 3 < r < 9 else "#2f4a63" if r > 9 else "#d8d0b8"
)
LEFT_OUT = b'<path d="M0 0 L5 5" style="fill:none;stroke:#000"/></svg>'


def demo() -> bytes:
    return resource("assets", "demo", "lemons.svg").read_bytes()


@contextmanager
def _lemons(stage: Any, _home: Path, bench: BenchSet = PACE) -> Iterator[Any]:
    with at_the_bench(stage, demo(), bench=bench) as desk:
        yield desk


@contextmanager
def _report(stage: Any, _home: Path) -> Iterator[Any]:
    with at_the_bench(stage, grid_svg(24, 12).replace(b"</svg>", LEFT_OUT)) as desk:
        yield desk


@contextmanager
def _away(stage: Any, home: Path) -> Iterator[Any]:
    with _lemons(stage, home) as desk:
        job = desk.job
        set_section(job, advise(job).section)
        job.clock.advance(20 * 86_400)
        desk.come_back()
        settle(stage, desk)
        desk.go("rounds")
        desk.go("panel")
        yield desk


@contextmanager
def _cup(stage: Any, home: Path) -> Iterator[Any]:
    with _lemons(stage, home) as desk:
        number = advise(desk.job).section
        dry.lay(desk.job, number)
        desk.go("cup", section=number)
        changed(desk)
        yield desk


@contextmanager
def _warm(stage: Any, _home: Path) -> Iterator[Any]:
    """A cup so large that what is left in it gets hot."""
    with at_the_bench(stage, grid_svg(8, 8, pitch_mm=40.0), bench=WARM) as desk:
        largest = max(desk.job.state.with_stage("drawn"), key=lambda s: len(s.tesserae))
        dry.lay(desk.job, largest.number)
        desk.go("cup", section=largest.number)
        changed(desk)
        yield desk


@contextmanager
def _glueup(stage: Any, home: Path, bench: BenchSet = PACE) -> Iterator[Any]:
    with _lemons(stage, home, bench) as desk:
        desk.go("glueup", mix=start_mix(desk.job, advise(desk.job).section))
        changed(desk)
        yield desk


@contextmanager
def _twins(stage: Any, home: Path) -> Iterator[Any]:
    """Two mixes at once; the second was begun six minutes later."""
    with _glueup(stage, home) as desk:
        job = desk.job
        other = next(s.number for s in job.state.with_stage("drawn"))
        dry.lay(job, other)
        job.clock.advance(360)
        mix = cup.open_mix(job, other, job.state.bench.temperature_C)
        cup.acknowledge(job, mix)
        cup.first_contact(job, mix)
        changed(desk)
        yield desk


@contextmanager
def _job(stage: Any, job: Any) -> Iterator[Any]:
    from bench.app import bench_app

    with stage.play(bench_app(job)) as app:
        yield app.desk
        settle(stage, app.desk)


@contextmanager
def _long(stage: Any, home: Path) -> Iterator[Any]:
    with Store.open(home / "long") as store, _job(stage, book_of(store, days(30, pause_after=20))) as desk:
        yield desk


@contextmanager
def _hard(stage: Any, _home: Path) -> Iterator[Any]:
    with at_the_bench(stage, COLOURS) as desk:
        hard_at_once(desk.job)
        changed(desk)
        yield desk


@contextmanager
def _first(stage: Any, home: Path) -> Iterator[Any]:
    with Store.open(home / "first") as store:
        job = open_panel(store, FakeClock(), demo(), "lemons.svg", name="Bowl of lemons")
        store.set_setting(FIRST_RUN, OWED)
        store.set_setting(LAST_PANEL, str(job.panel_id))
        with _job(stage, job) as desk:
            yield desk


@contextmanager
def _photographed(stage: Any, _home: Path) -> Iterator[Any]:
    with at_the_bench(stage, GRID) as desk:
        yield desk


START: dict[str, Callable[[Any, Path], AbstractContextManager[Any]]] = {
    "lemons": _lemons,
    "report": _report,
    "away": _away,
    "cup": _cup,
    "glueup": _glueup,
    "twins": _twins,
    "warm": _warm,
    "ready": lambda stage, home: _glueup(stage, home, READY),
    "patch": lambda stage, home: _lemons(stage, home, PATCH),
    "long": _long,
    "hard": _hard,
    "first": _first,
    "traced": lambda stage, home: app_on(stage, home / "traced"),
    "photographed": _photographed,
    "photo kept": _lemons,
}
