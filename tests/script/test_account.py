"""Nothing is lost: every word of a script ends in its parse, or a finding names its line."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import ScriptError
from letterfit.script.account import Placed
from letterfit.script.lines import split_lines
from letterfit.script.model import Script
from letterfit.script.parse import parse_blocks, parse_script
from letterfit.script.tables import pipe_tables

SCRIPTS = Path(__file__).parents[1] / "data/scripts"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(SCRIPTS.glob("*.txt"))]

LINES = (
    "PAGE {n}", "Page {n} - {t}", "PAGE {n} ({t})", "PAGE {n} ({n} panels) {t}", "PAGES {n}-9 {t}",
    "Page {n}, Panel {n}: {t}", "PAGE TWO (splash). {t}", "3ページ（{t}）", "Planche {n}",
    "Panel {n}. {t}", "Panel {n}", "PANEL: {t}", "コマ{n} {t}", "CASE {n} : {t}", "{n}. {t}",
    "{n}.{n} {t}", "{n}", "WENNA: {t}", "WENNA ({t}): {t}", "Wenna: {t}", "{t}: {t}", "{T}: {t}",
    "{T} {T}: {t}", "WENNA:", "WENNA", "**WENNA**", "### Wenna", "  WENNA", "{T}", "  {t}", "{t}",
    "\t{t}\t{t}", "({t})", "(beat)", "(beat {t})", "[{t}]", "WENNA: {t} (beat) {t}",
    "WENNA: ({t}) {t}", "WENNA: ({t})", "WENNA: (beat)", "NO DIALOGUE", "Muette", "silence {t}",
    "TIERS: {t}", "[Tiers: {t}]", "CAPTION: {t}", "CAPTION {T}: {t}", "CAPTION ({t}): {t}",
    "SFX", "SFX: {t}", "{T} SFX: {t}", "DIARY: {t}", "NOTE: {t}", "CLOSE ON {T}: {t}", "---",
    "=== PAGE {n} {t} ===", "- {t}", "- WENNA: {t}", "{n} WENNA: {t}", "> **{T}:** {t}", "# {t}",
    "ウェンナ「{t}」", "ウェンナ「{t}」{t}", "{t}：{t}", "| Panel | Text | Who |", "| {t} | {t} |",
    "| {n} | {t} | {T} |", "| |Speaker|Text|", "| {t} |", "", "", "\x0c{t}", "{t}\u2028{t}",
    "WENNA\t{t}", "WENNA - {t}", "{T} — {t}", "{n}   {T}   {t}", "[{n}] {t}", "■{n}コマ目 {t}",
    "「{t}」", "船頭", "SFX - {t}", "SFX — {T}: {t}", "WENNA (OFF) - {t}", "CAP (WENNA, {t}): {t}",
    "①{t}", "{T} ({t}) - {t}", "1. **{T}:** {t}",
    "WENNA, {t}: {t}", "(WENNA: {t}", "{t} (", ")", "*{t}", "**{t}", "PAGE {t}", "Panel {t}",
)  # fmt: skip


@st.composite
def soups(draw: st.DrawFn) -> str:
    """Lines of every form the parser knows, in any order, each word of content there once."""
    count = 0
    lines = []
    for form in draw(st.lists(st.sampled_from(LINES), max_size=30)):
        line = form
        while (field := re.search(r"\{[tTn]\}", line)) is not None:
            count += 1
            word = {"{t}": f"qzj{count}w", "{T}": f"QZJ{count}W"}.get(field.group())
            line = line.replace(field.group(), word or str(draw(st.integers(1, 4))), 1)
        lines.append(line)
    return draw(st.sampled_from(["\n", "\r\n", "\r"])).join(lines)


def parsed(text: str) -> tuple[Script, tuple[Placed, ...]] | None:
    """The script and the account; None where nothing in the text makes a script."""
    lines, findings = split_lines(text)
    try:
        return parse_blocks(pipe_tables(lines), findings=findings)
    except ScriptError:
        return None


def kept(script: Script) -> str:
    """All strings of a script's values, folded."""
    parts: list[str] = list(script.front_matter)
    for page in script.pages:
        parts += [page.note or "", page.plan or ""]
        for panel in page.panels:
            parts += [str(panel.number), panel.description, panel.note or ""]
            for e in panel.elements:
                parts += [e.text, e.speaker or "", *e.modifiers]
    return " ".join(parts).casefold()


