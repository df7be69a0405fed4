"""Finishing: glass and what to buy, colours side by side, grout, zones, ink, weight, hanging, papers."""
