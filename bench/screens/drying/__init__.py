"""The steps from a photo of a dry lay to its count."""
