"""Where the photo of a dry lay comes from: files, good and bad, and a camera where there is one."""

import importlib
import os
import sys
import tomllib
import types
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.fakes.photographing import GRID, flow, photo_of, until

ROOT = Path(__file__).parents[2]


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage, GRID) as desk:
        yield desk


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"no picture at all", "neither a PNG"),
        (b"", "empty"),
        ("truncated", "breaks off"),
        ("tiny", "1 × 1"),
        ("huge", "megapixels"),
    ],
)
def test_a_file_that_is_no_photo_ends_in_the_card_and_nothing_is_kept(
    stage: Stage, desk, home, data, says
) -> None:
    path = home / "lay.jpg"
    if data == "truncated":
        path.write_bytes(photo_of(desk, 1).data[:900])
    elif data == "tiny":
        Image.new("RGB", (1, 1)).save(path)
    elif data == "huge":
        Image.new("L", (9000, 6000)).save(path)
    else:
        path.write_bytes(data)
    before = desk.job.store.last_seq(desk.job.panel_id)
    desk.go("photograph", section=1)
    stage.frame(2)
    stage.tap("photo_lay")
    until(stage, "fault")
    assert says in desk.fault_what
    assert "photo_lay" in stage.names()
    assert complaints(stage) == {}
    assert desk.job.store.last_seq(desk.job.panel_id) == before


def test_a_photo_from_too_far_away_leads_back_to_its_corners(stage: Stage, desk, home) -> None:
    Image.new("RGB", (120, 90), "white").save(home / "lay.png")
    desk.go("photograph", section=1)
    stage.frame(2)
    stage.tap("photo_lay")
    until(stage, "corner_name")
    stage.tap("go_on")
    until(stage, "fault")
    assert "from nearer" in desk.fault_todo
    assert "corner_name" in stage.names()


def test_on_bare_paper_nothing_can_be_counted(stage: Stage, desk, home) -> None:
    Image.new("RGB", (900, 700), (238, 236, 230)).save(home / "lay.png")
    desk.go("photograph", section=1)
    stage.frame(2)
    stage.tap("photo_lay")
    until(stage, "corner_name")
    stage.tap("go_on")
    until(stage, "count_is")
    assert stage.find("laid_count").text == "0"
    assert stage.find("count_is").disabled


def test_without_pictures_it_says_so(stage: Stage, desk, home) -> None:
    desk.go("photograph", section=1)
    stage.frame(3)
    assert "no picture" in stage.find("photos_say").text
    assert complaints(stage) == {}
    stage.tap("photo_now")
    assert "no camera" in desk.fault_what
    assert list(extras()["camera"])
    assert "extra 'camera'" in desk.fault_todo
    assert complaints(stage) == {}


def test_kivy_looks_through_what_the_extra_brings(stage: Stage, tmp_path, monkeypatch) -> None:
    """Source: Kivy's own list of cameras, and its one for OpenCV, with a film in place of a device."""
    from kivy.core import camera as cameras

    from bench.screens.drying import camera

    assert ("opencv", "camera_opencv", "CameraOpenCV") in cameras.providers
    (asked,) = extras()["camera"]
    assert asked.startswith("opencv-python-headless>=4")
    assert asked.endswith("<5")
    monkeypatch.setitem(sys.modules, "cv2", film_for_cv2("4.10.0"))
    monkeypatch.delitem(sys.modules, "kivy.core.camera.camera_opencv", raising=False)
    found = importlib.import_module("kivy.core.camera.camera_opencv").CameraOpenCV
    monkeypatch.setattr(camera, "camera_class", lambda: found)
    live, taken = camera.LiveCamera(), []
    live.bind(on_taken=lambda _live, picture: taken.append(picture))
    stage.show(live)
    live.begin()
    stage.run(0.5)
    live.take()
    assert taken[0].pixels.shape == (40, 60, 3)
    assert (taken[0].pixels[:20] == (255, 0, 0)).all()
    assert (taken[0].pixels[20:] == (0, 0, 255)).all()
    for too_new_or_none in ("5.0.0", "4.10.0 without a device"):
        monkeypatch.setitem(sys.modules, "cv2", film_for_cv2(too_new_or_none))
        monkeypatch.delitem(sys.modules, "kivy.core.camera.camera_opencv")
        found = importlib.import_module("kivy.core.camera.camera_opencv").CameraOpenCV
        with pytest.raises(camera.CameraSilent, match="none answers"):
            live.begin()


def extras():
    return tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["optional-dependencies"]


def film_for_cv2(version):
    """Return a cv2 that films red above blue, in the order of channels that OpenCV has."""
    frame = np.zeros((40, 60, 3), np.uint8)
    frame[:20, :, 2] = frame[20:, :, 0] = 255

    class VideoCapture:
        def __init__(self, index):
            self.sees = "without" not in version

        def set(self, prop, value):
            return True

        def get(self, prop):
            return 30.0

        def read(self):
            return (True, frame.copy()) if self.sees else (False, None)

        def grab(self):
            return self.sees

        def retrieve(self):
            return self.read()

        def isOpened(self):
            return self.sees

    names = {"CAP_PROP_FRAME_WIDTH": 3, "CAP_PROP_FRAME_HEIGHT": 4, "CAP_PROP_FPS": 5}
    return types.SimpleNamespace(__version__=version, VideoCapture=VideoCapture, **names)


def test_the_newest_picture_comes_first(stage: Stage, desk, home) -> None:
    (home / "Pictures").mkdir()
    for age, name in ((500, "old.jpg"), (10, "Pictures/new.jpg")):
        (home / name).write_bytes(b"x")
        os.utime(home / name, (1e9 - age, 1e9 - age))
    desk.go("photograph", section=1)
    stage.frame(3)
    old, new = stage.find("photo_old"), stage.find("photo_new")
    assert new.y > old.y


class FakeCamera:
    """A camera that sees half black, half white above it."""

    works = True
    running = 0

    def __init__(self, *, index, resolution, stopped):
        from kivy.graphics.texture import Texture

        if not self.works:
            raise OSError("no such device")
        pixels = np.zeros((400, 600, 3), np.uint8)
        pixels[:200] = 255
        self.texture = Texture.create(size=(600, 400), colorfmt="rgb")
        self.texture.blit_buffer(pixels.tobytes(), colorfmt="rgb", bufferfmt="ubyte")
        self.texture.flip_vertical()

    def bind(self, *, on_texture):
        self._told = on_texture

    def unbind(self, *, on_texture):
        self._told = None

    def start(self):
        FakeCamera.running += 1
        self._told(self)

    def stop(self):
        FakeCamera.running -= 1


def test_where_there_is_a_camera_the_photo_is_taken_here_and_now(
    stage: Stage, desk, home, monkeypatch
) -> None:
    from bench.screens.drying import camera

    monkeypatch.setattr(camera, "camera_class", lambda: FakeCamera)
    desk.go("photograph", section=1)
    stage.frame(3)
    stage.tap("photo_now")
    stage.frame(3)
    assert complaints(stage) == {}
    assert FakeCamera.running == 1
    stage.tap("camera_take")
    until(stage, "corner_name")
    taken = flow(stage).raw.pixels
    assert (taken[:190].min(), taken[210:].max()) == (255, 0)
    assert FakeCamera.running == 0
    stage.tap("back")
    stage.tap("photo_now")
    desk.go("panel")
    assert FakeCamera.running == 0
    monkeypatch.setattr(FakeCamera, "works", False)
    desk.go("photograph", section=1)
    stage.frame(3)
    stage.tap("photo_now")
    assert "no such device" in desk.fault_what
