"""Files made up from their grammar by Hypothesis: the other half of the fuzzer."""

from __future__ import annotations

import json

from hypothesis import strategies as st

from bench.pace.csv_file import COLUMNS
from tests.campaigns.hostile import JSON_VALUES, NUMBERS, WORDS

numbers = st.one_of(
    st.sampled_from(NUMBERS),
    st.floats(allow_nan=True, allow_infinity=True).map(repr),
    st.integers(-(10**40), 10**40).map(str),
    st.floats(-200, 200).map(lambda x: f"{x:.3f}"),
)
words = st.one_of(st.sampled_from(WORDS), st.text(max_size=30))
_escaped = words.map(lambda w: w.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;"))
_names = st.sampled_from(("a", "b", "c"))

_commands = st.tuples(
    st.sampled_from("MmLlHhVvCcSsQqTtAaZzXe"), st.lists(numbers, max_size=8), st.sampled_from((" ", ",", ""))
).map(lambda t: t[0] + t[2].join(t[1]))
_paths = st.lists(_commands, max_size=12).map(lambda parts: "M" + "".join(parts))
_transforms = st.lists(
    st.tuples(
        st.sampled_from(("translate", "scale", "rotate", "matrix", "skewX", "skewY", "none")),
        st.lists(numbers, max_size=6),
    ).map(lambda t: f"{t[0]}({' '.join(t[1])})"),
    max_size=4,
).map(" ".join)
_attributes = st.lists(
    st.one_of(
        st.tuples(st.just("id"), _names),
        st.tuples(st.sampled_from(("x", "y", "width", "height", "r", "rx", "cx", "cy")), numbers),
        st.tuples(st.just("d"), _paths),
        st.tuples(st.just("transform"), _transforms),
        st.tuples(st.just("points"), st.lists(numbers, max_size=12).map(" ".join)),
        st.tuples(st.just("viewBox"), st.lists(numbers, max_size=5).map(" ".join)),
        st.tuples(st.just("href"), st.one_of(_names.map(lambda n: f"#{n}"), _escaped)),
        st.tuples(
            st.sampled_from(("fill", "style", "class", "data-glass", "data-adhesive", "data-board")), _escaped
        ),
        st.tuples(st.just("style"), numbers.map(lambda n: f"fill:red;opacity:{n};stroke-width:{n}")),
    ),
    max_size=5,
    unique_by=lambda pair: pair[0],
).map(lambda pairs: "".join(f' {name}="{value}"' for name, value in pairs))
_shapes = st.tuples(
    st.sampled_from(
        ("path", "rect", "circle", "ellipse", "polygon", "polyline", "line", "use", "image", "text")
    ),
    _attributes,
).map(lambda t: f"<{t[0]}{t[1]}/>")
_trees = st.recursive(
    _shapes,
    lambda inner: st.tuples(
        st.sampled_from(("g", "g", "defs", "symbol", "svg", "clipPath", "a", "switch")),
        _attributes,
        st.lists(inner, max_size=4),
    ).map(lambda t: f"<{t[0]}{t[1]}>{''.join(t[2])}</{t[0]}>"),
    max_leaves=25,
)
svgs = st.tuples(st.lists(numbers, min_size=2, max_size=4), _trees, _trees).map(
    lambda t: (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" '
        f'viewBox="0 0 {" ".join(t[0][:2])}">'
        f'<rect x="9" y="9" width="9" height="9"/>{t[1]}{t[2]}</svg>'
    ).encode("utf-8", "replace")
)

_values = st.recursive(
    st.one_of(st.sampled_from(JSON_VALUES), st.text(max_size=9), st.integers(), st.floats()),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.text(max_size=9), inner, max_size=4)
    ),
    max_leaves=9,
)
plans = st.one_of(
    _values,
    st.fixed_dictionaries(
        {"tesserae": st.lists(st.fixed_dictionaries({"id": _values, "section": _values}), max_size=9)}
    ),
).map(lambda value: json.dumps(value).encode())

_tables = st.sampled_from(
    ("ratio", "density", "working_time", "cure", "hazard", "hazard.resin", "service", "x")
)
_keys = st.sampled_from(
    ("name", "kind", "colour", "by_mass", "by_volume", "eew_g_per_eq", "ahew_g_per_eq", "tolerance",
     "minutes",
     "resin_g_per_cm3", "hardener_g_per_cm3", "test_mass_g", "test_temperature_C", "firm_h", "handle_h",
     "grout_h", "temperature_C", "statements", "revision", "range_C", "typical", "eew_blend")
)  # fmt: skip
_toml_values = st.one_of(
    numbers,
    words.map(lambda w: json.dumps(w)),
    st.lists(numbers, max_size=4).map(lambda n: f"[{', '.join(n)}]"),
    st.lists(words.map(json.dumps), max_size=3).map(lambda n: f"[{', '.join(n)}]"),
    st.sampled_from(("1979-05-27", "07:32:00", "{ a = 1 }", "'''x'''", "true")),
)
_pairs = st.lists(st.tuples(_keys, _toml_values), max_size=5).map(
    lambda pairs: "".join(f"{key} = {value}\n" for key, value in pairs)
)
adhesives = st.tuples(_pairs, st.lists(st.tuples(_tables, _pairs), max_size=6)).map(
    lambda t: (t[0] + "".join(f"[{name}]\n{pairs}" for name, pairs in t[1])).encode("utf-8", "replace")
)

_cells = st.one_of(numbers, words, st.sampled_from(("yes", "no", "2026-01-05T09:00:00Z", "40", "600", "")))
_rows = st.lists(st.lists(_cells, min_size=10, max_size=10).map(",".join), max_size=5)
glue_ups = _rows.map(
    lambda rows: "\n".join(
        (",".join(COLUMNS),
         *rows)
    ).encode("utf-8", "replace")
)  # fmt: skip
sheets = st.lists(st.lists(_cells, min_size=4, max_size=4).map(",".join), max_size=5).map(
    lambda rows: "\n".join(("glass,width_mm,height_mm,sheets", *rows)).encode("utf-8", "replace")
)

MADE_UP = {"svg": svgs, "plan": plans, "adhesive": adhesives, "glue-ups": glue_ups, "sheets": sheets}
