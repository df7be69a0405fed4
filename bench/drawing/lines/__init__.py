from bench.drawing.lines.faults import BlankPage, NoClosedRegion, ReadingStopped, TooManyRegions
from bench.drawing.lines.how import LineHow, Stroke
from bench.drawing.lines.read import panel_of_lines
from bench.drawing.lines.report import Gap, Leak, LinesReport

__all__ = [
    "BlankPage",
    "Gap",
    "Leak",
    "LineHow",
    "LinesReport",
    "NoClosedRegion",
    "ReadingStopped",
    "Stroke",
    "TooManyRegions",
    "panel_of_lines",
]
