"""Fit: measured words and a family of outlines make a balloon, or the front of shapes."""

from letterfit.fit.balloon import check_words
from letterfit.fit.breaking import Breaks, way_to_break
from letterfit.fit.dressing import (
    first_fit_into,
    fit_texts,
    fit_words,
    fit_words_into,
    set_shape,
    texts_shapes,
    words_front,
    words_shapes,
)
from letterfit.fit.model import FittedBalloon, Line, Overflow, Shape

__all__ = [
    "Breaks",
    "FittedBalloon",
    "Line",
    "Overflow",
    "Shape",
    "check_words",
    "first_fit_into",
    "fit_texts",
    "fit_words",
    "fit_words_into",
    "set_shape",
    "texts_shapes",
    "way_to_break",
    "words_front",
    "words_shapes",
]
