"""Finishing: the glass list and what to buy, colours beside their neighbours, grout, and weight."""

from bench.finish.bed import Bed, beds
from bench.finish.beside import HARDLY_DE, Beside, Pair, beside
from bench.finish.buying import USUAL_SHEET, Wanted, wanted
from bench.finish.cut_waste import DEFAULT_CUT_WASTE, learned_cut_waste, read_used, sheet_area_mm2
from bench.finish.faults import AmountOutOfRange, BadCut, BadSheet, FinishFault, TooManySizes
from bench.finish.glass import Glass, GlassList, code_of, glass_list
from bench.finish.grout import POWDER_G_PER_CM3, WASTE, WATER_SHARE, Grout, grout_for
from bench.finish.joints import ADHESIVE_LEFT_MM, GLASS_MM, joint_depth_mm
from bench.finish.plain import Part, Plain, plain_areas, varied
from bench.finish.shades import ONE_SHEET_DE, Shades
from bench.finish.sheets import Purchase, Sheet, sheet_of
from bench.finish.stock import OnHand, on_hand_mm2, read_stock
from bench.finish.weight import Weight, glass_mass_g, weight_of
from bench.finish.zones import group_zones, zone_joints_mm2

__all__ = [
    "ADHESIVE_LEFT_MM",
    "DEFAULT_CUT_WASTE",
    "GLASS_MM",
    "HARDLY_DE",
    "ONE_SHEET_DE",
    "POWDER_G_PER_CM3",
    "USUAL_SHEET",
    "WASTE",
    "WATER_SHARE",
    "AmountOutOfRange",
    "BadCut",
    "BadSheet",
    "Bed",
    "Beside",
    "FinishFault",
    "Glass",
    "GlassList",
    "Grout",
    "OnHand",
    "Pair",
    "Part",
    "Plain",
    "Purchase",
    "Shades",
    "Sheet",
    "TooManySizes",
    "Wanted",
    "Weight",
    "beds",
    "beside",
    "code_of",
    "glass_list",
    "glass_mass_g",
    "group_zones",
    "grout_for",
    "joint_depth_mm",
    "learned_cut_waste",
    "on_hand_mm2",
    "plain_areas",
    "read_stock",
    "read_used",
    "sheet_area_mm2",
    "sheet_of",
    "varied",
    "wanted",
    "weight_of",
    "zone_joints_mm2",
]
