"""Names of the settings that are kept beside the book. No Kivy here: the app reads one before it starts."""

LAST_PANEL = "last_panel"
LOOK = "look"
TEXT_SCALE = "text_scale"
GLASS_MM = "glass_mm"  # these two for each panel: "glass_mm:3"
BACKER_KG_PER_M2 = "backer_kg_per_m2"
LABEL = "label"
CUP_TARE_G = "cup_tare_g"
PHOTOS = "photos"  # "whole": place, time and camera stay in the files of pictures; else they go
SAME_HANDS = "same_hands"  # for each other tablet's book: "same_hands:ID", "yes" or "no"
