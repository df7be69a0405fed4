"""The book: what happened on each panel, kept so that nothing acknowledged is ever lost."""

from bench.book.backups import Copy, Held, copies, held_in
from bench.book.clock import Clock, SystemClock
from bench.book.countdown import MARK_EVERY_S, Mark, Reading
from bench.book.device import PEDAL_ACTS, Device, PedalAct
from bench.book.home import data_folder, documents_folder
from bench.book.opening import Opened, back_up, open_book
from bench.book.reader import WORKSHOP
from bench.book.store import Store

__all__ = [
    "MARK_EVERY_S",
    "PEDAL_ACTS",
    "WORKSHOP",
    "Clock",
    "Copy",
    "Device",
    "Held",
    "Mark",
    "Opened",
    "PedalAct",
    "Reading",
    "Store",
    "SystemClock",
    "back_up",
    "copies",
    "data_folder",
    "documents_folder",
    "held_in",
    "open_book",
]