@settings(max_examples=200)
@given(soups())
def test_every_word_ends_in_the_script_or_a_finding_names_its_line(text: str) -> None:
    """No word of content gets lost, wherever lines stand; each line has one place."""
    result = parsed(text)
    if result is None:
        return
    script, account = result
    everything = kept(script)
    named = {finding.line for finding in script.findings}
    lines, _ = split_lines(text)
    for line in lines:
        for word in re.findall(r"qzj\d+w", line.text.casefold()):
            assert word in everything or line.number in named, (line, account)
    assert sorted({placed.number for placed in account}) == sorted({line.number for line in lines})
    blank = {placed.number for placed in account if placed.place == "blank"}
    assert all(
        not placed.text for placed in account if placed.number in blank and placed.place == "blank"
    )


@given(st.sampled_from(TEXTS), st.data())
def test_mutated_scripts_lose_no_word(text: str, data: st.DataObject) -> None:
    """Real scripts with lines dropped, swapped, joined, indented: every word is still there."""
    lines = text.splitlines()
    for _ in range(data.draw(st.integers(0, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        to = data.draw(st.integers(0, len(lines) - 1))
        match data.draw(st.sampled_from(["drop", "swap", "join", "indent", "upper", "bullet"])):
            case "drop":
                lines[at] = ""
            case "swap":
                lines[at], lines[to] = lines[to], lines[at]
            case "join":
                lines[at] += " " + lines[to]
            case "indent":
                lines[at] = "\t" + lines[at]
            case "upper":
                lines[at] = lines[at].upper()
            case _:
                lines[at] = "- " + lines[at]
    result = parsed("\n".join(lines))
    if result is None:
        return
    script, account = result
    everything = words_of([kept(script)])
    named = {finding.line for finding in script.findings}
    for placed in account:
        if placed.number not in named:
            missing = words_of([placed.text]) - everything - HEADWORDS
            assert not missing, placed


def test_the_check_sees_a_lost_word() -> None:
    """A negative control: a script whose only description is taken out no longer holds it."""
    result = parsed("PAGE 1\nPanel 1\nqzj1w\n")
    assert result is not None
    script, _ = result
    assert "qzj1w" in kept(script)
    page = script.pages[0]
    bare = replace(page, panels=(replace(page.panels[0], description=""),))
    assert "qzj1w" not in kept(replace(script, pages=(bare,)))


HEADWORDS = {
    *("page", "panel", "panels", "planche", "case", "one", "two", "five", "splash"),
    *("caption", "récitatif", "sfx", "bruitage", "1", "2", "3", "4", "5"),
}


def words_of(texts: Sequence[str]) -> set[str]:
    """The words of texts, without case."""
    return {word for text in texts for word in re.findall(r"[^\W_]+", text.casefold())}


@given(soups(), st.sampled_from(["crlf", "cr", "bom", "nfd", "spaces"]))
def test_the_same_script_typed_on_another_machine_parses_the_same(text: str, how: str) -> None:
    """Line ends, a byte order mark, decomposed accents and spaces round lines change nothing."""
    text = "\n".join(line.text for line in split_lines(text)[0]) + "\nRÉCITATIF (à côté) : Ohé !"
    other = {
        "crlf": text.replace("\n", "\r\n"),
        "cr": text.replace("\n", "\r"),
        "bom": "\ufeff" + text,
        "nfd": unicodedata.normalize("NFD", text),
        "spaces": text.replace("\n", " \u00a0\n"),
    }[how]
    one, two = parsed(text), parsed(other)
    assert (one and one[0]) == (two and two[0])


@given(
    st.text(alphabet=st.sampled_from("PAGE 1:()[]（「」*_#|.-\t\n\u0301aé３ページ"), max_size=200)
)
def test_any_text_parses_or_raises_script_error(text: str) -> None:
    """Brackets, marks and keywords in any order never raise anything else."""
    result = parsed("PAGE 1\n" + text)
    assert result is not None


@pytest.mark.parametrize(
    "sign",
    ["(", ")", "*", "#", "-", ":", "\t", "|", "_", "「", "(beat)", "a ", "1.", ">", "é", " "],
)
def test_a_very_long_line_is_read_to_its_end(sign: str) -> None:
    """Fifty thousand signs of one kind, within a page, as a speech and as a heading."""
    line = sign * 50_000
    for form in (
        "PAGE 1\n{}x",
        "PAGE 1\nWENNA: {}x",
        "PAGE 1\nPAGE 2 {}x",
        "PAGE 1\nPanel 1 {}x",
        "PAGE 1\n1. {}x",
    ):
        script = parse_script(form.format(line))
        assert "x" in kept(script) or script.findings
