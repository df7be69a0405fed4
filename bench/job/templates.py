"""Templates of this panel at true size: a section or the whole, with the edge of what is set as it is."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bench.drawing.panel import FloatArray
from bench.drawing.template import PAPERS_MM, Sheet, sheets_of
from bench.finish.glass import glass_list
from bench.finish.told import mirrored_said, told_of
from bench.job.job import Job
from bench.speech import full_date, say

LIKE_DE = 5.0  # ΔE00 up to which colours are one glass on paper, and share a letter
NEAR_MM = 12.0  # of ground that is not set yet: farther off an edge is of no use any more


def is_mirrored(job: Job) -> bool:
    """Tell whether templates are mirrored: only where glass is laid face down."""
    return job.state.bench.transfer == "face-down"


def panel_sheets(
    job: Job,
    sections: Sequence[int] = (),
    *,
    paper_mm: tuple[float, float] = PAPERS_MM["A4"],
    like_de: float = LIKE_DE,
) -> tuple[Sheet, ...]:
    """Return the sheets of these sections, each on its own; none named: of the whole panel.

    Raises NoSuchSection, PaperTooSmall or TooManySheets.
    """
    listed = glass_list(job.panel, like_de=like_de)
    mirrored, edges_mm = is_mirrored(job), edges_now_mm(job)
    notes = [mirrored_said()] if mirrored else []
    if edges_mm and job.state.edge_utc is not None:
        day = full_date(job.state.edge_utc.astimezone())
        notes.append(say("thick line: the edge as set, photographed on {day}", day=day))
    wanted = [(n, np.asarray(job.section(n).tesserae, np.int32)) for n in sections]
    whole = [(None, np.arange(job.panel.tessera_count, dtype=np.int32))]
    return tuple(
        sheet
        for number, some in wanted or whole
        for sheet in sheets_of(
            job.panel,
            some,
            told_of(job.panel, some, listed, section=number, name=job.state.name, notes=notes),
            paper_mm=paper_mm,
            mirrored=mirrored,
            edges_mm=edges_mm,
        )
    )


def edges_now_mm(job: Job) -> tuple[FloatArray, ...]:
    """Return what still counts of the edge that was traced last: stretches beside ground not set yet. [mm]"""
    from scipy.spatial import cKDTree

    if job.state.edge is None:
        return ()
    done = {t for s in job.state.with_stage("set") for t in s.tesserae}
    bare = [k for k in range(job.panel.tessera_count) if k not in done]
    if not bare:
        return ()
    tree = cKDTree(np.concatenate([job.panel.rings_mm(k)[0] for k in bare]))
    stretches = []
    for told in job.state.edge.lines_mm:
        line = np.asarray(told, np.float64)
        near = np.concatenate([[False], tree.query(line)[0] <= NEAR_MM, [False]]).astype(np.int8)
        turns = np.flatnonzero(np.diff(near))
        stretches += [line[a:b] for a, b in zip(turns[::2], turns[1::2], strict=True) if b - a > 1]
    return tuple(stretches)
