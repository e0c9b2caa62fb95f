"""Reports as JSON Lines, schema 1: a line for each script, each page, and each script's end."""

import json

from letterfit.output.balloon_json import finding_json, lettering_json
from letterfit.output.json_text import JsonObject
from letterfit.output.plain import plain
from letterfit.output.report_json import SCHEMA, page_json, terms_json
from letterfit.report.catalogue import (
    ScriptBegun,
    ScriptEnded,
    ScriptRefused,
    Told,
    told_of,
)
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.pace import page_pace
from letterfit.version import VERSION


def to_json_line(told: Told) -> str:
    r"""One thing that `preflight_stream` told, as one line of JSON (`lines_schema`).

    Args:
        told: The beginning of a script, a page, the end, or why a script cannot be used.

    Returns:
        One line with its line feed, lengths in mm to 0.001; its "record" is "script",
        "page", "end" or "error". A page is the object that `to_json` has, beside its own findings.

    >>> import json
    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> [json.loads(to_json_line(told))["record"] for told in lf.preflight_stream([script])]
    ['script', 'page', 'end']
    """
    text = json.dumps(_line(told), ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    # JSON may hold these as they are, but some readers of lines end a line at them.
    return text.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029") + "\n"


def to_json_lines(report: ScriptReport) -> str:
    r"""A whole report as JSON Lines: what streaming its script would have written.

    Args:
        report: The report.

    Returns:
        A line for the script, one for each page, one for the end; see `to_json_line`.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> to_json_lines(lf.preflight(script)).count("\n")
    3
    """
    return "".join(map(to_json_line, told_of(report)))


def _line(told: Told) -> JsonObject:
    if isinstance(told, PageReport):
        return _page(told)
    if isinstance(told, ScriptBegun):
        return _begun(told)
    if isinstance(told, ScriptEnded):
        return _ended(told)
    return _refused(told)


def _page(page: PageReport) -> JsonObject:
    return {
        "record": "page",
        "source": plain(page.setting.source if page.setting else ""),
        "page": page_json(page, page_pace(page)),
        "findings": [finding_json(one) for one in page.findings],
    }


def _begun(told: ScriptBegun) -> JsonObject:
    report = told.report
    return {
        "record": "script",
        "schema": SCHEMA,
        "letterfit": VERSION,
        "title": None if report.title is None else plain(report.title),
        "source": plain(told.source),
        "lettering": lettering_json(report.lettering),
        **terms_json(report),
        "pages": told.pages,
        "findings": [finding_json(one) for one in report.findings],
    }


def _ended(told: ScriptEnded) -> JsonObject:
    return {
        "record": "end",
        "source": plain(told.source),
        "fits": told.fits,
        "pages": told.pages,
        "pages_that_fit": told.pages_that_fit,
        "panels": told.panels,
        "panels_that_fit": told.panels_that_fit,
        "words": told.words,
    }


def _refused(told: ScriptRefused) -> JsonObject:
    error = told.error
    return {
        "record": "error",
        "source": plain(told.source),
        "line": error.line,
        "message": plain(error.what),
        "advice": plain(error.advice),
    }
