"""Drawn outlines: a convex core for the ink, and a livelier line drawn round it."""

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.model import Drawn
from letterfit.drawn.whisper import Squared, Whisper

__all__ = ["Burst", "Cloud", "Drawn", "Squared", "Whisper"]
