"""HTML: the whole report as one file to read, print and pass on."""

from letterfit.output.html.document import to_html

__all__ = ["to_html"]
