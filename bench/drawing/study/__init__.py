from bench.drawing.study.edits import StudyHow, drawn_study, study_of
from bench.drawing.study.model import Flow, Glass, Region, Study
from bench.drawing.study.outline import Outline
from bench.drawing.study.propose import Proposal, propose

__all__ = [
    "Flow",
    "Glass",
    "Outline",
    "Proposal",
    "Region",
    "Study",
    "StudyHow",
    "drawn_study",
    "propose",
    "study_of",
]
