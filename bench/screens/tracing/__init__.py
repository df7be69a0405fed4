"""The steps from a picture to a panel."""
