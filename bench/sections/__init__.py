"""Sections: divide what is drawn, measure a division, divide again, and say which comes next."""

from bench.sections import byhand
from bench.sections.divide import best_division, default_steps, divide
from bench.sections.division import Division
from bench.sections.facts import SectionFacts, facts_of
from bench.sections.faults import MixedAdhesives
from bench.sections.ground import Ground, ground_of, oversize
from bench.sections.leftover import open_edge
from bench.sections.match import matched_numbers
from bench.sections.measures import MEASURES, broken_rules, lower_bound
from bench.sections.offer import Offer, free_share, one_more
from bench.sections.order import Choice, Foreseen, next_section, whole_order
from bench.sections.redivide import redivide
from bench.sections.split import part_of, split_into

__all__ = [
    "MEASURES",
    "Choice",
    "Division",
    "Foreseen",
    "Ground",
    "MixedAdhesives",
    "Offer",
    "SectionFacts",
    "best_division",
    "broken_rules",
    "byhand",
    "default_steps",
    "divide",
    "facts_of",
    "free_share",
    "ground_of",
    "lower_bound",
    "matched_numbers",
    "next_section",
    "one_more",
    "open_edge",
    "oversize",
    "part_of",
    "redivide",
    "split_into",
    "whole_order",
]
