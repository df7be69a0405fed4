"""Sections: divide what is drawn, measure a division, divide again, and say which comes next."""
