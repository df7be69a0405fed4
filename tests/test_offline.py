"""Potwatch never speaks to a network: no module of it could, and none does while a panel is worked."""

import ast
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

BENCH = Path(__file__).parents[1] / "bench"
BARRED = {
    "aiohttp", "asyncio", "ftplib", "http", "httpx", "imaplib", "nntplib", "poplib", "requests", "smtplib",
    "socket", "socketserver", "ssl", "telnetlib", "urllib", "urllib3", "webbrowser", "websockets", "xmlrpc",
}  # fmt: skip

CHILD = textwrap.dedent(
    """
    import sys

    def bar(event, args):
        if event.startswith("socket.") or event.startswith(("urllib.", "http.", "ftplib.", "smtplib.")):
            raise SystemExit(f"it spoke to the network: {event} {args!r}")

    sys.addaudithook(bar)
    """
)

COMMANDS = CHILD + textwrap.dedent(
    """
    from pathlib import Path
    from bench.commands import main
    from bench.resources import resource

    demo = str(resource("assets", "demo", "lemons.svg"))
    lines = [
        ["plan", demo, "--pace", "5", "--json", "plan.json", "--picture", "plan.png"],
        ["draw", demo, "--plan", "plan.json", "--svg", "out.svg"],
        ["template", demo, "--pdf", "sheets.pdf"],
        ["batch", "--area-cm2", "40"],
        ["capacity", "--pace", "5"],
        ["glass", demo],
        ["finish", demo],
        ["book"],
        ["stock"],
        ["bundle", "panel.zip"],
        ["bundle", "--open", "panel.zip"],
    ]
    from bench.book import Store, data_folder
    from tests.fakes.bundles import worked_panel

    with Store.open(data_folder()) as store:
        worked_panel(store)
    for words in lines:
        assert main(words) == 0, words
    print("done")
    """
)

SCREENS = CHILD + textwrap.dedent(
    """
    from bench.commands import main

    assert main(["practice", "--pictures", "pictures"]) == 0
    print("done")
    """
)

SPEAKS = CHILD + "import socket\nsocket.create_connection(('localhost', 9))\n"


def imports_of(path):
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module
            yield from (f"{node.module}.{name.name}" for name in node.names)
        elif isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "import_module":
            yield from (a.value for a in node.args if isinstance(a, ast.Constant))


def test_no_module_imports_what_speaks_to_a_network():
    found = [
        f"{path.relative_to(BENCH)}: {name}"
        for path in sorted(BENCH.rglob("*.py"))
        for name in imports_of(path)
        if name.split(".")[0] in BARRED or name.startswith(("kivy.network", "multiprocessing.connection"))
    ]
    assert found == []


def run(script, tmp_path):
    env = {
        **os.environ,
        "PYTHONPATH": str(BENCH.parent),
        "HOME": str(tmp_path),
        "POTWATCH_HOME": str(tmp_path / "home"),
    }
    return subprocess.run(
        [sys.executable, "-c", script], cwd=tmp_path, env=env, capture_output=True, text=True, timeout=600
    )


def test_the_bar_is_one(tmp_path):
    done = run(SPEAKS, tmp_path)
    assert done.returncode == 1
    assert "it spoke to the network" in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("script", [COMMANDS, SCREENS], ids=["commands", "screens"])
def test_no_socket_is_opened(tmp_path, script):
    done = run(script, tmp_path)
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.rstrip().endswith("done")
