"""Photograph a dry lay by touches, up to where its pieces are outlined."""

import time

from bench.job.acts import dry_photo
from bench.screens.offscreen import Stage
from tests.fakes.drawings import grid_svg
from tests.fakes.dry_photos import PLAIN, laid

GRID = grid_svg(12, 8, joint_mm=1.0)


def until(stage: Stage, shown) -> None:
    """Let frames go by until something is on the screen; what is looked for runs on a thread."""
    end = time.monotonic() + 60
    while shown not in stage.names() and time.monotonic() < end:
        time.sleep(0.01)
        stage.frame()
    assert shown in stage.names()
    stage.frame(3)


def flow(stage: Stage):
    from kivy.app import App

    return App.get_running_app().root.screen("photograph")


def photo_of(desk, number, **how):
    task = dry_photo.task_for(desk.job, number)
    frame = task.frame
    box = (frame.x_mm, frame.y_mm, frame.width_mm, frame.height_mm)
    return laid(desk.job.panel, task.tesserae, box, light=PLAIN, px_per_mm=6, **how)


def to_pieces(stage: Stage, desk, home, number: int, **how):
    """Go from Dry to the pieces of a photo made for the section; return the photo."""
    photo = photo_of(desk, number, **how)
    (home / "lay.jpg").write_bytes(photo.data)
    desk.go("dry", section=number)
    stage.frame(3)
    stage.tap("photograph")
    stage.tap("photo_lay")
    until(stage, "corner_name")
    stage.find("corners").corners = list(photo.corner_px)
    stage.tap("go_on")
    until(stage, "count_is")
    return photo
