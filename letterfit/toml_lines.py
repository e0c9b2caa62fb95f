"""TOML that people type: read within bounds, and every slip told by its key and line.

Tables are plain values as `tomllib` reads them (TOML 1.0.0); `TomlLines` finds where they stand.
"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import TypeGuard

from letterfit.errors import PageError

LONGEST_FILE = 200_000
"""Characters of a file that are read: a page's plan, or a house's limits, take some hundred."""

LONGEST_LINE = 1000
"""Characters of one line of it: tomllib takes time by the square of the keys in "a.a.a.a = 1".

Lines end at line feeds only, as in TOML: a mark such as U+2028 may stand inside a key.
"""

_LINE_OF_ERROR = re.compile(r" *\(at (?:line (\d+), column \d+|end of document)\)")

_BARE = re.compile(r"[\w-]{1,80}")
"""A key that can be shown as it is; all others are shown in quotes, marks escaped, and cut."""

_HEADING = re.compile(r"\s*\[\[?([^\]]*)\]")


DEEPEST = 8
"""Keys of one dotted key that are told apart: no table of ours lies deeper."""


class TomlLines:
    r"""Where in a TOML text a table or a key stands: tomllib does not tell.

    Args:
        text: The file's text.
        source: Its name, for messages.

    >>> lines = TomlLines("[page.3]\ngutter = 2", "plan.toml")
    >>> lines.find(("page", "3")), lines.find(("page", "3", "gutter")), lines.find(("paper",))
    (1, 2, None)
    """

    def __init__(self, text: str, source: str) -> None:
        self._source = source
        self._lines: dict[str, int] = {}
        table = ""
        for number, line in enumerate(text.split("\n"), start=1):
            if head := _HEADING.match(line):
                table = f"{_plain(head[1])}."
                self._lines.setdefault(table[:-1], number)
                continue
            key, equals, _ = line.partition("=")
            parts = _plain(key).split(".")[:DEEPEST]
            for depth in range(1, len(parts) + 1) if equals else ():
                self._lines.setdefault(table + ".".join(parts[:depth]), number)

    def find(self, path: Sequence[str]) -> int | None:
        """The line of a table, or of a key; else that of the innermost table round it that has one.

        The key may stand under its table's heading, or in a line such as "balloon.words = 0" or
        "balloon = {words = 0}".
        """
        names = (".".join(path[:depth]) for depth in range(len(path), 0, -1))
        return next((self._lines[name] for name in names if name in self._lines), None)

    def error(self, what: str, path: Sequence[str], *, advice: str) -> PageError:
        """What is wrong at a path of keys."""
        name = ".".join(part if _BARE.fullmatch(part) else repr(part[:40]) for part in path)
        prefix = f"{name}: " if name else ""
        line = self.find(path)
        return PageError(f"{prefix}{what}", advice=advice, source=self._source, line=line)

    def check_keys(
        self, table: Mapping[str, object], *, known: Sequence[str], path: Sequence[str]
    ) -> None:
        """Complain of the first key that means nothing."""
        for key in table:
            if key not in known:
                advice = f"the keys are {', '.join(known)}"
                raise self.error(f"unknown key {key[:40]!r}", (*path, key), advice=advice)

    def table(self, value: object, path: Sequence[str]) -> Mapping[str, object]:
        """The value, when it is a table."""
        if not isinstance(value, dict):
            raise self.error("not a table", path, advice=f"write [{'.'.join(path)}]")
        return value


def _plain(key: str) -> str:
    """A key without spaces and quotes."""
    return re.sub(r"[\s\"']", "", key)


def load_toml(
    text: str, *, source: str, what: str, too_long: str, example: str
) -> dict[str, object]:
    """The tables of a TOML text of bounded length, in lines of bounded length.

    Args:
        text: The file's text; a byte order mark is forgiven.
        source: Its name, for messages.
        what: What the file holds, in the plural, such as "plans".
        too_long: What to do about a file of too many characters.
        example: What to do about a text that is no TOML.

    Raises:
        PageError: When it is too long, nested too deeply or no TOML.

    >>> load_toml("a = 1", source="", what="plans", too_long="", example="")
    {'a': 1}
    """
    if len(text) > LONGEST_FILE:
        raise PageError(
            f"{what} of more than {LONGEST_FILE} characters", advice=too_long, source=source
        )
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            raise PageError(
                f"a line of {len(line)} characters",
                advice=f"break it into lines of at most {LONGEST_LINE}",
                source=source,
                line=number,
            )
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except RecursionError:
        raise PageError(
            "brackets are nested too deeply", advice="write plain tables", source=source
        ) from None
    except ValueError as error:  # TOMLDecodeError is one; so is a number of too many digits
        at = _LINE_OF_ERROR.search(str(error))
        raise PageError(
            f"not TOML: {_LINE_OF_ERROR.sub('', str(error))}",
            advice=example,
            source=source,
            line=(int(at[1]) if at[1] else text.count("\n") + 1) if at else None,
        ) from None


def value_told(value: object) -> str:
    """A value as messages show it, whatever it holds.

    >>> value_told(True), value_told({"a": 1}), value_told("x" * 50)
    ('true', 'a table', "'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx")
    """
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value!r:.40}"


def is_number(value: object) -> TypeGuard[float]:
    """Whether a value is a whole number or a decimal one; true and false are none.

    >>> is_number(1.5), is_number(True)
    (True, False)
    """
    return isinstance(value, (int, float)) and not isinstance(value, bool)
