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
FIRST_RUN = "first_run"  # "owed": nothing was asked yet; "drawing": all but the drawing is still to be asked
TRANSFER_OWED = "transfer_owed"  # "owed": how pieces go over is asked before the first section is laid
USUAL_BENCH = "usual_bench"  # how the next panel is worked, as JSON; "" once a panel has taken it over
OPEN_DRAFT = "open_draft"  # the draft that was looked at last, to be opened again; "" for none
OWED, OF_DRAWING = "owed", "drawing"
PHOTOS = "photos"  # "whole": place, time and camera stay in the files of pictures; else they go
SAME_HANDS = "same_hands"  # for each other tablet's book: "same_hands:ID", "yes" or "no"
