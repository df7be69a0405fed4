"""The book: what happened on each panel, kept so that nothing acknowledged is ever lost."""

from bench.book.clock import Clock, SystemClock
from bench.book.countdown import MARK_EVERY_S, Mark, Reading
from bench.book.device import PEDAL_ACTS, Device, PedalAct
from bench.book.home import data_folder
from bench.book.store import WORKSHOP, Store

__all__ = [
    "MARK_EVERY_S",
    "PEDAL_ACTS",
    "WORKSHOP",
    "Clock",
    "Device",
    "Mark",
    "PedalAct",
    "Reading",
    "Store",
    "SystemClock",
    "data_folder",
]
