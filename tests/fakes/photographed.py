"""A section photographed as it lay, without anybody looking at the picture."""

from bench.drawing.dry import Correction
from bench.job.acts import dry_photo
from bench.job.job import Job

CORNERS = ((10.0, 12.0), (400.0, 15.0), (405.0, 300.0), (8.0, 305.0))


def photograph(job: Job, number: int, said: int, *, data: bytes = b"a photo", corrections=(), margin_mm=10.0):
    """Keep a photo of a section in which one piece fewer was found than is said."""
    dry_photo.photograph(
        job,
        number,
        data,
        corner_px=CORNERS,
        frame=dry_photo.task_for(job, number, margin_mm).frame,
        corrections=corrections or (Correction(kind="added", points_mm=((3.0, 4.0),)),),
        found=max(0, said - 1),
        said=said,
    )
