"""Choose the command, run it, and turn whatever is wrong with the input into one line."""

from __future__ import annotations

import importlib
import io
import sys
from collections.abc import Sequence
from pathlib import Path

from bench import __version__
from bench.commands.parser import Parser
from bench.fault import Fault
from bench.speech import large_first, say


def purposes() -> dict[str, str]:
    """Say what each command is for."""
    return {
        "plan": say("divide a drawing into sections and prescribe their batches"),
        "draw": say("write a drawing again as plain SVG in mm, with the sections of a plan"),
        "revise": say("lay a revised drawing over a panel in progress: show the difference, or accept it"),
        "template": say("write true-size sheets to lay the glass on, of a drawing or of the last panel"),
        "batch": say("work out resin and hardener for an area"),
        "capacity": say("work out how much can be set from one batch"),
        "glass": say("list the glass of a drawing: pieces, area, sheets to buy, colours side by side"),
        "finish": say("work out joints, grout, zones or inks, and the weight of the glass"),
        "record": say("write the papers of a panel for its maker and its client, and its tables"),
        "practice": say("practise a glue-up on a fast clock, without a trace in the book"),
        "stock": say("show the bottles of the workshop, and what the last panel still needs of them"),
        "bundle": say("write a panel with all that belongs to it into one file, or open such a file"),
        "book": say("read the book of a panel, write its glue-ups or its calendar, put a copy of it back"),
    }


def _usage() -> str:
    return say("usage: potwatch [DRAWING.svg | COMMAND …]")


def main(argv: Sequence[str]) -> int:
    """Run one command line and return its exit code: 0 done, 1 the input is at fault, 2 usage."""
    _write_what_it_can(sys.stdout)
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
        where, why = name or type(error).__name__, _plain(error)
        return _tell(say("{where}: {why}; check the file, its folder and room", where=where, why=why))


def _write_what_it_can(stream: object) -> None:
    """Let a stream write '?' for what its encoding has no sign for, e.g. '×' in plain ASCII."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")


def _tell(line: str) -> int:
    print(f"potwatch: {line}", file=sys.stderr)
    return 1


def _plain(error: BaseException) -> str:
    return " ".join((getattr(error, "strerror", None) or str(error) or say("too large")).split())


def _run(argv: list[str]) -> int:
    if argv and argv[0] in ("-h", "--help"):
        print(_help())
        return 0
    if argv and argv[0] == "--version":
        print(f"potwatch {__version__}")
        return 0
    if argv and argv[0] in purposes():
        return _command(argv[0], argv[1:])
    if len(argv) > 1 or (argv and not _looks_like_a_file(argv[0])):
        unknown = say("unknown command '{command}'; see potwatch --help", command=argv[0])
        print(_usage(), f"potwatch: {unknown}", sep="\n", file=sys.stderr)
        return 2
    from bench.app import run_app  # draws: the only place here that leads to Kivy

    code: int = run_app(Path(argv[0]) if argv else None)
    return code


def _looks_like_a_file(word: str) -> bool:
    return not word.startswith("-") and (Path(word).suffix != "" or Path(word).exists())


def _command(name: str, argv: list[str]) -> int:
    module = importlib.import_module(f"bench.commands.{name}")
    purpose = purposes()[name]
    parser = Parser(
        prog=f"potwatch {name}", description=f"{large_first(purpose)}.", allow_abbrev=False
    )
    module.add_arguments(parser)
    code: int = module.run(parser.parse_args(argv))
    return code


def _help() -> str:
    rows = "\n".join(f"  {name:<10} {what}" for name, what in purposes().items())
    alone = say(
        "Without a command: open the app on the last panel, on the drawing given (one that the book knows "
        "goes back to its panel), or on the demo."
    )
    each = say("potwatch COMMAND --help tells the options of each.")
    return "\n\n".join((_usage(), alone, rows, each))
