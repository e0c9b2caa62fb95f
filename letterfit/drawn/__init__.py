"""Drawn outlines: a convex core for the ink, and a livelier line drawn round it."""
