"""Parts of finishing: grout, ink and seal; weight and hanging, cost and hours, papers."""
