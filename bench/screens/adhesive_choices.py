"""The adhesives to choose from: the shipped types, the maker's own files, and what lies elsewhere."""

from __future__ import annotations

from pathlib import Path

from bench.adhesive.product_file import find_product, shipped_products
from bench.book import data_folder
from bench.fault import Fault
from bench.job.job import Job
from bench.job.own_adhesives import own_folder
from bench.screens.drawings import drawing_files, usual_folders
from bench.screens.setting import Option
from bench.speech import said, say, say_n


def adhesives(job: Job) -> tuple[Option, ...]:
    """Return the shipped types, then the maker's own files, then those that lie elsewhere."""
    shipped = [
        Option(name, said(job.product(name).name), say("A typical one")) for name in shipped_products()
    ]
    folder = own_folder(data_folder())
    own = [
        Option(str(path), _name_in(path) or path.stem, say("Your own file: {name}", name=path.name))
        for path in drawing_files([folder], (".toml",))
    ]
    elsewhere = [path for path in drawing_files(usual_folders(), (".toml",)) if path.parent != folder]
    found = [
        Option(str(path), name, say("Found in {folder}", folder=path.parent.name))
        for path in elsewhere
        if (name := _name_in(path))
    ]
    return (*shipped, *own, *found)


def _name_in(path: Path) -> str:
    """Return the name of the adhesive that a file describes, "" where it describes none."""
    try:
        return said(find_product(str(path)).name)
    except Fault:
        return ""


def adhesive_note(job: Job) -> str:
    """Say which pieces will not follow the panel's adhesive, because the drawing names their own."""
    named = [name for name in job.panel.adhesive if name]
    if not named:
        return ""
    kinds = "; ".join(sorted({said(job.product(name).name) for name in named}))
    if len(named) == job.panel.tessera_count:
        return say("The drawing names the adhesive of all pieces, and they keep it: {kinds}.", kinds=kinds)
    return say_n(
        "The drawing names the adhesive of {count} piece, and it keeps it: {kinds}.",
        "The drawing names the adhesive of {count} pieces, and they keep it: {kinds}.",
        len(named),
        kinds=kinds,
    )
