"""Every view of every screen: a name, what lies on the bench, and how to get there from the panel."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import Any

from tests.gallery import ways as w
from tests.gallery.starts import START

Step = str | Callable[[Any, Any], object]


@dataclass(frozen=True)
class Scene:
    """steps: 'go SCREEN' turns to a screen, other words are tapped one by one, a function does more."""

    name: str
    start: str
    steps: tuple[Step, ...]

    @property
    def screen(self) -> str:
        return self.name.partition(" ")[0]

    def begin(self, stage: Any, home: Any) -> AbstractContextManager[Any]:
        """Play the app with what this scene needs on the bench; yield the desk."""
        return START[self.start](stage, home)

    def reach(self, stage: Any, desk: Any) -> None:
        """Go to the view."""
        stage.frame(4)
        for step in self.steps:
            if callable(step):
                step(stage, desk)
            elif step.startswith("go "):
                desk.go(step.removeprefix("go "))
            else:
                for name in step.split():
                    w.tap(stage, name)
            stage.frame(3)


def _scenes(start: str, *rows: tuple[Any, ...]) -> list[Scene]:
    return [Scene(name, start, tuple(steps)) for name, *steps in rows]


SCENES = (
    *_scenes(
        "lemons",
        ("panel next",),
        ("panel section", w.tap_section),
        ("panel hand", w.tap_section, "section_shape"),
        ("panel split", w.tap_section, "section_shape hand_split"),
        ("panel whole", "zoom_fit"),
        ("panel days", "days"),
        ("panel set", w.set_some),
        ("panel soft", w.set_some, w.tap_set),
        ("panel mistake", w.mistake),
        ("dry lay", "next"),
        ("dry count", "next count"),
        ("dry to go", "next as_drawn"),
        ("dry too many", "next count", w.type_in("180")),
        ("dry too slow", w.too_slow, "go dry"),
        ("dry fault", w.too_slow, "go dry", w.split_in_vain),
        ("dry photo", "next photograph"),
        ("dry transfer", w.owe_transfer, "next"),
        ("finish parts", w.set_some, "go finish"),
        ("finish thickness", w.set_some, "go finish", "thickness"),
        ("finish weight", w.set_some, "go finish", "weighing"),
        ("finish papers", w.set_some, "go finish", "papers"),
        ("finish costs", w.set_some, "go finish", "papers costs"),
        ("finish glass", w.set_some, "go finish", "glass"),
        ("finish cautions", w.set_some, "go finish", "cautions"),
        ("edge choose", w.set_some, "go edge"),
        ("rounds places", "elsewhere"),
        ("rounds practice", "elsewhere to_practice"),
        ("workshop places", "go workshop"),
        ("workshop cutting", "go workshop", "work_cutting"),
        ("workshop grout", "go workshop", "work_grout"),
    ),
    *_scenes("report", ("panel report",)),
    *_scenes("away", ("panel away",)),
    *_scenes(
        "cup",
        ("cup room",),
        ("cup pad", "type_room"),
        ("cup bottles", "bottles"),
        ("cup hot", "type_room", w.type_in("31"), "use_room"),
        ("cup cautions", "use_room"),
        ("cup aid", "use_room first_aid"),
        ("cup weigh", "use_room read_it"),
        ("cup poured", "use_room read_it rung_2"),
        ("cup typed", "use_room read_it type_resin"),
        ("cup late", "use_room read_it rung_2 met_before"),
        ("cup stock", w.past_date, "use_room"),
    ),
    *_scenes("lemons", ("cup nothing", "go cup"), ("glueup nothing", "go glueup")),
    *_scenes(
        "glueup",
        ("glueup stir", w.minutes(0.5)),
        ("glueup ratio", "ratio"),
        ("glueup ratio over", "ratio" + 8 * " hardener_more"),
        ("glueup ratio pad", "ratio type_hardener"),
        ("glueup spread", w.minutes(1.5), "step_spread"),
        ("glueup set", w.setting, w.minutes(4)),
        ("glueup paused", w.setting, w.minutes(4), "pause"),
        ("glueup area", w.setting, w.minutes(2), "count_here"),
        ("glueup late", w.setting, w.minutes(4), "late"),
        ("glueup done", w.setting, w.minutes(4), "done"),
        ("glueup left", w.setting, w.minutes(4), "done some_left"),
        ("glueup which", w.setting, w.minutes(4), "done some_left left_which"),
        ("glueup why", w.setting, w.minutes(4), "done some_left left_counted"),
        ("glueup left pad", w.setting, w.minutes(4), "done some_left left_many"),
        ("glueup late pad", w.setting, w.minutes(4), "late late_other"),
        ("glueup resin pad", "ratio type_resin"),
        ("glueup stringy", w.setting, w.minutes(8), "stringy"),
        ("glueup over", w.setting, w.minutes(26)),
        ("glueup mistake", w.setting, w.mistake),
        ("panel mix runs", w.setting, "go panel"),
        ("book mix runs", w.setting, "go book"),
    ),
    *_scenes("twins", ("glueup twins",)),
    *_scenes("warm", ("cup warms", "use_room")),
    *_scenes("ready", ("glueup ready",)),
    *_scenes(
        "long",
        ("book newest", "go book"),
        ("book photo", "go book", w.attached),
        ("book long", "go book", w.long_note),
        ("book note", "go book", "write_note"),
        ("book learned", "go book", "what_it_learned"),
        ("book learned next", "go book", "what_it_learned graph_next"),
        ("book backups", "go book", "backups"),
        ("book some", "go book", "some"),
        ("book words", "go book", "find", w.letters("set ")),
        ("book found", "go book", "find", w.letters("set 60"), "lot_use", w.rest),
        ("book none", "go book", "find", w.letters("vermilion"), "lot_use", w.rest),
    ),
    *_scenes("lemons", ("book weigh", w.set_some, "go book", "weigh_cup"), ("book short", "go book")),
    *_scenes(
        "hard",
        ("grouting next", "go grouting"),
        ("grouting zones", "go grouting", "zones"),
        ("grouting ways", "go grouting", "zones zone_propose"),
        ("grouting zone", "go grouting", "zones zone_propose answer_1"),
        ("grouting sun", "go grouting", "sun"),
        ("grouting when", "go grouting", "when"),
        ("seeing colours", "go grouting", "go seeing", w.rest),
        ("tile choose", "go grouting", "go tile"),
    ),
    *_scenes(
        "lemons",
        ("setup first", "go setup"),
        ("setup adhesive", "go setup", "set_adhesive"),
        ("setup hand", "go setup", "set_hand"),
        ("setup sure", "go setup", "set_sure"),
        ("setup transfer", "go setup", "set_transfer"),
        ("tablet first", "go tablet"),
        ("tablet text", "go tablet", "set_text_scale"),
        ("tablet pedal", "go tablet", "to_pedal key_count"),
        ("card measure", "go card"),
        ("label begin", "go label"),
        ("label name", "go label", "begin_new"),
        ("stock none", "go stock"),
        ("stock asked", "go stock", "add_bottle"),
        ("stock lot", "go stock", "add_bottle answer_1 answer_0", w.type_in("125.5")),
        ("stock bottles", w.bottles, "go stock"),
        ("stock bottle", w.bottles, "go stock", "bottle_1"),
        ("open drawings", "go open"),
        ("open revising", w.redrawn, "go open", "open_file_redrawn file_lay_over"),
        ("open brought", w.another, "go open", "open_bundle_another"),
        ("book bundle", w.set_some, "go book", "bundle"),
    ),
    *_scenes(
        "patch", ("setup patch", "go setup"), ("dry patch", "next"), ("dry patch to go", "next as_drawn")
    ),
    *_scenes(
        "first",
        ("first what",),
        ("first size", "first_size"),
        ("first adhesive", "first_panel"),
        ("first pace", "first_panel first_clear-slow"),
        ("first watch", "first_panel first_clear-slow first_time"),
    ),
    *_scenes(
        "traced",
        ("trace picture", *w.upto("picture")),
        ("trace corners", *w.upto("corners")),
        ("trace kind", *w.upto("kind")),
        ("trace lines", *w.upto("lines")),
        ("trace areas", *w.to_areas),
        ("trace area", *w.to_areas, w.tap_area),
        ("trace area join", *w.to_areas, w.tap_area, "join"),
        ("trace area so", *w.to_areas, w.tap_area, "so"),
        ("trace area rows", *w.to_areas, w.tap_area, "so rows"),
        ("trace area glass", *w.to_areas, w.tap_area, "so glass"),
        ("trace area sheet", *w.to_areas, w.tap_area, "so glass glass_colour"),
        ("trace lay", *w.to_areas, "go_on", w.rest),
        ("trace brush", *w.to_areas, "go_on", w.rest, "brush"),
        ("trace empty", "go open", "open_empty", w.rest),
        ("trace outline", "go open", "open_empty", w.rest, w.sized),
        ("trace outline ring", "go open", "open_empty", w.rest, w.sized, "shape_ring"),
    ),
    *_scenes("photographed", ("photograph corners", w.to_corners), ("photograph pieces", w.to_pieces)),
    *_scenes("photographed", ("edge found", w.to_edge)),
    *_scenes("photo kept", ("glueup photo", w.kept_photo)),
    *_scenes(
        "lemons", ("practice panel", w.practise), ("practice cup", w.practise, "next as_drawn to_the_cup")
    ),
)

SHORT = {  # a scene or more of each screen; what waits for photos is looked at in its own tests
    *("panel next", "panel section", "panel mistake", "dry count", "dry to go", "cup room", "cup cautions"),
    *("cup typed", "cup poured", "glueup stir", "glueup ratio", "glueup set", "glueup late", "glueup done"),
    *("glueup stringy", "glueup twins", "finish parts", "book newest", "book learned", "grouting next"),
    *("book words", "book found", "dry fault"),
    *("setup first", "tablet first", "card measure", "label name", "stock bottles", "open drawings"),
    *("first what", "workshop cutting", "rounds places", "edge choose", "practice cup", "trace kind"),
    *("seeing colours", "tile choose"),
}
