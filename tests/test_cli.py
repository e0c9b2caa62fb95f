"""The command line: statuses, one-line complaints, streams and files."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from docx import Document

from letterfit import cli
from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

SCRIPT = """\
PAGE ONE

Panel 1. Wenna on the gate.
WENNA: The tide turned an hour ago.

Panel 2. The barge.
BARGE PILOT (OFF): Ahoy, the lock!
"""
CROWDED = f"""\
PAGE ONE

Panel 1. The gate.
WENNA: {"The tide will not wait for any of us. " * 12}
""" + "".join(f"\nPanel {n}. The gate.\n" for n in range(2, 13))


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line in an empty folder that holds two scripts: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    Path("crowded.txt").write_text(CROWDED, encoding="utf-8")
    return runner(capsys)


def complaint(result: tuple[int, str, str]) -> str:
    """The one line a command complained with, and nothing on standard output."""
    status, out, err = result
    assert status == UNUSABLE
    assert out == ""
    assert err.startswith("letterfit: ")
    assert err.count("\n") == 1
    return err


def test_the_bare_name_prints_the_help(run: Run) -> None:
    """The first thing that a newcomer types; each command has a whole line."""
    status, out, err = run()
    assert (status, err) == (FITS, "")
    assert out == run("--help")[1]
    assert "\n  cuts " in out
    assert "..." not in out.partition("Commands:")[2]


def test_a_script_that_fits_ends_with_0(run: Run) -> None:
    """Preflight prints its report and says by its status that everything fits."""
    status, out, err = run("preflight", "gate.txt")
    assert (status, err) == (FITS, "")
    assert "1.1" in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_script_that_does_not_fit_ends_with_1(run: Run) -> None:
    """Preflight names what does not fit and says so by its status."""
    status, out, _ = run("preflight", "crowded.txt")
    assert status == MISFIT
    assert "1.1" in out


def test_a_checked_script_has_no_faults(run: Run) -> None:
    """With --check the independent checker goes over every layout and changes nothing else."""
    assert run("preflight", "gate.txt", "--check") == run("preflight", "gate.txt")


def test_joined_and_butted_balloons_are_asked_for(run: Run) -> None:
    """--same-speaker and --butted reach the report; without them nothing is joined or cut."""
    Path("twice.txt").write_text(
        f"{SCRIPT}\nPanel 3. Wenna.\nWENNA: Hold a little longer, old thing.\nWENNA: Hold.\n",
        encoding="utf-8",
    )
    ways: tuple[tuple[tuple[str, ...], bool, bool], ...] = (
        ((), False, False),
        (("--same-speaker", "joined"), True, False),
        (("--butted",), False, True),
        (("--same-speaker", "joined", "--butted", "--check"), True, True),
    )
    for options, joined, butted in ways:
        status, out, _ = run("preflight", "twice.txt", "--json", "-", *options)
        panels = json.loads(out)["pages"][0]["panels"]
        balloons = [balloon for panel in panels for balloon in panel["balloons"]]
        assert status == FITS
        assert any(balloon["joined"] for balloon in balloons) is joined
        assert any(balloon["overhang"] for balloon in balloons) is butted


def test_unknown_ways_with_one_speaker_are_refused(run: Run) -> None:
    """One line names the option and what it takes; so does joining without air."""
    assert "'linked', 'joined'" in complaint(run("preflight", "gate.txt", "--same-speaker", "x"))
    airless = ("--same-speaker", "joined", "--air", "0")
    assert "give air over 0 mm" in complaint(run("preflight", "gate.txt", *airless))


def test_json_to_standard_output_is_all_that_is_printed(run: Run) -> None:
    """With --json - the output is one JSON document that another program can read."""
    status, out, _ = run("preflight", "gate.txt", "--json", "-")
    report = json.loads(out)
    assert status == FITS
    assert report["schema"] == 1
    assert report["fits"] is True
    assert [panel["id"] for panel in report["pages"][0]["panels"]] == ["1.1", "1.2"]


def test_a_sheet_of_figures_is_written(run: Run) -> None:
    """--figures writes one sheet for the whole script beside the report."""
    status, out, _ = run("preflight", "gate.txt", "--figures", "figures.svg")
    root = ET.fromstring(Path("figures.svg").read_text(encoding="utf-8"))  # noqa: S314 - ours
    assert status == FITS
    assert "1.1" in out
    assert [e.get("id") for e in root.iter() if e.get("class") == "page"] == ["page-1"]


def test_a_sheet_of_figures_goes_to_standard_output_alone(run: Run) -> None:
    """With - there is no report in its way; a misfit still ends with 1."""
    status, out, err = run("preflight", "crowded.txt", "--figures", "-")
    assert (status, err) == (MISFIT, "")
    assert ET.fromstring(out.encode("utf-8")).tag.endswith("svg")  # noqa: S314 - ours


def test_svg_pages_are_written_at_print_size(run: Run) -> None:
    """--svg makes the folder and writes one page each, as wide as the paper."""
    status, _, _ = run("preflight", "gate.txt", "--svg", "pages", "--paper", "a5")
    root = ET.fromstring(Path("pages/page-1.svg").read_text(encoding="utf-8"))  # noqa: S314 - ours
    assert status == FITS
    assert root.attrib["width"] == "148mm"


def test_standard_input_is_a_script(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """A script named - is read from standard input."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(SCRIPT.encode())))
    status, out, _ = run("parse", "-", "--json", "-")
    assert status == FITS
    assert json.loads(out)["pages"][0]["panels"][1]["elements"][0]["modifiers"] == ["OFF"]


