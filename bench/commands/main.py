"""Choose the command, run it, and turn whatever is wrong with the input into one line."""

from __future__ import annotations

import argparse
import importlib
import io
import sys
from collections.abc import Sequence
from pathlib import Path

from bench import __version__
from bench.fault import Fault

COMMANDS = {
    "plan": "divide a drawing into sections and prescribe their batches",
    "draw": "write a drawing again as plain SVG in mm, with the sections of a plan",
    "revise": "lay a revised drawing over a panel in progress: show the difference, or accept it",
    "template": "write true-size sheets to lay the glass on, of a drawing or of the last panel",
    "batch": "work out resin and hardener for an area",
    "capacity": "work out how much can be set from one batch",
    "glass": "list the glass of a drawing: pieces, area, sheets to buy, colours side by side",
    "finish": "work out joints, grout, zones or inks, and the weight of the glass",
    "record": "write the papers of a panel for its maker and its client, and its tables",
    "practice": "practise a glue-up on a fast clock, without a trace in the book",
    "stock": "show the bottles of the workshop, and what the last panel still needs of them",
    "bundle": "write a panel with all that belongs to it into one file, or open such a file",
    "book": "read the book of a panel, write its glue-ups or its calendar, put a copy of it back",
}

USAGE = "usage: potwatch [DRAWING.svg | COMMAND …]"


def main(argv: Sequence[str]) -> int:
    """Run one command line and return its exit code: 0 done, 1 the input is at fault, 2 usage."""
    _write_what_it_can(sys.stdout)
    _speak_as_set()
    try:
        return _run(list(argv))
    except Fault as fault:
        return _tell(str(fault))
    except SystemExit as stop:  # argparse has said why
        return stop.code if isinstance(stop.code, int) else 2
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        sys.stderr.close()  # the reader of a pipe has gone: nobody is left to tell
        return 0
    except (OSError, MemoryError, RecursionError) as error:
        name = getattr(error, "filename", None)
        return _tell(f"{name or type(error).__name__}: {_plain(error)}; check the file, its folder and room")


def _speak_as_set() -> None:
    """Speak as this machine is set to, on the command line as on screen."""
    from bench.book import Device, data_folder
    from bench.speech import speak

    speak(Device(data_folder()).tongue())


def _write_what_it_can(stream: object) -> None:
    """Let a stream write '?' for what its encoding has no sign for, e.g. '×' in plain ASCII."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")


def _tell(line: str) -> int:
    print(f"potwatch: {line}", file=sys.stderr)
    return 1


def _plain(error: BaseException) -> str:
    return " ".join((getattr(error, "strerror", None) or str(error) or "too large").split())


def _run(argv: list[str]) -> int:
    if argv and argv[0] in ("-h", "--help"):
        print(_help())
        return 0
    if argv and argv[0] == "--version":
        print(f"potwatch {__version__}")
        return 0
    if argv and argv[0] in COMMANDS:
        return _command(argv[0], argv[1:])
    if len(argv) > 1 or (argv and not _looks_like_a_file(argv[0])):
        print(f"{USAGE}\npotwatch: unknown command '{argv[0]}'; see potwatch --help", file=sys.stderr)
        return 2
    from bench.app import run_app  # draws: the only place here that leads to Kivy

    code: int = run_app(Path(argv[0]) if argv else None)
    return code


def _looks_like_a_file(word: str) -> bool:
    return not word.startswith("-") and (Path(word).suffix != "" or Path(word).exists())


def _command(name: str, argv: list[str]) -> int:
    module = importlib.import_module(f"bench.commands.{name}")
    parser = argparse.ArgumentParser(
        prog=f"potwatch {name}", description=COMMANDS[name].capitalize() + ".", allow_abbrev=False
    )
    module.add_arguments(parser)
    code: int = module.run(parser.parse_args(argv))
    return code


def _help() -> str:
    rows = "\n".join(f"  {name:<10} {what}" for name, what in COMMANDS.items())
    return (
        f"{USAGE}\n\nWithout a command: open the app on the last panel, on the drawing given (one that the "
        f"book knows goes back to its panel), or on the demo.\n\n{rows}\n\n"
        "potwatch COMMAND --help tells the options of each."
    )
