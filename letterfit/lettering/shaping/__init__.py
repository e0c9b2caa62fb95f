"""Shaping: runs of characters to glyphs, and lines cut out of them."""
