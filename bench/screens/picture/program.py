"""Small programs for the graphics card: for glass and for lines of constant width."""

from collections.abc import Iterable
from typing import Any

import numpy as np
from kivy.graphics import Callback, Mesh, RenderContext
from kivy.graphics.opengl import GL_BLEND, glDisable, glEnable

GLASS_FORMAT = [(b"vPosition", 2, "float"), (b"vHue", 3, "float")]
LINE_FORMAT = [
    (b"vPosition", 2, "float"),
    (b"vOff", 3, "float"),
    (b"vLeft", 3, "float"),
    (b"vRight", 3, "float"),
    (b"vReach", 4, "float"),
    (b"vDash", 3, "float"),
]

_HEAD = """
#ifdef GL_ES
    precision highp float;
#endif
"""
_GLASS_VERTEX = (
    _HEAD
    + """
attribute vec2 vPosition;
attribute vec3 vHue;
uniform mat4 modelview_mat;
uniform mat4 projection_mat;
varying vec4 hue;
void main(void) {
    hue = vec4(vHue, 1.0);
    gl_Position = projection_mat * modelview_mat * vec4(vPosition, 0.0, 1.0);
}
"""
)
_GLASS_FRAGMENT = (
    _HEAD
    + """
varying vec4 hue;
void main(void) {
    gl_FragColor = hue;
}
"""
)
_LINE_VERTEX = (
    _HEAD
    + """
attribute vec2 vPosition;
attribute vec3 vOff;
attribute vec3 vLeft;
attribute vec3 vRight;
attribute vec4 vReach;
attribute vec3 vDash;
uniform mat4 modelview_mat;
uniform mat4 projection_mat;
uniform float mm_per_dp;
varying vec3 left;
varying vec3 right;
varying vec4 reach;
varying vec4 course;
void main(void) {
    left = vLeft;
    right = vRight;
    reach = vReach;
    course = vec4(vOff.z, vDash.x / mm_per_dp, vDash.y, vDash.z);
    gl_Position = projection_mat * modelview_mat * vec4(vPosition + vOff.xy * mm_per_dp, 0.0, 1.0);
}
"""
)
_LINE_FRAGMENT = (
    _HEAD
    + """
varying vec3 left;
varying vec3 right;
varying vec4 reach;
varying vec4 course;
void main(void) {
    bool on_left = course.x >= 0.0;
    float off = abs(course.x);
    vec2 own = on_left ? reach.xy : reach.zw;
    float dash = on_left ? course.z : course.w;
    if (off > own.x && dash > 0.0 && fract(0.5 * course.y / dash) > 0.5) discard;
    vec3 hue = off > own.x && off <= own.y ? (on_left ? left : right) : vec3(0.05);
    gl_FragColor = vec4(hue, 1.0);
}
"""
)


def blending(on: bool) -> Callback:
    """Return an instruction that turns blending on or off: glass and lines are opaque, and it costs time."""
    switch = glEnable if on else glDisable

    def turn(_instruction: Any) -> None:
        switch(GL_BLEND)

    return Callback(turn)


def glass_context() -> RenderContext:
    """Return a context for meshes of GLASS_FORMAT."""
    return _context(_GLASS_VERTEX, _GLASS_FRAGMENT)


def line_context() -> RenderContext:
    """Return a context for meshes of LINE_FORMAT; set its `mm_per_dp` as a float."""
    context = _context(_LINE_VERTEX, _LINE_FRAGMENT)
    context["mm_per_dp"] = 1.0
    return context


def fill(
    context: RenderContext, meshes: Iterable[tuple[np.ndarray, np.ndarray]], fmt: list[Any]
) -> None:
    """Add meshes of triangles to a context, each as its vertices and indices; fmt: the context's format."""
    for vertices, indices in meshes:
        context.add(Mesh(vertices=vertices.ravel(), indices=indices, fmt=fmt, mode="triangles"))


def _context(vertex: str, fragment: str) -> RenderContext:
    # both at once: set one by one, Kivy would link the first with its own other half, and fail
    context = RenderContext(vs=vertex, fs=fragment, use_parent_projection=True, use_parent_modelview=True)
    if not context.shader.success:
        raise RuntimeError("the graphics card did not take the panel's program")
    return context
