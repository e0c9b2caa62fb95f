"""House rules in TOML: every limit can be stated, and every slip is told by its key and line."""

import tomllib
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.report import house_rules
from letterfit.report.house_rules import TABLES, parse_limits
from letterfit.report.limits import Limits

WHOLE = {
    "coverage": 0.3,
    "words_per_balloon": 22,
    "words_per_panel": 30,
    "words_per_page": 180,
    "least_size_pt": 6.5,
    "lines_per_balloon": 6,
    "figure_aspect": 0.35,
    "whole_figure": 0.6,
    "steady_share": 0.7,
    "words_per_tier": 90,
    "balloons_per_panel": 3,
    "panels_per_tier": 3,
    "panels_per_page": 9,
}
"""Every limit, at a value that is not its default."""


def written(stated: dict[str, float]) -> str:
    """House rules that state these limits."""
    lines = []
    for table, keys in TABLES.items():
        lines += [f"[{table}]", *(f"{key} = {stated[key]}" for key in keys if key in stated)]
    return "\n".join(lines)


def test_every_limit_can_be_stated() -> None:
    """All limits have a key, each in one table, and are read as they stand."""
    keys = [key for own in TABLES.values() for key in own]
    assert sorted(keys) == sorted(Limits.names()) == sorted(WHOLE)
    limits = parse_limits(written(WHOLE))
    assert {name: getattr(limits, name) for name in Limits.names()} == WHOLE
    assert limits.house == Limits.names()


def test_the_file_shown_in_the_module_is_read() -> None:
    """The example at its head is TOML that states every limit."""
    example = (house_rules.__doc__ or "").partition("\n\n")[2].rpartition("\n\n")[0]
    assert parse_limits(example).house == Limits.names()
    assert tomllib.loads(example)["panel"]["coverage"] == 0.3


@given(st.sets(st.sampled_from(sorted(WHOLE))))
def test_what_is_left_out_is_common_practice(names: set[str]) -> None:
    """Any part of the limits may be stated; the others keep their default and their name."""
    limits = parse_limits(written({name: WHOLE[name] for name in names}))
    for name in Limits.names():
        expected = WHOLE[name] if name in names else getattr(Limits(), name)
        assert getattr(limits, name) == expected
        assert limits.basis(name) == ("house rules" if name in names else "common practice")


def test_a_house_that_keeps_to_common_practice_is_still_the_house() -> None:
    """A limit stated at its default is the house's own all the same."""
    limits = parse_limits("[page]\nwords_per_page = 210\n")
    assert limits == replace(Limits(), house=("words_per_page",))
    assert limits.basis("words_per_page") == "house rules"


SLIPS = [
    ("[panels]\nwords_per_panel = 3", "panels: unknown key 'panels'; the tables are [balloon],", 1),
    ("words_per_page = 3", "unknown key 'words_per_page'; it stands under [page]", 1),
    ("[page]\n\nwords_per_panel = 3", "it stands under [panel]", 3),
    ("[page]\nwords = 3", "page.words: unknown key 'words'; the keys are words_per_page,", 2),
    ("page = 3", "page: not a table; write [page]", 1),
    ("[page]\nwords_per_page = 0", "0 is out of range; give a whole number from 1 to 100000", 2),
    ("[page]\nwords_per_page = -5", "-5 is out of range", 2),
    ("[page]\nwords_per_page = 100001", "100001 is out of range", 2),
    ("[page]\nwords_per_page = 180.5", "180.5 is no whole number", 2),
    ("[page]\nwords_per_page = true", "true is no whole number", 2),
    ("[page]\nwords_per_page = '180'", "'180' is no whole number", 2),
    ("[page]\nwords_per_page = [180]", "a list is no whole number", 2),
    ("[page]\nwords_per_page.a.b.c = 1", "a table is no whole number", 2),
    (f"[page]\nwords_per_page = 0x{'f' * 900}", "is out of range", 2),
    ("[panel]\ncoverage = 33", "33 is out of range; give a number from 0.01 to 1", 2),
    ("[panel]\ncoverage = nan", "nan is out of range", 2),
    ("[panel]\ncoverage = inf", "inf is out of range", 2),
    ("[panel]\ncoverage = 0", "0 is out of range", 2),
    ("[panel]\ncoverage = false", "false is no number", 2),
    (f"[panel]\ncoverage = 1{'0' * 400}", "is out of range", 2),
    ("[type]\nleast_size_pt = 2026-01-01", "is no number; give a number from 1 to 72", 2),
    ("panel.coverage = 2", "panel.coverage: 2 is out of range", 1),
    ("panel = {words_per_panel = 0}", "panel.words_per_panel: 0 is out of range", 1),
    ('[panel]\n"\\u001b[31m" = 1', "panel.'\\x1b[31m': unknown key '\\x1b[31m'", 1),
    ("[panel]\ncoverage = 0.3\ncoverage = 0.4", "not TOML", 3),
    ("[panel\n", "write tables such as [panel] with a line words_per_panel = 30", 1),
    ("a." * 40_000 + "a = 1", "a line of 80005 characters", 1),
    ("#\n" * 150_000, "house rules of more than 200000 characters; give each limit once", None),
    ("[[page]]\nwords_per_page = 3", "page: not a table", 1),
]


@pytest.mark.parametrize(("text", "says", "line"), SLIPS)
def test_a_slip_is_one_line_that_says_where_and_what_to_do(
    text: str, says: str, line: int | None
) -> None:
    """File, line, key, what is wrong, what to do."""
    with pytest.raises(PageError) as caught:
        parse_limits(text, source="house.toml")
    message = str(caught.value)
    assert says in message
    assert message.startswith("house.toml" if line is None else f"house.toml:{line}: ")
    assert caught.value.advice
    assert "\n" not in message
    assert message.isprintable()
    assert len(message) < 400


def test_tables_nested_without_end_are_one_line_too() -> None:
    """A value of a thousand tables within each other is named, not shown."""
    deep = f"[page.words_per_page.{'a.' * 400}a]\n{'b.' * 400}b = 1"
    with pytest.raises(PageError, match="a table is no whole number"):
        parse_limits(deep)


@given(st.text(alphabet='[]{}="\n., panelcovrgwds_0123', max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Whatever the file holds, there are limits or one clear complaint."""
    complaint = ""
    try:
        parse_limits(text)
    except PageError as error:
        complaint = str(error)
    assert "\n" not in complaint


def test_a_house_that_names_no_limit_is_refused() -> None:
    """`Limits` itself takes names of limits only."""
    with pytest.raises(PageError, match="no limit is called 'words'"):
        Limits(house=("words",))
