"""TOML that people type: lines are found however a key is written, and a flood is refused."""

import tomllib

import pytest

from letterfit.errors import PageError
from letterfit.toml_lines import LONGEST_LINE, TomlLines, load_toml


def loaded(text: str) -> dict[str, object]:
    """The text read as plans are."""
    return load_toml(text, source="f.toml", what="plans", too_long="cut", example="write TOML")


WAYS = {
    "a table": ("# house\n\n[balloon]\nlines = 8\nwords = 0\n", 5),
    "a dotted key": ("page.words = 1\nballoon.lines = 8\nballoon.words = 0\n", 3),
    "a dotted key with spaces and quotes": ("a = 1\n\"balloon\" . 'words' = 0\n", 2),
    "a table in a line": ("a = 1\n\nballoon = {lines = 8, words = 0}\n", 3),
    "a table that has no such line": ("a = 1\n[balloon]\n[page]\nwords = 3\n", 2),
    "nowhere": ("a = 1\n[page]\nwords = 3\n", None),
    "after a line with a mark that other readers end lines at": (
        "a = '\u2028\u0085'\n[balloon]\nwords = 0\n",
        3,
    ),
    "carriage returns": ("a = 1\r\n[balloon]\r\nwords = 0\r\n", 3),
}


@pytest.mark.parametrize(("text", "line"), WAYS.values(), ids=WAYS)
def test_a_key_is_found_however_it_is_written(text: str, line: int | None) -> None:
    """The line is that of the key, else that of its table, else none is told."""
    tomllib.loads(text)
    assert TomlLines(text, "f.toml").find(("balloon", "words")) == line


def test_a_complaint_names_file_line_key_and_what_to_do() -> None:
    """One line holds all four."""
    lines = TomlLines("[page]\nwords = 0", "f.toml")
    error = lines.error("no count", ("page", "words"), advice="give one over 0")
    assert str(error) == "f.toml:2: page.words: no count; give one over 0"


FLOODS = {
    "dotted keys": "a." * 40_000 + "a = 1",
    "dotted keys with line separators in them": '"\u2028".'.join(["a." * 450] * 100) + "a = 1",
    "a table's dotted name": f"[{'a.' * 40_000}a]",
    "carriage returns alone": "a = 1\r" * 4_000,
}


@pytest.mark.parametrize("text", FLOODS.values(), ids=FLOODS)
def test_a_line_too_long_is_refused_before_it_is_read(text: str) -> None:
    """Only a line feed ends a line, so no other mark hides a flood of keys from the bound."""
    with pytest.raises(PageError, match="a line of") as caught:
        loaded(text)
    assert caught.value.line == 1


def test_a_line_at_the_bound_is_read() -> None:
    """The longest line that is allowed is read, and one character more is not."""
    longest = f"a = '{'x' * (LONGEST_LINE - 6)}'"
    assert len(longest) == LONGEST_LINE
    assert loaded(longest) == {"a": "x" * (LONGEST_LINE - 6)}
    with pytest.raises(PageError, match="a line of"):
        loaded(f"{longest} ")


def test_thousands_of_keys_are_each_found_on_their_line() -> None:
    """Every key is looked up, none is searched for: a long file takes as long as it is long."""
    lines = TomlLines("\n".join(f"page.{n}.tiers = '2'" for n in range(1, 8_001)), "f.toml")
    found = [lines.find(("page", str(n), "tiers")) for n in range(1, 8_001)]
    assert found == list(range(1, 8_001))
