"""`python -m bench` and the `potwatch` command."""

import sys


def run() -> None:
    """Run the command line and leave with its exit code."""
    from bench.commands import main

    sys.exit(main(sys.argv[1:]))


if __name__ == "__main__":
    run()
