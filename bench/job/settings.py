"""Names of the settings that are kept beside the book. No Kivy here: the app reads one before it starts."""

LAST_PANEL = "last_panel"
LOOK = "look"
TEXT_SCALE = "text_scale"
GLASS_MM = "glass_mm"  # these three for each panel: "glass_mm:3"
BACKER_KG_PER_M2 = "backer_kg_per_m2"
GROUTING = "grouting"
LABEL = "label"
CUP_TARE_G = "cup_tare_g"
FRAME_G = "frame_g"  # these too are kept for each panel
BOARD_MM = "board_mm"
BOARD_GPA = "board_GPa"
HANG_POINTS = "hang_points"
HANG_APART_MM = "hang_apart_mm"
HOOK_ABOVE_MM = "hook_above_mm"
HOURS = "hours"
SOLD = "sold"
PRICES = "prices"  # the workshop's, for all panels
UNITS = "units"
PAPER = "paper"
SEEN = "seen"  # colours of grout compared, for each panel
