from bench.drawing.lay.brush import along, relaid
from bench.drawing.lay.brushed import Brush, LayHow, laid
from bench.drawing.lay.cut import panel_of_lay
from bench.drawing.lay.laid import Lay, LayStopped, lay
from bench.drawing.lay.of_picture import panel_of_study

__all__ = [
    "Brush",
    "Lay",
    "LayHow",
    "LayStopped",
    "along",
    "laid",
    "lay",
    "panel_of_lay",
    "panel_of_study",
    "relaid",
]
