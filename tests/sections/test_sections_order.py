"""Which section next: one edge is continued, soft work is left alone, nothing is shut in."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bench.sections.divide import best_division
from bench.sections.facts import SectionFacts, facts_of
from bench.sections.order import next_section, whole_order
from tests.tools.panels import panel, times_s


def row(*stages: str, **changes: object) -> list[SectionFacts]:
    """Sections 1, 2, 3 ... side by side, 100 mm each, 60 mm of joint between two."""
    count = len(stages)
    return [
        SectionFacts(
            number=i + 1,
            stage=stage,
            expected_s=900,
            centroid_mm=(100.0 * i, 0.0),
            neighbours={n: 60.0 for n in (i, i + 2) if 1 <= n <= count},
            open_sides=0.5,
            minutes_needed=20,
            radius_mm=45,
            **changes,  # type: ignore[arg-type]
        )
        for i, stage in enumerate(stages)
    ]


def test_a_finished_edge_is_continued() -> None:
    choice = next_section(row("drawn", "drawn", "drawn", "firm", "firm"))
    assert choice.number == 3
    assert choice.why == "Next is section 3: it continues the finished edge of section 4, which is firm."


def test_nothing_is_set_beside_soft_or_wet_work() -> None:
    for fresh in ("soft", "wet"):
        assert next_section(row("drawn", "drawn", fresh, "firm")).number == 1


def test_when_all_lies_beside_soft_work_the_time_of_waiting_is_told() -> None:
    facts = [
        *row("drawn", "soft")[:1],
        SectionFacts(2, "soft", neighbours={1: 60.0}, centroid_mm=(100, 0), firm_at="14:20"),
    ]
    choice = next_section(facts)
    assert choice.number is None
    assert (
        choice.why
        == "Nothing to set now: all that is left lies beside soft work; section 2 is firm from 14:20."
    )


def test_the_hand_never_lies_over_soft_work() -> None:
    """A section ringed by soft ones, none of them its neighbour, cannot be reached."""
    ring = [
        SectionFacts(
            i + 2, "soft", centroid_mm=(200 * np.cos(t), 200 * np.sin(t)), radius_mm=80, firm_at="09:05"
        )
        for i, t in enumerate(np.arange(8) * np.pi / 4)
    ]
    choice = next_section([SectionFacts(1, "drawn", radius_mm=40), *ring])
    assert choice.number is None
    assert choice.why.startswith(
        "Nothing to set now: the hand would lie over soft work; section 2 is firm from 09:05"
    )
    assert next_section([SectionFacts(1, "drawn", radius_mm=40), *ring[:4]]).number == 1


def test_a_section_nearly_shut_in_comes_first() -> None:
    pocket = SectionFacts(9, "drawn", neighbours={1: 60, 2: 60, 3: 60, 4: 20}, open_sides=0.0)
    rest = [
        SectionFacts(1, "firm", neighbours={9: 60}),
        SectionFacts(2, "hard", neighbours={9: 60}),
        SectionFacts(3, "firm", neighbours={9: 60}),
        SectionFacts(4, "drawn", neighbours={9: 20, 1: 50, 5: 90}, focal=0.9),
    ]
    choice = next_section([*rest, pocket])
    assert choice.number == 9
    assert choice.why == (
        "Next is section 9: it would soon be shut in; sections 1, 2 and 3 around it are firm."
    )


def test_a_choice_that_shuts_another_in_waits() -> None:
    facts = [
        SectionFacts(1, "firm", neighbours={2: 50, 3: 50}),
        SectionFacts(2, "drawn", neighbours={1: 50, 4: 90}, focal=0.5),
        SectionFacts(3, "drawn", neighbours={1: 50}),
        SectionFacts(4, "drawn", neighbours={2: 90}),
    ]
    assert next_section(facts).number == 3


def test_a_bare_panel_begins_with_what_stands_out_then_the_outline_then_background() -> None:
    facts = [
        SectionFacts(1, "drawn"),
        SectionFacts(2, "drawn", touches_outline=True),
        SectionFacts(3, "drawn", focal=0.4),
    ]
    assert next_section(facts).number == 3
    assert next_section(facts).why == (
        "Next is section 3: it belongs to what stands out most, and nothing is set yet."
    )
    assert next_section(facts[:2]).number == 2


def test_a_section_laid_dry_goes_before_one_only_drawn() -> None:
    choice = next_section(row("firm", "drawn", "drawn", "dry"))
    assert choice.number == 4
    assert choice.why.startswith("Next is section 4: it is laid dry and ")


def test_time_left_and_stock_must_suffice() -> None:
    short = next_section(row("drawn", "firm"), time_left_today_s=15 * 60)
    assert short.number is None
    assert short.why == (
        "Nothing to set now: section 1, the shortest, needs 20 min and 15 min are left today."
    )
    missing = next_section(row("drawn", adhesive="white paste", adhesive_in_stock=False))
    assert missing.why == "Nothing to set now: white paste out of stock."


def test_a_finished_panel_and_an_empty_one_say_so() -> None:
    assert next_section(row("firm", "hard")).why == "Nothing is left to set."
    assert next_section([]).why == "There are no sections yet."


def test_the_whole_order_sets_each_once_and_never_beside_soft_work() -> None:
    facts = row("drawn", "drawn", "drawn", "drawn", "drawn")
    steps = whole_order(facts, firm_after_s=4 * 3600)
    assert sorted(step.number for step in steps) == [1, 2, 3, 4, 5]
    ends = {step.number: step.start_s + 20 * 60 + 4 * 3600 for step in steps}
    begins = {step.number: step.start_s for step in steps}
    for fact in facts:
        for other in fact.neighbours:
            earlier, later = sorted((fact.number, other), key=begins.__getitem__)
            assert begins[later] >= ends[earlier]


def test_the_whole_order_waits_for_what_is_soft_now() -> None:
    steps = whole_order(row("drawn", "soft"), firm_after_s=3600, firm_in_s={2: 600})
    assert [(step.number, step.start_s) for step in steps] == [(1, 600)]


def test_facts_of_a_panel_agree_with_its_joints() -> None:
    whole = panel("square", 300, 2, motifs=3)
    n = whole.tessera_count
    number = (whole.centroid_mm[:, 0] > whole.width_mm / 2).astype(int) + 1
    facts = facts_of(whole, number, times_s(whole, 2), stage={2: "firm"})
    a, b = number[whole.joints.pair.T]
    between = float(whole.joints.length_mm[a != b].sum())
    assert [(f.number, f.stage) for f in facts] == [(1, "drawn"), (2, "firm")]
    assert facts[0].neighbours == {2: pytest.approx(between)}
    assert sum(f.expected_s for f in facts) == pytest.approx(float(times_s(whole, 2).sum()))
    assert all(f.touches_outline and 0.5 < f.open_sides < 0.9 for f in facts)
    assert n == len(number)


def test_a_whole_panel_can_be_worked_to_its_end() -> None:
    whole = panel("ell", 500, 4, motifs=4)
    from bench.sections.ground import ground_of

    times = times_s(whole, 4)
    ground = ground_of(
        whole,
        expected_s=times,
        adhesive=np.zeros(whole.tessera_count, np.int32),
        capacity_s=np.array([40 * times.mean()]),
    )
    label = best_division(ground).label
    facts = facts_of(whole, label + 1, times, stage={})
    steps = whole_order(facts, firm_after_s=4 * 3600)
    assert sorted(step.number for step in steps) == list(range(1, int(label.max()) + 2))


def test_days_hold_what_fits_their_hours_and_what_must_cure_waits_for_the_next() -> None:
    """Half an hour each, one hour a day, firm after four: neighbours never on the same day."""
    facts = [replace(f, minutes_needed=30.0) for f in row("drawn", "drawn", "drawn", "drawn")]
    steps = whole_order(facts, firm_after_s=4 * 3600, hours_a_day=1.0)
    day = {step.number: step.day for step in steps}
    assert sorted(day) == [1, 2, 3, 4]
    assert max(list(day.values()).count(d) for d in day.values()) <= 2
    assert all(day[a] != day[b] for a, b in ((1, 2), (2, 3), (3, 4)))
    assert max(day.values()) == 2


def test_a_section_longer_than_the_day_is_foreseen_all_the_same() -> None:
    facts = [replace(f, minutes_needed=300.0) for f in row("drawn", "drawn")]
    steps = whole_order(facts, firm_after_s=3600, hours_a_day=2.0)
    assert [step.day for step in steps] == [1, 2]


def test_work_that_cures_for_days_is_waited_for() -> None:
    facts = [replace(f, minutes_needed=30.0) for f in row("drawn", "drawn")]
    steps = whole_order(facts, firm_after_s=50 * 3600, hours_a_day=3.0)
    assert [step.day for step in steps] == [1, 3]  # firm 50 h and a half after the first day began
