"""Potwatch: a bench assistant for glass mosaics, sectioned by the adhesive's working time."""

__version__ = "0.1.0"