def test_standard_input_may_be_a_word_processor_file(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bytes say what they are; they need no name that ends in .docx."""
    document, file = Document(), io.BytesIO()
    for line in filter(None, SCRIPT.splitlines()):
        document.add_paragraph(line)
    document.save(file)
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(file.getvalue())))
    status, out, _ = run("parse", "-", "--json", "-")
    assert status == FITS
    assert json.loads(out)["pages"][0]["panels"][1]["elements"][0]["speaker"] == "BARGE PILOT"


def test_two_jobs_give_the_same_bytes(run: Run) -> None:
    """Worker processes change the time a report takes and nothing else."""
    Path("two.txt").write_text(f"{CROWDED}\n{SCRIPT.replace('ONE', 'TWO')}", encoding="utf-8")
    alone = run("preflight", "two.txt", "--json", "-")
    assert len(json.loads(alone[1])["pages"]) == 2
    assert run("preflight", "two.txt", "--json", "-", "--jobs", "2") == alone


def test_fit_tells_the_size_of_the_smallest_balloon(run: Run) -> None:
    """Fit prints a stack; with a width and a height it says whether the text goes in."""
    assert run("fit", "The tide turned an hour ago.")[0] == FITS
    assert run("fit", "Hold.", "--width", "30", "--height", "20")[0] == FITS
    status, out, _ = run(
        "fit", "Hold the gate. " * 40, "--width", "30", "--height", "20", "--json", "-"
    )
    assert status == MISFIT
    assert json.loads(out)["overflow"]["words"] > 100


def test_fit_breaks_as_asked(run: Run) -> None:
    """First fit begins with a lone word at the top, which total fit does not."""
    text = "The tide turned an hour ago and still nobody has come to ask why the gate is shut."
    into = ("fit", text, "--width", "40", "--height", "28", "--json", "-")
    first, total = (
        json.loads(run(*into, "--breaks", way)[1])["lines"] for way in ("first-fit", "total-fit")
    )
    assert first[0]["text"] == "THE"
    assert total[0]["text"] != "THE"
    assert json.loads(run(*into)[1])["lines"] == total


def test_demo_shows_every_verdict_and_leaves_its_files(run: Run) -> None:
    """The demo's three pages are roomy, tight and overflowing, and its files can be kept."""
    status, out, err = run("demo", "out")
    report = json.loads(Path("out/report.json").read_text(encoding="utf-8"))
    verdicts = [[p["verdict"] for p in page["panels"]] for page in report["pages"]]
    severities = [
        {f["severity"] for f in report["findings"] if f["where"].split(".")[0] == str(page)}
        for page in (1, 2, 3)
    ]
    assert status == FITS
    assert "3 pages" in err
    assert out
    assert set(verdicts[0]) == set(verdicts[1]) == {"placed"}
    assert "impossible" in verdicts[2]
    assert not severities[0] & {"error", "warning"}
    assert "warning" in severities[1]
    assert "error" in severities[2]
    assert Path("out/page-3.svg").exists()
    assert Path("out/slack_tide.txt").exists()
    assert Path("out/report.html").read_text(encoding="utf-8").count('class="sheet"') == 3


def test_fonts_and_help_answer(run: Run) -> None:
    """The list of typefaces names the default; help names every command."""
    assert "Grandstander" in run("fonts")[1]
    assert "preflight" in run("--help")[1]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("preflight", "nowhere.txt"), "nowhere.txt"),
        (("preflight", "."), "."),
        (("preflight", "binary.txt"), "binary.txt"),
        (("preflight", "empty.txt"), "empty.txt"),
        (("preflight", "gate.txt", "--paper", "vellum"), "vellum"),
        (("preflight", "gate.txt", "--paper", "0x10mm"), "0"),
        (("preflight", "gate.txt", "--size", "0"), "size"),
        (("preflight", "gate.txt", "--size", "nan"), "size"),
        (("preflight", "gate.txt", "--leading", "inf"), "leading"),
        (("preflight", "gate.txt", "--air", "-1"), "air"),
        (("preflight", "gate.txt", "--typeface", "broken.ttf"), "broken.ttf"),
        (("preflight", "gate.txt", "--typeface", "No Such Face"), "No Such Face"),
        (("preflight", "gate.txt", "--plan", "wrong.toml"), "wrong.toml"),
        (("preflight", "gate.txt", "--plan", "broken.toml"), "broken.toml"),
        (("preflight", "gate.txt", "--json", "no/such/folder.json"), "no/such"),
        (("preflight", "gate.txt", "--json", "."), "."),
        (("preflight", "gate.txt", "--paper", ""), "''"),
        (("preflight", "gate.txt", "--typeface", ""), "font"),
        (("preflight", "gate.txt", "--plan", ""), "directory"),
        (("preflight", "gate.txt", "--jobs", "0"), "--jobs"),
        (("preflight",), "SCRIPT"),
        (("fit", ""), "text"),
        (("fit", "Hold.", "--width", "30"), "--height"),
        (("fit", "Hold.", "--breaks", "first-fit"), "--breaks goes with --width and --height"),
        (("preflight", "gate.txt", "--json", "-", "--figures", "-"), "--figures"),
        (("fit", "Hold.", "--json", "-", "--svg", "-"), "--svg"),
        (("fit", "Hold.", "--width", "1e-300", "--height", "9"), "--width"),
        (("fit", "Hold.", "--width", "9", "--height", "1e308"), "--height"),
        (("fit", "Hold.", "--width", "-9", "--height", "9"), "--width"),
        (("fit", "Hold.", "--width", "nan", "--height", "3"), "nan"),
        (("carve",), "carve"),
        (("preflight", "pipe"), "pipe: this is a pipe or a device"),
        (("preflight", "gate.txt", "--plan", "pipe"), "pipe: no ordinary file"),
        (("preflight", "gate.txt", "--house-rules", "/dev/zero"), "/dev/zero: no ordinary file"),
        (
            ("preflight", "gate.txt", "--typeface", "pipe"),
            "pipe: this is a pipe or a device",
        ),
        (("fit", "--table", "pipe"), "pipe: no ordinary file"),
        (("measure", "pipe"), "pipe: no ordinary file"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_bad_input_gets_one_line(run: Run, arguments: tuple[str, ...], said: str) -> None:
    """Unusable input ends with status 2 and one line that names what is wrong."""
    Path("binary.txt").write_bytes(bytes(range(256)) * 40)
    Path("empty.txt").write_bytes(b"")
    Path("broken.ttf").write_bytes(b"\x00\x01\x00\x00" + b"lock" * 50)
    Path("wrong.toml").write_text('[page.1]\ntiers = "3 / 4"\n', encoding="utf-8")
    os.mkfifo("pipe")
    Path("broken.toml").write_text("[page.1\n", encoding="utf-8")
    assert said in complaint(run(*arguments))


def test_a_500_letter_word_is_a_finding(run: Run) -> None:
    """A word that no balloon can hold is reported in its place, not thrown."""
    Path("long.txt").write_text(f"PAGE ONE\nPanel 1. Gate.\nWENNA: {'O' * 500}\n", encoding="utf-8")
    status, out, err = run("preflight", "long.txt", "--json", "-")
    codes = {finding["code"] for finding in json.loads(out)["findings"]}
    assert (status, err) == (MISFIT, "")
    assert "long-word" in codes


def test_a_missing_glyph_is_a_finding(run: Run) -> None:
    """A character that no face has is reported with its place."""
    text = "PAGE ONE\nPanel 1. Gate.\nWENNA: The board says \U00013000.\n"
    Path("glyph.txt").write_text(text, encoding="utf-8")
    status, out, _ = run("preflight", "glyph.txt", "--json", "-")
    assert status == MISFIT
    missing = [f for f in json.loads(out)["findings"] if f["code"] == "missing-glyph"]
    assert [(f["where"], f["line"]) for f in missing] == [("1.1.1", 3)]


def test_a_reader_that_leaves_does_not_change_the_status(run: Run) -> None:
    """With a closed pipe behind it, preflight ends quietly with its verdict."""
    assert run("parse", "crowded.txt")[0] == FITS  # lays the files out
    process = subprocess.Popen(
        [sys.executable, "-m", "letterfit", "preflight", "crowded.txt"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(Path(cli.__file__).parents[1])},
    )
    assert process.stdout is not None
    process.stdout.close()
    assert process.stderr is not None
    assert process.stderr.read() == b""
    process.stderr.close()
    assert process.wait() == MISFIT


def test_closed_streams_are_no_traceback(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """A standard input that is closed is told; a standard output that is closed is left alone."""
    monkeypatch.setattr(sys, "stdin", None)
    assert "closed" in complaint(run("parse", "-"))
    monkeypatch.setattr(sys, "stdout", None)
    with pytest.raises(SystemExit) as ended:
        cli.main(["parse", "gate.txt"])
    assert ended.value.code == FITS


def test_fit_tells_of_what_it_found(run: Run) -> None:
    """A character that no font has is told, with status 1; one taken from elsewhere is noted."""
    status, out, err = run("fit", "Hold \U0001f600 fast")
    assert (status, err) == (MISFIT, "")
    assert "✗ “\U0001f600” is in no font" in " ".join(out.split())
    status, out, err = run("fit", "♫ la la", "--json", "-")
    assert (status, err) == (FITS, "")
    assert [found["code"] for found in json.loads(out)["findings"]] == ["substituted-glyph"]


def test_html_goes_to_a_file_or_to_standard_output(run: Run) -> None:
    """The same document either way; the report in text goes with the file only."""
    status, out, err = run("preflight", "gate.txt", "--html", "report.html")
    assert (status, err) == (FITS, "Wrote report.html\n")
    assert "PACE" in out
    status, piped, err = run("preflight", "gate.txt", "--html", "-")
    assert (status, err) == (FITS, "")
    assert piped == Path("report.html").read_text(encoding="utf-8")
    assert piped.startswith("<!doctype html>")


def test_figures_for_a_spreadsheet_go_to_a_file_or_to_standard_output(run: Run) -> None:
    """A file says by a byte order mark that it is UTF-8; a program gets the rows alone."""
    status, out, err = run("preflight", "gate.txt", "--csv", "figures.csv")
    assert (status, err) == (FITS, "Wrote figures.csv\n")
    assert "PACE" in out
    status, piped, err = run("preflight", "gate.txt", "--csv", "-")
    assert (status, err) == (FITS, "")
    assert Path("figures.csv").read_bytes() == b"\xef\xbb\xbf" + piped.encode()
    assert [line.split(",")[:3] for line in piped.split("\r\n")] == [
        ["page", "tier", "panel"],
        ["1", "1", "1"],
        ["1", "2", "2"],
        [""],
    ]
    assert "--csv" in complaint(run("preflight", "gate.txt", "--csv", "-", "--json", "-"))


def test_only_one_document_goes_to_standard_output(run: Run) -> None:
    """Two would be a file that nobody can read."""
    assert "--html" in complaint(run("preflight", "gate.txt", "--html", "-", "--json", "-"))


def test_cuts_are_proposed_when_asked_for(run: Run) -> None:
    """--cuts puts them into the HTML and the JSON; on a terminal they have their own command."""
    assert "letterfit cuts" in complaint(run("preflight", "gate.txt", "--cuts"))
    wordy = "PAGE ONE\n\nPanel 1. The gate.\nWENNA: " + "I really think the tide has turned. " * 5
    Path("wordy.txt").write_text(wordy, encoding="utf-8")
    found = [
        run("preflight", "wordy.txt", "--html", "-", *asked)[1].count("<del>")
        for asked in ((), ("--cuts",))
    ]
    assert found[0] == 0 < found[1]
    _, out, _ = run("preflight", "wordy.txt", "--json", "-", "--cuts")
    assert json.loads(out)["pages"][0]["panels"][0]["cuts"]
