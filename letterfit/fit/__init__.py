"""Fit: measured words and a family of outlines make a balloon, or the front of shapes."""

from letterfit.fit.balloon import fit_words
from letterfit.fit.breaking import Breaks, way_to_break
from letterfit.fit.first_fit import first_fit_into
from letterfit.fit.front import set_shape, words_front, words_shapes
from letterfit.fit.given import fit_words_into
from letterfit.fit.model import FittedBalloon, Line, Overflow, Shape

__all__ = [
    "Breaks",
    "FittedBalloon",
    "Line",
    "Overflow",
    "Shape",
    "first_fit_into",
    "fit_words",
    "fit_words_into",
    "set_shape",
    "way_to_break",
    "words_front",
    "words_shapes",
]
