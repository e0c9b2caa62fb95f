"""Bidi: the order of mixed text, by the whole of UAX #9."""
