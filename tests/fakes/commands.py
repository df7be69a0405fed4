"""What a command answers as JSON."""

import json


def as_json(run, *argv):
    """Run a command that must succeed; return its JSON."""
    code, out, err = run(*argv, "--json", "-")
    assert (code, err) == (0, "")
    return json.loads(out)
