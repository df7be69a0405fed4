"""Statements, signal words and precautions against the published rows of the GHS, revision 10."""

import json

import pytest
from hypothesis import given, settings

from bench.adhesive import hazards
from bench.resources import resource
from tests.fakes.products import CHECKS, codes

GHS = CHECKS["ghs_10"]
TABLE = json.loads(resource("shared", "hazard_statements.json").read_text("utf-8"))


@pytest.mark.parametrize(("code", "row"), GHS["hazard"].items())
def test_a_hazard_is_worded_and_signalled_as_published(code, row):
    says, signal = row
    assert says == hazards.wording(code)
    assert signal == hazards.signal_word([code])


@pytest.mark.parametrize(("code", "says"), GHS["precautionary"].items())
def test_a_precaution_is_worded_as_published(code, says):
    assert says == hazards.wording(code)


@pytest.mark.parametrize(("code", "precautions"), GHS["precautions_for"].items())
def test_a_hazard_calls_for_the_published_precautions(code, precautions):
    assert set(precautions) == set(hazards.precautions_for([code]))


def test_a_burn_calls_for_rinsing_at_once_and_for_emergency_help():
    """H314 uses P302+P361+P354 (published)."""
    called = hazards.precautions_for(["H314"])
    assert {"P302+P361+P354", "P305+P354+P338", "P316"} <= set(called)


def test_the_table_holds_no_code_that_revision_10_deleted():
    used = set(TABLE["precautionary"]) | {p for called in TABLE["precautions_for"].values() for p in called}
    assert not used & set(GHS["deleted"])
    assert hazards.table_revision() == "GHS 10"


def test_every_precaution_that_is_called_for_has_its_wording():
    called = {p for row in TABLE["precautions_for"].values() for p in row}
    assert called <= set(TABLE["precautionary"])
    assert set(TABLE["precautions_for"]) <= set(TABLE["hazard"])


def test_the_lesser_of_two_is_left_out():
    """Published omit rules: H314 omits H318, P260 omits P261."""
    assert hazards.without_lesser(["H314", "H318", "H317"]) == ("H314", "H317")
    both = hazards.precautions_for(["H314", "H317"])
    assert "P260" in both
    assert "P261" not in both


def test_the_stronger_first_aid_wins():
    aid = hazards.first_aid_for(["H315", "H317", "H319", "H314"])
    assert aid[0] == "P305+P354+P338"
    assert aid[1] == "P302+P361+P354"
    assert "P302+P352" not in aid
    assert aid[-1] == "P316"


def test_an_unknown_code_sends_to_the_label():
    assert hazards.wording("H999") == "read the label for H999"
    assert hazards.signal_word(["H999"]) == ""
    assert hazards.precautions_for(["H999"]) == ()


@given(codes())
@settings(deadline=None)
def test_first_aid_has_one_answer_for_each_place(some):
    starts = [code.split("+")[0] for code in hazards.first_aid_for(some)]
    assert len(starts) == len(set(starts))
