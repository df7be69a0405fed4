"""Everything a screen is put together from, by name; kv files may use each of them."""

from bench.screens.panel_picture import PanelPicture
from bench.screens.parts.acts import Act, SideAct
from bench.screens.parts.ask import AskNumber
from bench.screens.parts.border import DrainingBorder
from bench.screens.parts.choice import Choice
from bench.screens.parts.ladder import Ladder, Rung
from bench.screens.parts.listing import Listing
from bench.screens.parts.numbers import BareNumber, BigNumber, minutes_text
from bench.screens.parts.pad import NumberPad, PadKey
from bench.screens.parts.plates import (
    Atop,
    BareWords,
    Card,
    Grid,
    HeadWords,
    Notice,
    Pane,
    Plate,
    Row,
    Rows,
    SmallWords,
    Words,
)
from bench.screens.parts.reading import Reading
from bench.screens.parts.split import Split
from bench.screens.parts.zoom import ZoomKeys

__all__ = [
    "Act",
    "AskNumber",
    "Atop",
    "BareNumber",
    "BareWords",
    "BigNumber",
    "Card",
    "Choice",
    "DrainingBorder",
    "Grid",
    "HeadWords",
    "Ladder",
    "Listing",
    "Notice",
    "NumberPad",
    "PadKey",
    "Pane",
    "PanelPicture",
    "Plate",
    "Reading",
    "Row",
    "Rows",
    "Rung",
    "SideAct",
    "SmallWords",
    "Split",
    "Words",
    "ZoomKeys",
    "minutes_text",
]
