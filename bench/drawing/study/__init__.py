from bench.drawing.study.model import Flow, Glass, Region, Study
from bench.drawing.study.propose import Proposal, propose

__all__ = ["Flow", "Glass", "Proposal", "Region", "Study", "propose"]
