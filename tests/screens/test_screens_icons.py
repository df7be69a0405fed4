"""Icons are our own, told apart, thick enough for a look from afar, and never cost a word its size."""

import re
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bench.screens.contrast import TEXT_CONTRAST, contrast
from bench.screens.icons.dots import covered, shapes
from bench.screens.icons.drawings import DRAWINGS, GRID, STROKE
from bench.screens.icons.placing import AS_TYPE, LEAST_AS_TYPE
from bench.screens.icons.shown import LEAST_DP
from bench.screens.offscreen import Stage
from tests.fakes.gluing import gluing
from tests.gallery.scenes import SCENES
from tests.gallery.views import View, a_home, wrong_with

HOUSE = Path(__file__).parents[2]
LIKE = 0.75  # of what either of two icons covers, covered by both
NAMED = re.compile(r"""\bicon(?:\s*[:=]|"?\]?\s*=)\s*([^\n,)]*)""")


def named() -> set[str]:
    """Return every name of an icon in the kv files, and in the code of the screens."""
    from bench.job.acts.glueup import STEPS
    from bench.screens.panel_sides import ICONS as ACTS
    from bench.screens.rounds import ICONS as PLACES

    files = [*(HOUSE / "kv").glob("*.kv"), *(HOUSE / "bench" / "screens").rglob("*.py")]
    said = [value for path in files for value in NAMED.findall(path.read_text(encoding="utf-8"))]
    words = {word for value in said for word in re.findall(r'"([a-z_]+)"', value)}
    return words | set(ACTS.values()) | set(PLACES.values()) | set(STEPS)


def test_every_icon_that_is_named_is_drawn_and_every_drawing_is_used() -> None:
    assert named() == set(DRAWINGS)


def moved(drawing: str, by: float) -> str:
    """Return a drawing moved so far to the right and up."""
    parts = []
    for letter, numbers in shapes(drawing):
        places = len(numbers) if letter in "LPF" else 2
        parts.append(" ".join([letter, *(str(n + by if k < places else n) for k, n in enumerate(numbers))]))
    return "; ".join(parts)


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_lies_within_its_square_and_fills_some_of_it(name: str) -> None:
    quarter = GRID / 4
    up, down = (covered(moved(DRAWINGS[name], by), 96) for by in (quarter, -quarter))
    beyond = [up[:24], up[:, :24], down[-24:], down[:, -24:]]  # what lay left, below, above and right of it
    assert max(part.max() for part in beyond) < 0.1
    dots = covered(DRAWINGS[name], 96)
    assert 0.05 < dots.mean() < 0.6
    assert max(np.ptp(np.argwhere(dots > 0.5), axis=0)) > 0.65 * 96


@pytest.mark.parametrize("size_px", [24, 39])
def test_icons_differ_from_each_other(size_px: int) -> None:
    dots = {name: covered(drawing, size_px) for name, drawing in DRAWINGS.items()}
    alike = {}
    for (one, a), (other, b) in combinations(dots.items(), 2):
        share = float(np.minimum(a, b).sum() / np.maximum(a, b).sum())
        if share > LIKE and {one, other} != {"zoom_in", "zoom_out"}:
            alike[one, other] = round(share, 2)
    assert alike == {}
    zooms = np.abs(dots["zoom_in"] - dots["zoom_out"])
    assert zooms.sum() > 1.5 * STROKE * (size_px / GRID) ** 2  # the upright of the plus


def test_the_least_icon_still_has_strokes_of_two_dp() -> None:
    least_dp = LEAST_DP * STROKE / GRID
    assert least_dp >= 2
    bar = covered("L 12 4 12 20", 240)[120]
    assert bar.sum() == pytest.approx(STROKE / GRID * 240, abs=0.5)


@pytest.mark.parametrize(
    ("drawing", "area"),
    [
        ("O 12 12 6", np.pi * ((6 + STROKE / 2) ** 2 - (6 - STROKE / 2) ** 2)),
        ("D 12 12 6", np.pi * 36),
        ("F 4 4 20 4 12 16", 96),
        ("L 4 12 20 12", 16 * STROKE + np.pi * (STROKE / 2) ** 2),
        ("A 12 12 6 -90 90", np.pi * 6 * STROKE + np.pi * (STROKE / 2) ** 2),
        ("P 4 4 20 4 20 20 4 20", 64 * STROKE + np.pi * (STROKE / 2) ** 2 - STROKE**2),
    ],
)
def test_dots_cover_what_plain_geometry_says(drawing: str, area: float) -> None:
    assert covered(drawing, 240).sum() / 100 == pytest.approx(area, rel=0.01)


def words_of(act):
    name = act.ids.name
    return act.type_px, tuple(name.texture_size), tuple(name.size), tuple(act.size)


