"""Run commands as Python calls them, with their output caught and a data folder of their own."""

import pytest

from bench.commands import main
from bench.resources import resource


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    folder = tmp_path / "home"
    monkeypatch.setenv("POTWATCH_HOME", str(folder))
    return folder


@pytest.fixture
def run(capsys):
    """Return (exit code, stdout, stderr) of a command line."""

    def call(*argv):
        code = main([str(a) for a in argv])
        out = capsys.readouterr()
        return code, out.out, out.err

    return call


@pytest.fixture
def refused(run):
    """Run a command that must be refused: code 1, nothing on stdout, one line on stderr, returned."""

    def call(*argv):
        code, out, err = run(*argv)
        assert (code, out) == (1, "")
        assert err.startswith("potwatch: ")
        assert err.count("\n") == 1
        assert "Traceback" not in err
        return err

    return call


@pytest.fixture
def demo():
    return resource("assets", "demo", "lemons.svg")
