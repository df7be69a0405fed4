"""Finishing: glass and what to buy, colours side by side, grout, weight, hanging, templates, money."""

from bench.finish.bed import Bed, beds
from bench.finish.bend import BOARDS_GPA, Bend, bend_of
from bench.finish.beside import HARDLY_DE, Beside, Pair, beside
from bench.finish.buying import USUAL_SHEET, Wanted, wanted
from bench.finish.cut_waste import DEFAULT_CUT_WASTE, learned_cut_waste, read_used, sheet_area_mm2
from bench.finish.faults import AmountOutOfRange, BadCut, BadSheet, FinishFault, TooManySizes
from bench.finish.glass import Glass, GlassList, code_of, glass_list
from bench.finish.grout import POWDER_G_PER_CM3, WASTE, WATER_SHARE, Grout, grout_for
from bench.finish.hanging import Hung, hung, hung_by_wire, newtons, wire_angle_deg
from bench.finish.joints import ADHESIVE_LEFT_MM, GLASS_MM, joint_depth_mm
from bench.finish.money import WORK, Amount, Hours, Money, hours_of, priced, read_prices
from bench.finish.plain import Part, Plain, plain_areas, varied
from bench.finish.shades import ONE_SHEET_DE, Shades
from bench.finish.sheets import Purchase, Sheet, sheet_of
from bench.finish.stock import OnHand, on_hand_mm2, read_stock
from bench.finish.told import MIRRORED, letters_of, told_of
from bench.finish.units import Units
from bench.finish.weight import SPREADS, Weight, glass_mass_g, pounds, spreads_with, weight_of
from bench.finish.zones import group_zones, zone_joints_mm2

__all__ = [
    "ADHESIVE_LEFT_MM",
    "BOARDS_GPA",
    "DEFAULT_CUT_WASTE",
    "GLASS_MM",
    "HARDLY_DE",
    "MIRRORED",
    "ONE_SHEET_DE",
    "POWDER_G_PER_CM3",
    "SPREADS",
    "USUAL_SHEET",
    "WASTE",
    "WATER_SHARE",
    "WORK",
    "Amount",
    "AmountOutOfRange",
    "BadCut",
    "BadSheet",
    "Bed",
    "Bend",
    "Beside",
    "FinishFault",
    "Glass",
    "GlassList",
    "Grout",
    "Hours",
    "Hung",
    "Money",
    "OnHand",
    "Pair",
    "Part",
    "Plain",
    "Purchase",
    "Shades",
    "Sheet",
    "TooManySizes",
    "Units",
    "Wanted",
    "Weight",
    "beds",
    "bend_of",
    "beside",
    "code_of",
    "glass_list",
    "glass_mass_g",
    "group_zones",
    "grout_for",
    "hours_of",
    "hung",
    "hung_by_wire",
    "joint_depth_mm",
    "learned_cut_waste",
    "letters_of",
    "newtons",
    "on_hand_mm2",
    "plain_areas",
    "pounds",
    "priced",
    "read_prices",
    "read_stock",
    "read_used",
    "sheet_area_mm2",
    "sheet_of",
    "spreads_with",
    "told_of",
    "varied",
    "wanted",
    "weight_of",
    "wire_angle_deg",
    "zone_joints_mm2",
]
