"""The steps at the cup, one thing at a time and always in the same order."""
