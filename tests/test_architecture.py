"""The house stands: imports run downward only, and the pure rooms know nothing of screens, SQL or clocks."""

import ast
from pathlib import Path

import pytest
from pytest_archon import archrule

BENCH = Path(__file__).parents[1] / "bench"

# room -> the other rooms it may import; every room may use bench.fault and bench.resources
MAY_IMPORT = {
    "drawing": set(),
    "adhesive": set(),
    "pace": {"adhesive"},
    "sections": {"drawing"},
    "finish": {"drawing", "adhesive"},
    "book": set(),
    "job": {"drawing", "adhesive", "pace", "sections", "finish", "book"},
    "commands": {"drawing", "adhesive", "pace", "sections", "finish", "book", "job"},
    "screens": {"drawing", "adhesive", "pace", "sections", "finish", "book", "job"},
}
PURE = ("drawing", "adhesive", "pace", "sections", "finish")
DRAWING_PACKAGES = ("kivy", "kivy.*")
CLOCK_CALLS = {("time", "time"), ("time", "monotonic"), ("datetime", "now"), ("datetime", "utcnow")}


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_a_room_imports_only_the_rooms_below_it(room):
    barred = [f"bench.{other}*" for other in MAY_IMPORT if other != room and other not in MAY_IMPORT[room]]
    barred += ["bench.app", "bench.__main__"]
    allowed_to_draw = {"commands": ["bench.app", "bench.screens*"]}.get(room, [])
    rule = archrule(f"{room} looks down only").match(f"bench.{room}*")
    for pattern in barred:
        if pattern not in allowed_to_draw:
            rule = rule.should_not_import(pattern)
    rule.check("bench", only_direct_imports=True)


@pytest.mark.parametrize("room", [*PURE, "book", "job"])
def test_no_room_below_the_screens_draws(room):
    rule = archrule(f"{room} draws nothing").match(f"bench.{room}*")
    for pattern in DRAWING_PACKAGES:
        rule = rule.should_not_import(pattern)
    rule.check("bench", only_direct_imports=True)


@pytest.mark.parametrize("room", PURE)
def test_the_pure_rooms_know_no_database(room):
    archrule(f"{room} knows no SQL").match(f"bench.{room}*").should_not_import("sqlite3").check(
        "bench", only_direct_imports=True
    )


def _sources(room: str) -> list[Path]:
    return sorted((BENCH / room).rglob("*.py"))


@pytest.mark.parametrize("room", [*PURE, "job"])
def test_no_clock_is_read_and_no_chance_drawn_below_the_book(room):
    """Clock and random generator are arguments: no call reads one on its own."""
    found = []
    for path in _sources(room):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                owner = getattr(node.func.value, "id", getattr(node.func.value, "attr", ""))
                if (owner, node.func.attr) in CLOCK_CALLS:
                    found.append(f"{path.name}:{node.lineno}")
            if isinstance(node, ast.Import) and any(n.name == "random" for n in node.names):
                found.append(f"{path.name}:{node.lineno}")
    assert found == []


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_heavy_libraries_are_imported_only_where_they_are_used(room):
    """scipy, fpdf2 and icalendar cost up to a second: never at the import of a module."""
    found = []
    for path in _sources(room):
        for node in ast.parse(path.read_text()).body:
            names = []
            if isinstance(node, ast.Import):
                names = [n.name for n in node.names]
            elif isinstance(node, ast.ImportFrom) and node.module:
                names = [node.module]
            found += [f"{path.name}: {n}" for n in names if n.split(".")[0] in ("scipy", "fpdf", "icalendar")]
    assert found == []


def test_what_a_job_writes_is_wrapped_by_the_job_and_not_by_its_store():
    """`job.write` follows what it wrote, which the disk may refuse when the store's transaction ends."""
    found = []
    for path in (BENCH / "job" / "acts").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.With):
                wraps = any("job.store.together" in ast.unparse(item) for item in node.items)
                found += [f"{path.name}:{node.lineno}"] if wraps else []
    assert found == []


def test_initialisers_only_re_export():
    found = []
    for path in BENCH.rglob("__init__.py"):
        for node in ast.parse(path.read_text()).body:
            is_doc = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            is_name = isinstance(node, ast.Assign) and node.targets[0].id in ("__all__", "__version__")
            if not (is_doc or is_name or isinstance(node, ast.ImportFrom)):
                found.append(f"{path.relative_to(BENCH)}:{node.lineno}")
    assert found == []


def test_the_top_level_holds_only_what_the_project_is_made_of():
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "bench", "kv", "tests", "assets", "shared"}
    top = {p.name for p in BENCH.parent.iterdir() if not p.name.startswith(".")}
    assert top - allowed - {"dist", "build", "practice"} == set()
