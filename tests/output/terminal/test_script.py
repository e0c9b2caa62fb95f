"""A parsed script in text: what was understood, with its lines."""

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from letterfit.findings import Finding
from letterfit.output.terminal.script import script_to_text
from letterfit.script.model import Dialogue, Script, ScriptPage, ScriptPanel

SCRIPT = Script(
    title="SLACK TIDE",
    findings=(
        Finding(
            code="lost", severity="warning", message="Nobody placed it.", advice="Move it.", line=2
        ),
    ),
    pages=(
        ScriptPage(
            numbers=(4, 5),
            line=4,
            spread=True,
            stated_panel_count=3,
            plan="1 / 2",
            panels=(
                ScriptPanel(
                    number=1,
                    line=6,
                    description="The gate at dawn. " * 9,
                    elements=(
                        Dialogue(
                            kind="dialogue",
                            text="Hold [bold]it[/bold].",
                            line=7,
                            speaker="WENNA",
                            modifiers=("OFF",),
                            index=3,
                        ),
                        Dialogue(kind="sfx", text="HOOOM", line=8),
                    ),
                ),
            ),
        ),
    ),
)


def test_every_part_is_shown_with_its_line() -> None:
    """Pages, panels and elements, who speaks and how, the number typed before it."""
    lines = [" ".join(line.split()) for line in script_to_text(SCRIPT).splitlines()]
    assert lines[0] == "SLACK TIDE · 1 page · 1 panel · 2 lettered elements · headings in English"
    assert "SPREAD 4-5 line 4, 1 panel, its heading says 3, plan 1 / 2" in lines
    assert "7 dialogue 3. WENNA (OFF): Hold [bold]it[/bold]." in lines
    assert "8 sfx HOOOM" in lines


def test_findings_come_first() -> None:
    """A line that nobody could place is told before the pages, with what to do."""
    text = script_to_text(SCRIPT)
    assert text.index("Nobody placed it.") < text.index("SPREAD")
    assert "→ Move it." in text


def test_a_long_description_is_cut_short() -> None:
    """Enough of it to know the panel again, and dots."""
    text = " ".join(script_to_text(SCRIPT).split())
    assert text.count("The gate at dawn.") == 4
    assert "..." in text


@given(text=st.text(st.characters(exclude_categories=()), max_size=90), width=st.integers(40, 100))
def test_any_text_stays_within_the_width(text: str, width: int) -> None:
    """Whatever was typed, lines stay within the width and no escape gets out."""
    said = Dialogue(kind="dialogue", text=text, line=7, speaker=text or None)
    panel = ScriptPanel(number=text[:6] or 1, line=6, description=text, elements=(said,))
    script = Script(pages=(ScriptPage(numbers=(1,), line=4, panels=(panel,), note=text),))
    printed = script_to_text(script, width=width)
    assert max(map(cell_len, printed.splitlines())) <= width
    assert "\x1b" not in printed
