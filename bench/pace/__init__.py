"""Learn a maker's hands and the adhesive's life from the book, and say how much fits one batch."""
