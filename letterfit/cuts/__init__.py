"""Cuts: which words to take out of a text that is too long, least first, each fitted anew."""

from letterfit.cuts.least import LeastCut, least_removal
from letterfit.cuts.model import Cut, Giving, LeastWords, Proposal
from letterfit.cuts.propose import cuts_for
from letterfit.cuts.suggest import least_cut, suggest_cuts
from letterfit.cuts.units import Unit, units_of

__all__ = [
    "Cut",
    "Giving",
    "LeastCut",
    "LeastWords",
    "Proposal",
    "Unit",
    "cuts_for",
    "least_cut",
    "least_removal",
    "suggest_cuts",
    "units_of",
]
