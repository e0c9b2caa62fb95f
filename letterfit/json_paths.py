"""JSON that programs write: read within bounds, and every slip told by its path.

Values are plain as `json` reads them (RFC 8259); a path is a normalized one of JSONPath (RFC 9535,
section 2.7) with names after a dot where they are plain: $.pages[0].tiers[1].height.
"""

import json
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NoReturn

from letterfit.errors import PageError

LONGEST_JSON = 4_000_000
"""Characters of a file that are read: the plans of a long book, panel by panel, take a third."""

LONGEST_NAME = 200
"""Characters of a text that is read as a name."""

_PLAIN = re.compile(r"[A-Za-z_]\w{0,39}", re.ASCII)
"""A name that can stand after a dot; all others are quoted, marks escaped, and cut."""


@dataclass(frozen=True, slots=True)
class JsonNode:
    """A value and where it stands.

    Args:
        value: What was read.
        path: Its path.
        source: The file's name, for messages.
    """

    value: object
    path: str = "$"
    source: str = ""

    def error(self, what: str, *, advice: str) -> PageError:
        """What is wrong with it."""
        return PageError(f"{self.path}: {what}", advice=advice, source=self.source)

    def members(self, *, known: Sequence[str]) -> Mapping[str, "JsonNode"]:
        """The members of an object by name.

        Raises:
            PageError: When it is no object, or has a name that means nothing.
        """
        if not isinstance(self.value, dict):
            raise self.error(f"{value_told(self.value)}, no object", advice=_keys(known))
        found = {name: self._inside(name, value) for name, value in self.value.items()}
        for name, node in found.items():
            if name not in known:
                raise node.error("unknown key", advice=_keys(known))
        return found

    def items(self, *, most: int) -> list["JsonNode"]:
        """The values of a list of one or more.

        Raises:
            PageError: When it is no list, empty or longer than `most`.
        """
        if not isinstance(self.value, list) or not self.value:
            told = value_told(self.value)
            raise self.error(f"{told}, no list of one or more", advice="give a list")
        if len(self.value) > most:
            raise self.error(f"a list of {len(self.value)}", advice=f"give {most} at most")
        return [
            JsonNode(value, f"{self.path}[{number}]", self.source)
            for number, value in enumerate(self.value)
        ]

    def number(self, *, advice: str) -> float:
        """A finite number.

        Raises:
            PageError: When it is none.
        """
        value = self.value
        if isinstance(value, int | float) and not isinstance(value, bool):
            try:
                number = float(value)
            except OverflowError:
                number = math.inf
            if math.isfinite(number):
                return number
        raise self.error(f"{value_told(value)}, no number", advice=advice)

    def whole(self, *, least: int, most: int) -> int:
        """A whole number within bounds.

        Raises:
            PageError: When it is none.
        """
        if type(self.value) is not int or not least <= self.value <= most:
            raise self.error(
                f"{value_told(self.value)}, no whole number from {least} to {most}",
                advice="give such a number",
            )
        return self.value

    def text(self, *, advice: str, longest: int = LONGEST_NAME) -> str:
        """A text of bounded length.

        Raises:
            PageError: When it is none, or longer.
        """
        if not isinstance(self.value, str):
            raise self.error(f"{value_told(self.value)}, no text", advice=advice)
        if len(self.value) > longest:
            raise self.error(f"a text of {len(self.value)} characters", advice=advice)
        return self.value

    def flag(self) -> bool:
        """True or false.

        Raises:
            PageError: When it is neither.
        """
        if not isinstance(self.value, bool):
            raise self.error(
                f"{value_told(self.value)}, neither true nor false", advice="give true or false"
            )
        return self.value

    def _inside(self, name: str, value: object) -> "JsonNode":
        step = f".{name}" if _PLAIN.fullmatch(name) else f"[{name[:40]!r}]"
        return JsonNode(value, f"{self.path}{step}", self.source)


def load_json(text: str, *, source: str, what: str, example: str) -> JsonNode:
    r"""The value of a JSON text of bounded length.

    Args:
        text: The file's text; a byte order mark is forgiven.
        source: Its name, for messages.
        what: What the file holds, in the plural, such as "plans".
        example: What to do about a text that is no JSON.

    Raises:
        PageError: When it is too long, nested too deeply, no JSON, or gives a name twice.

    >>> load_json('{"pages": []}', source="", what="plans", example="").value
    {'pages': []}
    """
    if len(text) > LONGEST_JSON:
        raise PageError(
            f"{what} of more than {LONGEST_JSON:,} characters",
            advice="give what one script needs",
            source=source,
        )
    try:
        value = json.loads(
            text.removeprefix("\ufeff"),
            object_pairs_hook=_object,
            parse_constant=_refuse_constant,
        )
    except RecursionError:
        raise PageError("brackets are nested too deeply", advice=example, source=source) from None
    except json.JSONDecodeError as error:
        raise PageError(
            f"not JSON: {error.msg}", advice=example, source=source, line=error.lineno
        ) from None
    except ValueError as error:
        reason = str(error) if isinstance(error, _JsonError) else "a number has too many digits"
        raise PageError(f"not JSON: {reason}", advice=example, source=source) from None
    return JsonNode(value, source=source)


def value_told(value: object) -> str:
    """A value as messages show it, whatever it holds.

    >>> [value_told(value) for value in (None, True, {"a": 1}, [1], "x" * 50)]
    ['null', 'true', 'an object', 'a list of 1', "'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx"]
    """
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return f"{value!r:.40}" if not isinstance(value, int) else f"{_short(value)}"


def _short(value: int) -> str:
    # Python writes no whole number of over 4,300 digits.
    return str(value) if abs(value) < 10**18 else "a number of many digits"


def _keys(known: Sequence[str]) -> str:
    return f"the keys are {', '.join(known)}"


class _JsonError(ValueError):
    """What JSON allows and we do not, or the other way round."""


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """An object; RFC 8259, section 4: of a name given twice nobody knows which holds."""
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        message = f"the key {twice[:40]!r} is given twice"
        raise _JsonError(message)
    return found


def _refuse_constant(name: str) -> NoReturn:
    """RFC 8259, section 6: NaN and infinities are no numbers."""
    message = f"{name} is no number"
    raise _JsonError(message)
