"""Cuts: which words to take out of a text that is too long, least first, each fitted anew."""
