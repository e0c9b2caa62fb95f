"""A whole script in a process that is warm: parsed, lettered, and written out.

Floor: HarfBuzz's shape of all its balloons' words. What others do of the same work each says.
"""

import json
from collections.abc import Iterator, Sequence
from functools import cache
from time import process_time
from xml.etree import ElementTree as ET

import pytest
from markdown_it import MarkdownIt

import letterfit as lf
from tests.benchmarks import laying
from tests.benchmarks.beside import Benchmark, Prepared, Row, Timed, blocks, compare, timed
from tests.benchmarks.floors import SHAPING, capitals_shaped
from tests.benchmarks.texts import TypedScript, typed_script, typed_scripts
from tests.plays import play_names

pytestmark = pytest.mark.benchmark(timer=process_time)

PAGES, ROUNDS = 24, 7

FEW_PAGES, SCRIPTS = 8, 3
"""Pages of a script that is written out or one of a catalogue, and scripts of a catalogue."""


def _row(work: str, *, per: int = PAGES) -> Row:
    return Row(group="script", work=work, unit="page", per=per, floor=SHAPING)


def _shape(script: TypedScript) -> Prepared:
    return capitals_shaped(script.texts)


def _laid_out() -> dict[str, Timed[TypedScript]]:
    """The script's texts laid out by others, in lines of one width."""
    return {name: _texts_of(layout) for name, layout in laying.layouts().items()}


def _texts_of(layout: Timed[Sequence[str]]) -> Timed[TypedScript]:
    return lambda script: layout(script.texts)


def test_parse(benchmark: Benchmark) -> None:
    """A typed script read, beside a parser of Markdown on the same text."""
    markdown = MarkdownIt("commonmark")
    compare(
        benchmark,
        typed_scripts(pages=PAGES),
        lambda script: lambda: lf.parse_script(script.text),
        row=_row(f"`parse_script` of {PAGES} pages"),
        floor=timed(_shape),
        others={"markdown-it-py": timed(lambda script: lambda: markdown.parse(script.text))},
        rounds=20,
    )


def test_preflight(benchmark: Benchmark) -> None:
    """A parsed script lettered, beside its texts broken into lines."""

    def work(script: TypedScript) -> Prepared:
        parsed = lf.parse_script(script.text)
        return lambda: lf.preflight(parsed)

    compare(
        benchmark,
        typed_scripts(pages=PAGES),
        work,
        row=_row(f"`preflight` of {PAGES} pages"),
        floor=timed(_shape),
        others=_laid_out(),
        rounds=ROUNDS,
    )


def test_catalogue(benchmark: Benchmark) -> None:
    """Several scripts told page by page, each page as a line of JSON."""

    def work(scripts: Sequence[TypedScript]) -> Prepared:
        parsed = [lf.parse_script(script.text) for script in scripts]
        return lambda: [lf.to_json_line(told) for told in lf.preflight_stream(parsed)]

    def over_all(one: Timed[TypedScript]) -> Timed[Sequence[TypedScript]]:
        return lambda scripts: sum(map(one, scripts))

    compare(
        benchmark,
        blocks(typed_scripts(pages=FEW_PAGES), SCRIPTS),
        work,
        row=_row(
            f"`preflight_stream` of {SCRIPTS} scripts of {FEW_PAGES} pages, as JSON Lines",
            per=SCRIPTS * FEW_PAGES,
        ),
        floor=over_all(timed(_shape)),
        others={name: over_all(one) for name, one in _laid_out().items()},
        rounds=ROUNDS,
    )


# --- outputs


@cache
def _reported(play: str) -> tuple[TypedScript, lf.ScriptReport]:
    script = typed_script(play, pages=FEW_PAGES)
    return script, lf.preflight(lf.parse_script(script.text))


Reported = tuple[TypedScript, lf.ScriptReport]


def _reports() -> Iterator[Reported]:
    """Reports of several plays, made once for all outputs."""
    return map(_reported, play_names())


_SHAPED: Timed[Reported] = timed(lambda reported: _shape(reported[0]))


def test_json(benchmark: Benchmark) -> None:
    """The report as JSON, beside the standard library writing the same bytes from dictionaries."""

    def plain(reported: Reported) -> Prepared:
        value = json.loads(lf.to_json(reported[1]))
        return lambda: json.dumps(value, ensure_ascii=False, allow_nan=False, indent=2)

    compare(
        benchmark,
        _reports(),
        lambda reported: lambda: lf.to_json(reported[1]),
        row=_row(f"`to_json` of {FEW_PAGES} pages", per=FEW_PAGES),
        floor=_SHAPED,
        others={"json.dumps, the same bytes": timed(plain)},
        rounds=ROUNDS,
    )


def test_svg(benchmark: Benchmark) -> None:
    """All pages as SVG, beside the standard library writing the same elements from a tree."""

    def drawn(reported: Reported) -> Prepared:
        return lambda: [lf.to_svg(page) for page in reported[1].pages]

    def plain(reported: Reported) -> Prepared:
        trees = [ET.fromstring(lf.to_svg(page)) for page in reported[1].pages]  # noqa: S314 - ours
        return lambda: [ET.tostring(tree, encoding="unicode") for tree in trees]

    compare(
        benchmark,
        _reports(),
        drawn,
        row=_row(f"`to_svg` of {FEW_PAGES} pages", per=FEW_PAGES),
        floor=_SHAPED,
        others={"xml.etree, the same elements": timed(plain)},
        rounds=ROUNDS,
    )


def test_html(benchmark: Benchmark) -> None:
    """The report as one file for a browser; nothing else writes it."""
    compare(
        benchmark,
        _reports(),
        lambda reported: lambda: lf.to_html(reported[1]),
        row=_row(f"`to_html` of {FEW_PAGES} pages", per=FEW_PAGES),
        floor=_SHAPED,
        rounds=ROUNDS,
    )
