"""Know where the book is kept, and where papers go."""

from __future__ import annotations

import os
from pathlib import Path


def documents_folder() -> Path:
    """Return the folder that papers are written into; nothing is created here.

    Beside the book where POTWATCH_HOME is set, else among the user's own documents.
    """
    if os.environ.get("POTWATCH_HOME", "").strip():
        return data_folder() / "papers"
    from platformdirs import user_documents_dir

    return Path(user_documents_dir()) / "Potwatch"


def data_folder() -> Path:
    """Return the folder of the book: POTWATCH_HOME where it is set, else the user's own data folder.

    Nothing is created here; opening the store does that.
    """
    chosen = os.environ.get("POTWATCH_HOME", "").strip()
    if chosen:
        return Path(os.path.expanduser(chosen)).absolute()
    from platformdirs import user_data_dir

    return Path(user_data_dir("potwatch", appauthor=False))
