"""The command line: a module a command, each imported only when it is called."""

from bench.commands.main import main

__all__ = ["main"]
