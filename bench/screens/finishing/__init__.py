"""The parts of the screen on which a panel is grouted, inked and sealed."""
