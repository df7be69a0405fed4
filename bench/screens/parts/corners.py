"""Four corners to be set on a photo by finger, in gloves or not: a lens shows what the finger hides.

It knows nothing of what the corners are for.
"""

from __future__ import annotations

from typing import Any

from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.graphics.texture import Texture
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty

from bench.screens.keys import Keyed
from bench.screens.parts.photo import Photo, Pixels, texture_of
from bench.screens.parts.plates import Rows
from bench.screens.picture.clip import Clip
from bench.screens.picture.quad import corner_name, moved, nearest, opposite, under_lens, ways
from bench.screens.theme import theme

RING_DP = 26
REACH_DP = 56  # a finger down so near to a corner takes hold of it where it is
LENS_DP = 232
MOST_LENS_SHARE = 0.42  # of the widget's shorter side
LENS_TIMES = 4  # as large as the picture beside it
LEAST_LENS_PX = 8
_RIM_DP = 6
_WIDTHS = ((5.0, "act"), (2.5, "act_ink"))  # dark round light: seen on any picture

_ARROWS = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}


class CornersPhoto(Photo):
    """A photo with four corners, in pixels from top left clockwise; `chosen` is the one that moves.

    A tap away from all corners puts the nearest one there; a finger that takes hold of a corner draws it
    along without covering it. The lens stands in the widget's corner farthest from the chosen one.
    """

    corners = ListProperty()
    chosen = NumericProperty(0)
    step_px = NumericProperty(1.0)

    def __init__(self, **kwargs: Any) -> None:
        self._marks, self._clip = InstructionGroup(), Clip()
        self._finger: Any = None
        self._hold = (0.0, 0.0)
        super().__init__(**kwargs)
        for instruction in (self._clip.before, self._marks, self._clip.after):
            self.canvas.add(instruction)
        self.bind(corners=self._draw, chosen=self._draw)
        theme.bind(act=self._draw)

    def choose_next(self) -> None:
        """Choose the next corner, clockwise."""
        self.chosen = (self.chosen + 1) % 4

    def nudge(self, right: int, down: int) -> None:
        """Move the chosen corner by so many steps."""
        x, y = self.corners[self.chosen]
        self._put((x + right * self.step_px, y + down * self.step_px))

    def _put(self, at: tuple[float, float]) -> None:
        self.corners = moved(self.corners, int(self.chosen), at, self.size_px)

    # -- fingers -----------------------------------------------------------------------------------------

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos) or self.view is None or not self.corners:
            return False
        if getattr(touch, "is_mouse_scrolling", False) or self._finger is not None:
            return True
        touch.grab(self)
        self._finger = touch
        at = self.to_picture_px(touch.pos)
        self.chosen = nearest(self.corners, at)
        corner = self.corners[self.chosen]
        near = self._apart(touch.pos, self.to_window_px(corner)) <= dp(REACH_DP)
        self._hold = (corner[0] - at[0], corner[1] - at[1]) if near else (0.0, 0.0)
        if not near:
            self._put(at)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        at = self.to_picture_px(touch.pos)
        self._put((at[0] + self._hold[0], at[1] + self._hold[1]))
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self._finger = None
        return True

    @staticmethod
    def _apart(a: tuple[float, float], b: tuple[float, float]) -> float:
        return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)

    # -- what is drawn -----------------------------------------------------------------------------------

    def _place(self, *_: object) -> None:
        super()._place()
        if self.view is not None:
            self._clip.place(self.view, self.pos, rim_dp=1.4 * RING_DP)
        self._draw()

    def _draw(self, *_: object) -> None:
        self._marks.clear()
        if self.view is None or len(self.corners) != 4 or self._texture is None:
            return
        places = [self.to_window_px(corner) for corner in self.corners]
        flat = [value for place in places for value in place]
        self._lines(lambda wide: Line(points=flat, close=True, width=wide))
        for k, place in enumerate(places):
            radius = dp(RING_DP * (1.4 if k == self.chosen else 1.0))
            self._lines(lambda wide, c=(*place, radius): Line(circle=c, width=wide))
        self._draw_lens()

    def _lines(self, line: Any) -> None:
        for wide_dp, colour in _WIDTHS:
            self._marks.add(Color(*getattr(theme, colour)))
            self._marks.add(line(dp(wide_dp) / 2))

    @property
    def lens_box(self) -> tuple[float, float, float]:
        """Left, bottom and edge of the lens on the window."""
        edge = round(min(dp(LENS_DP), MOST_LENS_SHARE * min(self.size)))
        right, up = opposite(int(self.chosen))
        rim = dp(_RIM_DP)
        x = self.right - edge - rim if right else self.x + rim
        y = self.top - edge - rim if up else self.y + rim
        return round(x), round(y), edge

    def _draw_lens(self) -> None:
        x, y, edge = self.lens_box
        if edge < LEAST_LENS_PX:
            return  # the widget has no size yet
        middle = (x + edge / 2, y + edge / 2)
        rim = dp(_RIM_DP)
        self._marks.add(Color(*theme.act))
        self._marks.add(Rectangle(pos=(x - rim, y - rim), size=(edge + 2 * rim, edge + 2 * rim)))
        self._marks.add(Color(1, 1, 1))
        self._marks.add(Rectangle(texture=self._lens_texture(edge), pos=(x, y), size=(edge, edge)))
        for way in ways(self.corners, int(self.chosen)):
            longest = max(abs(way[0]), abs(way[1])) or 1.0
            end = (middle[0] + way[0] / longest * edge / 2, middle[1] - way[1] / longest * edge / 2)
            self._lines(lambda wide, p=(*middle, *end): Line(points=p, width=wide, cap="none"))
        self._lines(lambda wide: Line(circle=(*middle, dp(9)), width=wide))

    def _lens_texture(self, edge: float) -> Texture:
        assert self.pixels is not None
        across = max(8, round(edge / (LENS_TIMES * self.view.px_per_mm)))
        every = max(1, round(across / edge))  # of a fine picture no more than the lens can show
        x, y = self.corners[int(self.chosen)]
        across = across // every + across // every % 2
        seen: Pixels = under_lens(self.pixels[::every, ::every], (x / every, y / every), across)
        texture = texture_of(seen if self.tone is None else self.tone[seen])
        texture.mag_filter = "nearest" if edge > 3 * across else "linear"
        return texture


class CornersPart(Keyed, Rows):
    """The photo with its corners, and below it keys for gloves: nudges, and the next corner.

    `corners` follows the finger; arrows on a keyboard nudge too.
    """

    corners = ListProperty()
    name = StringProperty("")

    def show(self, pixels: Pixels, corners: Any, *, step_px: float, tone: Any = None) -> None:
        """Show a picture with corners to be set."""
        photo = self.ids.photo
        photo.step_px, photo.corners = step_px, list(corners)
        self.chosen_is(photo.chosen)
        photo.show(pixels, tone)

    def put(self, corners: Any) -> None:
        """Put all corners elsewhere."""
        self.ids.photo.corners = list(corners)

    def nudge(self, right: int, down: int) -> None:
        self.ids.photo.nudge(right, down)

    def chosen_is(self, which: float) -> None:
        """Name the corner that moves."""
        self.name = corner_name(int(which))

    def on_key(self, name: str) -> bool:
        if name not in _ARROWS:
            return False
        self.nudge(*_ARROWS[name])
        return True