@pytest.mark.parametrize("scale", [0.85, 1.0, 1.5])
@pytest.mark.parametrize("width_dp", [96, 130, 180, 260, 500])
@pytest.mark.parametrize("text", ["Stringy", "Elsewhere", "Write a note", "Done"])
def test_an_icon_never_changes_the_words_nor_the_key(stage: Stage, text: str, width_dp: int, scale: float):
    from bench.screens.theme import theme
    from bench.screens.widgets import Row, SideAct

    theme.text_scale = scale
    row = Row(size_hint=(None, None), width=2 * width_dp + theme.gap)
    plain, signed = SideAct(text=text), SideAct(text=text, icon="stringy")
    for act in (plain, signed):
        row.add_widget(act)
    stage.show(row)
    stage.frame(3)
    assert words_of(plain) == words_of(signed)
    place = signed.icon_shown.place
    if place is None:
        return
    name = signed.ids.name
    from bench.screens.parts.fitting import widest_px

    line_px = widest_px(text, signed.type_px, name.width, bold=True)
    left = signed.width / 2 + place.words_x_px - line_px / 2
    top = signed.height / 2 + place.words_y_px + name.height / 2
    assert place.x_px + place.size_px <= left or place.y_px >= top - 1
    assert min(place.x_px, place.y_px, left) >= 0
    assert max(place.x_px + place.size_px, left + line_px) <= signed.width
    assert place.y_px + place.size_px <= signed.height
    assert top - name.height >= 0
    assert LEAST_AS_TYPE * signed.type_px <= place.size_px <= AS_TYPE * signed.type_px


@pytest.mark.parametrize(("width_dp", "shown"), [(300, True), (96, False)])
def test_where_there_is_no_room_beside_the_words_there_is_no_icon(stage: Stage, width_dp: int, shown: bool):
    from bench.screens.widgets import SideAct

    act = stage.show(SideAct(text="Write a note", icon="note", size_hint_x=None, width=width_dp))
    stage.frame(3)
    assert (act.icon_shown.place is not None) == shown


def test_an_icon_that_comes_and_goes_moves_nothing(stage: Stage) -> None:
    from bench.screens.widgets import Rows, SideAct

    rows = Rows()
    acts = [SideAct(text="Pause", icon="pause"), SideAct(text="Done")]
    for act in acts:
        rows.add_widget(act)
    stage.show(rows)
    seen = []
    for icon in ("pause", "", "play"):
        acts[0].icon = icon
        stage.frame(3)
        seen.append(([(tuple(a.pos), tuple(a.size)) for a in acts], acts[0].icon_shown.place is not None))
    assert [there for _, there in seen] == [True, False, True]
    assert seen[0][0] == seen[1][0] == seen[2][0]


def test_an_icon_has_the_ink_of_its_words_in_every_look_and_state(stage: Stage) -> None:
    from bench.screens.theme import theme
    from bench.screens.widgets import Act

    act = stage.show(Act(text="Done", icon="done"))
    for look in ("light", "dark", "light"):
        theme.look = look
        for tone, disabled, pressed in (
            ("act", False, False),
            ("side", False, False),
            ("side", False, True),
            ("act", False, True),
            ("side", True, False),
        ):
            act.tone, act.disabled, act.pressed = tone, disabled, pressed
            stage.frame(2)
            ink = act.icon_shown.colour
            ground = theme.plate if disabled else theme.held if pressed else getattr(theme, tone)
            assert ink == pytest.approx(tuple(act.ids.name.color), abs=0.005)
            assert contrast(ink, ground) >= TEXT_CONTRAST
    act.disabled = act.pressed = False


def test_what_is_drawn_is_seen_on_the_glass_at_either_density(stage: Stage, tmp_path) -> None:
    from bench.screens.widgets import SideAct

    act = SideAct(text="Done", icon="done", size_hint=(None, None), width=300)
    stage.show(act)
    for density, size in ((1.0, (1280, 800)), (2.0, (2560, 1600))):
        stage.resize(*size, density=density)
        stage.frame(4)
        place = act.icon_shown.place
        glass = np.asarray(Image.open(stage.picture(tmp_path / f"{density}.png")).convert("L"), dtype=float)
        x, y = (round(at) for at in act.to_window(act.x + place.x_px, act.y + place.y_px))
        side = place.size_px
        there = glass[::-1][y : y + side, x : x + side]
        drawn = 1 - (there - there.min()) / (there.max() - there.min())
        assert np.abs(drawn - covered(DRAWINGS["done"], side)).max() < 0.05
        assert side * STROKE / GRID >= 2 * density


def test_the_zoom_keys_have_a_magnifier_and_keep_their_word(stage: Stage, desk) -> None:
    for name, text in (("zoom_in", "+"), ("zoom_out", "–")):
        key = stage.find(name)
        assert (key.text, key.ids.name.opacity, key.icon_shown.place is not None) == (text, 0, True)


def test_pause_and_go_on_have_their_plain_signs(stage: Stage) -> None:
    with gluing(stage):
        stage.frame(3)
        assert stage.find("pause").icon == "pause"
        stage.tap("pause")
        assert stage.find("pause").icon == "play"


WORN = ("panel next", "glueup set", "book newest", "rounds places", "finish parts", "dry lay")


@pytest.mark.parametrize("scene", [s for s in SCENES if s.name in WORN], ids=lambda scene: scene.name)
def test_icons_lie_on_their_own_key_and_over_no_letter(stage: Stage, tmp_path, scene) -> None:
    from bench.screens.parts.acts import Act
    from bench.screens.parts.choice import Choice

    with a_home(tmp_path), scene.begin(stage, tmp_path) as desk:
        scene.reach(stage, desk)
        for view in (View("1280x800"), View("800x1280"), View("1024x600", text=1.5)):
            view.take(stage)
            assert wrong_with(stage) == {}
            signed = [w for w in stage.widgets() if isinstance(w, Act | Choice) and w.icon_shown]
            worn = [key for key in signed if key.icon_shown.place]
            assert worn
            for key in worn:
                place = key.icon_shown.place
                assert min(place.x_px, place.y_px) >= 0, key.test_name
                assert place.x_px + place.size_px <= key.width, key.test_name
                assert place.y_px + place.size_px <= key.height, key.test_name
        View("1280x800").take(stage)
