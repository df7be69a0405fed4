"""Parts that every screen is made of."""
