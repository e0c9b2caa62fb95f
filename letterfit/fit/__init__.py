"""Fit: measured words and a family of outlines make a balloon, or the front of shapes."""

from letterfit.fit.balloon import fit_words
from letterfit.fit.front import words_front
from letterfit.fit.given import fit_words_into
from letterfit.fit.model import FittedBalloon, Line, Overflow

__all__ = ["FittedBalloon", "Line", "Overflow", "fit_words", "fit_words_into", "words_front"]
