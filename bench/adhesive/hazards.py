"""The statements on a label: exact wording by code, signal word, and what the GHS asks for in return.

The table is shared/hazard_statements.json: wording and map of one revision of the GHS, sources inside.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Any

from bench.resources import resource
from bench.speech import said, say

# What a response begins with, in the order a person needs it: eyes, skin, breath, mouth.
_FIRST_AID = ("P305", "P302", "P303", "P304", "P301", "P308")
# Where two responses begin alike, the one that says this part is the stronger.
_STRONGER = ("P354", "P361", "P316", "P330")


@cache
def _table() -> Mapping[str, Any]:
    table: Mapping[str, Any] = json.loads(resource("shared", "hazard_statements.json").read_text("utf-8"))
    return table


def table_revision() -> str:
    """Return the revision whose wording the table holds, "GHS 10"."""
    return str(_table()["revision"])


def hazard_codes() -> tuple[str, ...]:
    """Return the codes of all hazard statements of the table, in its order."""
    return tuple(_table()["hazard"])


def wording(code: str) -> str:
    """Return the exact wording of a statement; "read the label for H999" where the table has none.

    In German it is that of Regulation (EC) No 1272/2008, Annexes II to IV; the advice that only newer
    revisions of the GHS have (P203, P265, P316 to P319, P354) is worded in the same manner, no source.
    """
    table = _table()
    if code in table["hazard"]:
        return said(table["hazard"][code]["says"])
    if code in table["precautionary"]:
        return said(table["precautionary"][code])
    return say("read the label for {code}", code=code)


def signal_word(codes: Iterable[str]) -> str:
    """Return "Danger" when any statement calls for it, else "Warning", else "" where none calls for one."""
    words = {_table()["hazard"].get(code, {}).get("signal", "") for code in codes}
    return next((said(word) for word in ("Danger", "Warning") if word in words), "")


def precautions_for(codes: Sequence[str]) -> tuple[str, ...]:
    """Return the P codes that the statements call for, each once, the lesser of two left out.

    The lesser: H318 beside H314, P261 beside P260. A code the table does not know calls for none.
    """
    hazards = without_lesser(codes)
    called = [code for hazard in hazards for code in _table()["precautions_for"].get(hazard, ())]
    return without_lesser(tuple(dict.fromkeys(called)))


def without_lesser(codes: Sequence[str]) -> tuple[str, ...]:
    """Return the codes without those that another one makes needless on a label."""
    omitted = {lesser for code in codes for lesser in _table()["omit"].get(code, ())}
    return tuple(code for code in codes if code not in omitted)


def first_aid_for(codes: Sequence[str]) -> tuple[str, ...]:
    """Return the P codes to have at hand when it has happened: one each for eyes, skin, breath, mouth.

    Of two that begin alike the stronger is kept. Last the rash that follows later, and the help to get.
    """
    called = precautions_for(codes)
    responses = [_strongest([code for code in called if code.startswith(start)]) for start in _FIRST_AID]
    later = [code for code in ("P333+P317", "P342+P316") if code in called]
    help_code = next((code for code in ("P316", "P317") if code in called), None)
    return tuple(code for code in (*responses, *later, help_code) if code)


def _strongest(codes: Sequence[str]) -> str | None:
    for part in _STRONGER:
        for code in codes:
            if part in code:
                return code
    return codes[0] if codes else None
