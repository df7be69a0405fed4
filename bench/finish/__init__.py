"""Finishing: glass and what to buy, colours side by side, grout, zones, ink, weight, hanging, papers."""

from bench.drawing.colour import code_of
from bench.finish.batches import AREA_PACE_CM2_MIN, POT_LIFE_MIN, GroutBatch, GroutPace, batches_of
from bench.finish.bed import Bed, beds
from bench.finish.beheld import Cut, cut_up, inked, inked_name, is_inked, tint_said
from bench.finish.bend import BOARDS_GPA, Bend, bend_of, board_said
from bench.finish.beside import HARDLY_DE, Beside, Pair, beside
from bench.finish.buying import USUAL_SHEET, Wanted, wanted
from bench.finish.cut_waste import DEFAULT_CUT_WASTE, learned_cut_waste, read_used, sheet_area_mm2
from bench.finish.drying import DryingTimes, drying_times, drying_words, sheet_first
from bench.finish.faults import (
    AmountOutOfRange,
    BadCut,
    BadSheet,
    FinishFault,
    JointsDeeperThanGlass,
    JointsWiderThanPieces,
    NamelessColour,
    NotOnTile,
    NotWhiteCard,
    TooColdForGrout,
    TooManyColours,
    TooManySizes,
    UnknownColour,
    ZoneWithoutGrout,
)
from bench.finish.glass import Glass, GlassList, glass_list, kind_said
from bench.finish.grout import POWDER_G_PER_CM3, WASTE, WATER_SHARE, Grout, grout_for
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL, grout_said
from bench.finish.hanging import Hung, hung, hung_by_wire, newtons, wire_angle_deg
from bench.finish.joint_width import Widths, WidthSamples, check_widths, sand_for, sand_said, width_samples
from bench.finish.joints import ADHESIVE_LEFT_MM, GLASS_MM, joint_depth_mm
from bench.finish.masking import STRIP_MM, GroutDay, border_mm, days_of_grout, strip_mm2
from bench.finish.money import WORK, Amount, Hours, Money, hours_of, priced, read_prices, work_said
from bench.finish.plain import Part, Plain, plain_areas, varied
from bench.finish.shades import ONE_SHEET_DE, Shades
from bench.finish.sheets import Purchase, Sheet, sheet_of
from bench.finish.stock import OnHand, on_hand_mm2, read_stock
from bench.finish.sun import SUNS, Fading, Sun, bed_in_sun, fading_of, fugitive, is_red, is_vivid, sun_said
from bench.finish.tile import measured_colour
from bench.finish.told import letters_of, mirrored_said, told_of
from bench.finish.units import Units
from bench.finish.weight import SPREADS, Weight, glass_mass_g, pounds, spreads_with, weight_of
from bench.finish.zone_called import zone_called
from bench.finish.zone_plan import InksPlan, Mix, Tint, TintPlan, ZonePlan, ZonesPlan, plan_inks, plan_zones
from bench.finish.zones import group_zones, joint_grid, zone_joints_mm2
from bench.finish.zoning import main_colour, proposed_zones

__all__ = [
    "ADHESIVE_LEFT_MM",
    "AREA_PACE_CM2_MIN",
    "BOARDS_GPA",
    "DEFAULT_CUT_WASTE",
    "GLASS_MM",
    "GROUT_WORDS",
    "HARDLY_DE",
    "NEUTRAL",
    "ONE_SHEET_DE",
    "POT_LIFE_MIN",
    "POWDER_G_PER_CM3",
    "SPREADS",
    "STRIP_MM",
    "SUNS",
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
    "Cut",
    "DryingTimes",
    "Fading",
    "FinishFault",
    "Glass",
    "GlassList",
    "Grout",
    "GroutBatch",
    "GroutDay",
    "GroutPace",
    "Hours",
    "Hung",
    "InksPlan",
    "JointsDeeperThanGlass",
    "JointsWiderThanPieces",
    "Mix",
    "Money",
    "NamelessColour",
    "NotOnTile",
    "NotWhiteCard",
    "OnHand",
    "Pair",
    "Part",
    "Plain",
    "Purchase",
    "Shades",
    "Sheet",
    "Sun",
    "Tint",
    "TintPlan",
    "TooColdForGrout",
    "TooManyColours",
    "TooManySizes",
    "Units",
    "UnknownColour",
    "Wanted",
    "Weight",
    "WidthSamples",
    "Widths",
    "ZonePlan",
    "ZoneWithoutGrout",
    "ZonesPlan",
    "batches_of",
    "bed_in_sun",
    "beds",
    "bend_of",
    "beside",
    "board_said",
    "border_mm",
    "check_widths",
    "code_of",
    "cut_up",
    "days_of_grout",
    "drying_times",
    "drying_words",
    "fading_of",
    "fugitive",
    "glass_list",
    "glass_mass_g",
    "group_zones",
    "grout_for",
    "grout_said",
    "hours_of",
    "hung",
    "hung_by_wire",
    "inked",
    "inked_name",
    "is_inked",
    "is_red",
    "is_vivid",
    "joint_depth_mm",
    "joint_grid",
    "kind_said",
    "learned_cut_waste",
    "letters_of",
    "main_colour",
    "measured_colour",
    "mirrored_said",
    "newtons",
    "on_hand_mm2",
    "plain_areas",
    "plan_inks",
    "plan_zones",
    "pounds",
    "priced",
    "proposed_zones",
    "read_prices",
    "read_stock",
    "read_used",
    "sand_for",
    "sand_said",
    "sheet_area_mm2",
    "sheet_first",
    "sheet_of",
    "spreads_with",
    "strip_mm2",
    "sun_said",
    "tint_said",
    "told_of",
    "varied",
    "wanted",
    "weight_of",
    "width_samples",
    "wire_angle_deg",
    "work_said",
    "zone_called",
    "zone_joints_mm2",
]
