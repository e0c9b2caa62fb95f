"""PDF: the proof of a whole script at print size, its letters as text in embedded fonts."""

from letterfit.output.pdf.proof import to_pdf

__all__ = ["to_pdf"]
