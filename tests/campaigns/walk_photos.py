"""Pictures that the maker who works by chance keeps: on entries, and of a sample tile."""

from __future__ import annotations

import io
import random

import numpy as np
from PIL import Image

from bench.drawing.photo import Picture
from bench.job.acts import attach, sample
from bench.job.job import Job

SIDE_PX = 24
CORNERS = ((1.0, 1.0), (22.0, 1.0), (22.0, 22.0), (1.0, 22.0))


def _pixels(rng: random.Random) -> np.ndarray:
    grey = rng.randint(40, 200)
    return np.full((SIDE_PX, SIDE_PX, 3), (grey, grey - 9, grey - 20), np.uint8)


def attach_on(job: Job, rng: random.Random) -> None:
    """Attach a photo to the newest entry."""
    about = job.store.last_seq(job.panel_id)
    attach.attach_photo(job, about, Picture(_pixels(rng), "photo"))


def measure_on(job: Job, rng: random.Random) -> None:
    """Measure one grout on a tile of one colour."""
    out = io.BytesIO()
    Image.fromarray(_pixels(rng)).save(out, "PNG")
    state = "sealed" if rng.random() < 0.5 else "dry"
    spots = {f"grout {rng.randint(1, 3)}": (50.0, 50.0)}
    sample.measure(job, out.getvalue(), corner_px=CORNERS, spots=spots, state=state)
