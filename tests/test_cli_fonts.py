"""The command `letterfit fonts`, and choosing within a font on the command line."""

import json
from pathlib import Path

import pytest
from rich.cells import cell_len

from letterfit.cli import main
from tests.box_font import box_font
from tests.lettering.hostile_fonts import named_font

VARIABLE = str(Path(__file__).parent / "data" / "variable" / "Grandstander-wght-latin.woff2")


def run(*arguments: str) -> int:
    """The exit status of a command."""
    with pytest.raises(SystemExit) as caught:
        main(arguments)
    assert isinstance(caught.value.code, int)
    return caught.value.code


def test_a_file_is_told_of_in_80_columns(capsys: pytest.CaptureFixture[str]) -> None:
    """Instances, axes, what nearly is covered, licence and advice."""
    assert run("fonts", VARIABLE, "Comic Relief") == 0
    told = capsys.readouterr().out
    assert max(map(cell_len, told.splitlines())) <= 80
    flat = " ".join(told.split())
    for said in (
        "wght 100 to 900, default 100; instances Thin,",
        "French lacks Ÿ",
        "else from Letterfit Symbols, Balsamiq Sans",
        "may be embedded and installed",
        "no legal advice",
        "OS/2 says cap height .759, the ink of H is .739.",
    ):
        assert said in flat


def test_json_goes_to_a_file_or_to_standard_output(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With "-" nothing else is printed; without a file the bundled families are told."""
    assert run("fonts", VARIABLE, "--json", str(tmp_path / "fonts.json")) == 0
    assert "SemiBold" in capsys.readouterr().out
    tree = json.loads((tmp_path / "fonts.json").read_text(encoding="utf-8"))
    assert [one["family"] for one in tree["typefaces"]] == ["Grandstander"]
    assert run("fonts", "--json", "-") == 0
    assert len(json.loads(capsys.readouterr().out)["typefaces"]) == 5


def test_a_hostile_name_does_not_reach_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """No escape sequence, and one line."""
    (tmp_path / "nib.ttf").write_bytes(named_font("Nib\x1b[2J\r\nBold"))
    assert run("fonts", str(tmp_path / "nib.ttf")) == 0
    told = capsys.readouterr().out
    assert told.startswith("Nib [2J Bold\n")
    assert "\x1b" not in told


def fitted(capsys: pytest.CaptureFixture[str], *arguments: str) -> float:
    """The width of a line as the command fits it with these options."""
    assert run("fit", "MMM", "--json", "-", "--outline", "caption", *arguments) == 0
    tree = json.loads(capsys.readouterr().out)
    return float(tree["lines"][0]["width"])


def test_a_weight_is_chosen_by_instance_or_by_axis(capsys: pytest.CaptureFixture[str]) -> None:
    """The same place by either name; another one is wider or narrower."""
    named = fitted(capsys, "--typeface", VARIABLE, "--instance", "semi bold")
    assert fitted(capsys, "--typeface", VARIABLE, "--axis", "wght=600") == named
    assert fitted(capsys, "--typeface", VARIABLE, "--face", "0") != named


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--typeface", VARIABLE, "--axis", "wght=1000"), "wght goes from 100 to 900"),
        (("--typeface", VARIABLE, "--axis", "wght"), "not of the form wght=600"),
        (("--typeface", VARIABLE, "--instance", "Nib"), "choose from Thin"),
        (("--typeface", VARIABLE, "--face", "one"), "faces count from 0"),
        (("--typeface", "Bangers", "--face", "0"), "is a bundled family"),
        (("--face", "0"), "choose within --typeface FILE"),
        (("--typeface", VARIABLE, "--typeface", VARIABLE, "--face", "0"), "within one --typeface"),
        (("--typeface", "Comic Neue", "--typeface", VARIABLE), "Comic Neue is a whole one"),
    ],
)
def test_an_impossible_choice_is_one_line(
    arguments: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2; what is wrong and what there is."""
    assert run("fit", "MMM", *arguments) == 2
    told = capsys.readouterr().err
    assert said in told
    assert told.count("\n") == 1


def test_a_file_that_is_no_font_is_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Cut short, or nothing of the kind."""
    (tmp_path / "cut.ttf").write_bytes(box_font()[:900])
    assert run("fonts", str(tmp_path / "cut.ttf")) == 2
    assert "cut short" in capsys.readouterr().err
    assert run("fonts", "nowhere.ttf") == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_several_files_are_styles_of_one_family(capsys: pytest.CaptureFixture[str]) -> None:
    """Emphasis shows where the bold italic is given; alone, the regular is told to lack it."""
    folder = Path(__file__).parents[1] / "fonts_open" / "ComicNeue"
    regular, bold = (str(folder / f"ComicNeue-{style}.ttf") for style in ("Regular", "BoldItalic"))
    alone = told_of(capsys, "--typeface", regular)
    assert "bold italic" in alone
    both = told_of(capsys, "--typeface", regular, "--typeface", bold)
    assert "bold italic" not in both
    assert both == told_of(capsys, "--typeface", "Comic Neue")


def told_of(capsys: pytest.CaptureFixture[str], *options: str) -> str:
    """What is said of an emphasised text."""
    assert run("fit", "Hold *on*, then.", *options) == 0
    return " ".join(capsys.readouterr().out.split())
