"""Know where the book is kept, and where papers go."""

from __future__ import annotations

import os
from pathlib import Path


def data_folder() -> Path:
    """Return the folder of the book: POTWATCH_HOME where it is set, else the user's own data folder.

    Nothing is created here; opening the store does that.
    """
    chosen = os.environ.get("POTWATCH_HOME", "").strip()
    if chosen:
        return Path(os.path.expanduser(chosen)).absolute()
    from platformdirs import user_data_dir

    return Path(user_data_dir("potwatch", appauthor=False))


def documents_folder() -> Path:
    """Return where what is written for people goes: the user's own documents, beside a book that was moved.

    Nothing is created here.
    """
    if os.environ.get("POTWATCH_HOME", "").strip():
        return data_folder() / "documents"
    from platformdirs import user_documents_dir

    return Path(user_documents_dir()) / "Potwatch"
