"""`python -m bench` and the `potwatch` command."""

import os
import sys


def run() -> None:
    """Speak as this machine is set to, run the command line and leave with its exit code."""
    # before the first model: to look for plugins that are nothing to ours costs a start eight milliseconds
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    from bench.book import Device, data_folder
    from bench.commands import main
    from bench.speech import speak

    speak(Device(data_folder()).tongue())
    sys.exit(main(sys.argv[1:]))


if __name__ == "__main__":
    run()
