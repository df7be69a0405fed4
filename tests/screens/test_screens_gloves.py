"""The look that every screen for gloves is put to sees what is wrong."""

from bench.screens.offscreen import Stage
from tests.fakes.gloves import complaints


def test_what_is_small_close_cut_or_beyond_the_rim_is_seen(stage: Stage) -> None:
    from kivy.uix.floatlayout import FloatLayout
    from kivy.uix.label import Label

    from bench.screens.widgets import SideAct

    room = FloatLayout()
    stage.show(room)
    places = {
        "fine": (600, 600, 200),
        "small": (100, 300, 90),
        "close": (205, 300, 200),
        "out": (1200, 100, 200),
    }
    for name, (x, y, width) in places.items():
        act = SideAct(text=name, test_name=name, size_hint=(None, None), width=width, pos=(x, y))
        room.add_widget(act)
    narrow = Label(
        text="Hardener",
        font_size=34,
        size_hint=(None, None),
        size=(60, 130),
        text_size=(60, None),
        pos=(900, 600),
    )
    room.add_widget(narrow)
    stage.frame(4)
    seen = complaints(stage)
    assert set(seen["too small"]) == {"small"}
    assert {frozenset(pair) for pair in seen["too close"]} == {frozenset(("small", "close"))}
    assert "out" in seen["off screen"]
    assert "broken within a word" in seen["cut"]["Hardener"]
