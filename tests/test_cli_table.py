"""The command `letterfit fit --table`: statuses, streams and files."""

import io
import json
import sys
from pathlib import Path

import pytest

from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

HEAD = "id,text,outline,width,height\n"
SPEECH = '"The tide turned an hour ago, and nobody has come to ask why the gate is shut."'
FITTING = f"{HEAD}1.1,Ahoy!,ellipse,22,11\n1.2,At Lock Nine,caption,30,9\n"
HELPED = f"{FITTING}1.3,{SPEECH},ellipse,30,16\n"
HOPELESS = f"{HELPED}1.4,{SPEECH},burst,18,10\n"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with three tables."""
    monkeypatch.chdir(tmp_path)
    for name, text in (("fits", FITTING), ("helped", HELPED), ("hopeless", HOPELESS)):
        Path(f"{name}.csv").write_text(text, encoding="utf-8")
    Path("blank.csv").write_text(f"{HEAD}a,\u200b,ellipse,20,10\n", encoding="utf-8")
    return runner(capsys)


def test_the_status_says_whether_all_fit(run: Run) -> None:
    """0 when all do, 1 when some do not; at one size that helps, 0 again."""
    assert run("fit", "--table", "fits.csv")[0] == FITS
    assert run("fit", "--table", "helped.csv")[0] == MISFIT
    status, out, err = run("fit", "--table", "helped.csv", "--common-size")
    assert (status, err) == (FITS, "")
    assert "One size for all: 6.74 pt" in out
    assert run("fit", "--table", "hopeless.csv", "--common-size")[0] == MISFIT
    assert max(map(len, out.splitlines())) <= 80


def test_json_and_csv_go_where_they_are_sent(run: Run) -> None:
    """To standard output in place of the text, or to files beside it."""
    _, out, _ = run("fit", "--table", "helped.csv", "--json", "-", "--csv", "out.csv")
    told = json.loads(out)
    assert [row["fits"] for row in told["rows"]] == [True, True, False]
    assert Path("out.csv").read_bytes().count(b"\r\n") == 4
    _, out, _ = run("fit", "--table", "helped.csv", "--csv", "-")
    assert out.startswith("id,text,outline,width,height,fits,")
    _, out, _ = run("fit", "--table", "helped.csv", "--csv", "out.csv")
    assert out.startswith("✗ 1 of 3 texts does not fit")


def test_a_table_is_read_from_standard_input(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """As `-`; a fault there is told with that name."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(FITTING.encode())))
    assert run("fit", "--table", "-")[0] == FITS
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"id,text\n")))
    status, out, err = run("fit", "--table", "-")
    assert (status, out) == (UNUSABLE, "")
    assert err.startswith("letterfit: standard input: no column is called outline")
    monkeypatch.setattr(sys, "stdin", None)
    assert run("fit", "--table", "-")[0] == UNUSABLE


def test_lettering_and_language_hold_for_the_table(run: Run) -> None:
    """The options of `fit` that say how words are set."""
    _, out, _ = run(
        "fit", "--table", "fits.csv", "--json", "-", "--size", "6", "--case", "as-typed"
    )
    told = json.loads(out)
    assert (told["asked_pt"], told["rows"][0]["text"]) == (6, "Ahoy!")


def test_the_least_size_is_an_option(run: Run) -> None:
    """Of a table and of a single text; the default is advice."""
    arguments = ("fit", "--table", "helped.csv", "--common-size", "--json", "-")
    _, out, _ = run(*arguments, "--least-size", "7")
    assert json.loads(out)["common_size"]["left_out"] == ["1.3"]
    given = ("fit", SPEECH, "--width", "30", "--height", "16")
    assert "It fits at 6.7" in run(*given)[1]
    assert "It fits at no legible size" in run(*given, "--least-size", "7")[1]
    _, out, _ = run(*given, "--least-size", "7", "--json", "-")
    assert json.loads(out)["overflow"]["size_pt"] is None


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "Give a TEXT, or --table FILE."),
        (("Ahoy!", "--table", "fits.csv"), "TEXT does not go with --table."),
        (("--table", "fits.csv", "--outline", "ellipse"), "--outline does not go with"),
        (("--table", "fits.csv", "--width", "20"), "--width does not go with"),
        (("--table", "fits.csv", "--joined"), "--joined does not go with"),
        (("--table", "fits.csv", "--svg", "a.svg"), "--svg does not go with"),
        (("Ahoy!", "--common-size"), "--common-size goes with --table."),
        (("Ahoy!", "--csv", "-"), "--csv goes with --table."),
        (("--table", "fits.csv", "--csv", "-", "--json", "-"), "Only one of --json and --csv"),
        (("--table", "none.csv"), "none.csv: no such file"),
        (("--table", "."), ".: is a directory"),
        (("--table", "fits.csv", "--least-size", "0"), "0.0 is not in the range"),
        (("--table", "fits.csv", "--least-size", "nan"), "nan is no size"),
        (("--table", "blank.csv"), "blank.csv: 1 row cannot be used: line 2: there is no text"),
        (("--table", "fits.csv", "--csv", "none/out.csv"), "none/out.csv: no such file"),
    ],
)
def test_what_cannot_be_is_one_line(run: Run, arguments: tuple[str, ...], said: str) -> None:
    """Status 2, nothing on standard output."""
    status, out, err = run("fit", *arguments)
    assert (status, out) == (UNUSABLE, "")
    assert said in err
    assert err.count("\n") == 1
