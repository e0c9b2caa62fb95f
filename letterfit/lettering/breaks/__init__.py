"""Breaks: where the lines of a text may end, and at what price."""
