"""Names of the settings that are kept beside the book. No Kivy here: the app reads one before it starts."""

LAST_PANEL = "last_panel"
LOOK = "look"
TEXT_SCALE = "text_scale"
CUP_TARE_G = "cup_tare_g"
