"""What the book's entries are made of: kind, version and fields, nested parts included."""

from bench.book.events import EVENTS


def event_shapes() -> dict[str, str]:
    """Return the fields of every event, under its kind and version, and of every part that it is made of."""
    shapes = {}
    for name, schema in EVENTS.json_schema()["$defs"].items():
        fields = schema["properties"]
        kind = fields.get("kind", {}).get("const")
        shapes[f"{kind}, version {fields['version']['default']}" if kind else name] = " ".join(sorted(fields))
    return dict(sorted(shapes.items()))
