"""Errors: the input is unusable, and the message says what, where and what to do.

A misfit (words that do not fit, a panel that cannot be filled) is never an error: it is a value.
"""


class LetterfitError(Exception):
    """Bad input: catches every complaint that letterfit makes about what it was given.

    Args:
        what: What is wrong, in one line.
        advice: What the user can do about it, in one line; may be empty.
        source: The file or argument at fault; may be empty.
        line: The line of that file, counted from 1, where one is known.

    >>> print(LetterfitError("no page heading found", advice="start pages with PAGE 1",
    ...                      source="gate.txt", line=3))
    gate.txt:3: no page heading found; start pages with PAGE 1
    >>> print(LetterfitError("no page heading found", line=3))
    line 3: no page heading found
    """

    def __init__(
        self, what: str, *, advice: str = "", source: str = "", line: int | None = None
    ) -> None:
        super().__init__(what)
        self.what = what
        self.advice = advice
        self.source = source
        self.line = line

    def __str__(self) -> str:
        place = self.source
        if self.line is not None:
            place = f"{place}:{self.line}" if place else f"line {self.line}"
        parts = [
            f"{place}: " if place else "",
            self.what,
            f"; {self.advice}" if self.advice else "",
        ]
        return " ".join("".join(parts).split())

    def __reduce__(self) -> tuple[object, ...]:
        return (_rebuild, (type(self), self.what, self.advice, self.source, self.line))


def _rebuild(
    kind: type[LetterfitError], what: str, advice: str, source: str, line: int | None
) -> LetterfitError:
    return kind(what, advice=advice, source=source, line=line)


class ScriptError(LetterfitError):
    """The script cannot be read as a script.

    >>> import letterfit as lf
    >>> try:
    ...     lf.parse_script("")
    ... except ScriptError as error:
    ...     print(error.what)
    the script is empty
    """


class FontError(LetterfitError):
    """The font cannot be opened, or holds nothing that can be measured.

    >>> import letterfit as lf
    >>> try:
    ...     lf.open_typeface(b"no font")
    ... except FontError as error:
    ...     print(error.what)
    this is not a font
    """


class PageError(LetterfitError):
    """The paper, the plan or the panel is impossible as stated.

    >>> import letterfit as lf
    >>> try:
    ...     lf.Rect(0, 0, -20, 30)
    ... except PageError as error:
    ...     print(error.what)
    a rectangle of -20 x 30 mm at (0, 0) is empty
    """


class OutlineError(LetterfitError):
    """The outline or the numbers that ask for one are impossible as stated.

    >>> import letterfit as lf
    >>> try:
    ...     lf.Ellipse(half_width=0, half_height=9)
    ... except OutlineError as error:
    ...     print(error.what)
    half_width of 0 mm makes no outline
    """


class TableError(LetterfitError):
    r"""The table of texts and outlines cannot be read, or some of its rows cannot be used.

    >>> import letterfit as lf
    >>> try:
    ...     lf.parse_table(b"id,text\n1.1,Ahoy!\n")
    ... except TableError as error:
    ...     print(error.what)
    no column is called outline, width, height
    """


class DrawingError(LetterfitError):
    """The drawn page cannot be read as a page, or is no drawing at all.

    >>> import letterfit as lf
    >>> try:
    ...     lf.parse_drawn_page(b"no drawing")
    ... except DrawingError as error:
    ...     print(error.what)
    no well-formed XML: syntax error
    """
