"""The two small programs that run on the graphics card: one for glass, one for lines of constant width."""

from kivy.graphics import RenderContext

GLASS_FORMAT = [(b"vPosition", 2, "float"), (b"vHue", 3, "float")]
LINE_FORMAT = [
    (b"vPosition", 2, "float"),
    (b"vOff", 2, "float"),
    (b"vHue", 3, "float"),
    (b"vDash", 2, "float"),
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
attribute vec2 vOff;
attribute vec3 vHue;
attribute vec2 vDash;
uniform mat4 modelview_mat;
uniform mat4 projection_mat;
uniform float mm_per_dp;
varying vec4 hue;
varying float phase;
void main(void) {
    hue = vec4(vHue, 1.0);
    phase = vDash.y > 0.0 ? vDash.x / (mm_per_dp * vDash.y) : 0.0;
    gl_Position = projection_mat * modelview_mat * vec4(vPosition + vOff * mm_per_dp, 0.0, 1.0);
}
"""
)
_LINE_FRAGMENT = (
    _HEAD
    + """
varying vec4 hue;
varying float phase;
void main(void) {
    if (fract(phase * 0.5) > 0.5) discard;
    gl_FragColor = hue;
}
"""
)


def glass_context() -> RenderContext:
    """Return a context for meshes of GLASS_FORMAT."""
    return _context(_GLASS_VERTEX, _GLASS_FRAGMENT)


def line_context() -> RenderContext:
    """Return a context for meshes of LINE_FORMAT; set its `mm_per_dp` as a float."""
    context = _context(_LINE_VERTEX, _LINE_FRAGMENT)
    context["mm_per_dp"] = 1.0
    return context


def _context(vertex: str, fragment: str) -> RenderContext:
    # both at once: set one by one, Kivy would link the first with its own other half, and fail
    context = RenderContext(vs=vertex, fs=fragment, use_parent_projection=True, use_parent_modelview=True)
    if not context.shader.success:
        raise RuntimeError("the graphics card did not take the panel's program")
    return context
