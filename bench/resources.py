"""Find what ships beside the code: kv/, assets/ and shared/."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def resource(*parts: str) -> Path:
    """Return the path of a shipped file or folder, e.g. `resource("assets", "demo", "lemons.svg")`.

    In a checkout the three folders stand beside the package; in an installed wheel they travel inside
    it, under `_data`. A missing resource is a broken installation and raises FileNotFoundError.
    """
    for root in (_PACKAGE / "_data", _PACKAGE.parent):
        path = root.joinpath(*parts)
        if path.exists():
            return path
    raise FileNotFoundError(f"{'/'.join(parts)} is not part of this installation; install potwatch again")
