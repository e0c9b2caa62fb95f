"""The command line's existing pages: measure one, compare two."""

import json
from pathlib import Path

import pytest

from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner
from tests.existing import pages

SCRIPT = (
    "PAGE 1\n\nPanel 1. The gate.\nWENNA: Lock's shut!\n\nPAGE 2\n\nPanel 1. Fog.\nPILOT: Ahoy!\n"
)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line in a folder with a page and a script: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    Path("lock.svg").write_text(pages.in_mm(), encoding="utf-8")
    Path("px.svg").write_text(pages.in_px(), encoding="utf-8")
    large = pages.in_mm().replace('font-size="2.8"', 'font-size="6"')
    Path("large.svg").write_text(large, encoding="utf-8")
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    return runner(capsys)


def test_a_page_is_measured(run: Run) -> None:
    """Status 0 where all lettering stays in its balloons, 1 where some does not."""
    status, out, err = run("measure", "lock.svg")
    assert (status, err) == (FITS, "")
    assert out.startswith("✓ lock.svg: fits.")
    status, out, _ = run("measure", "large.svg")
    assert status == MISFIT
    assert "reaches" in out


def test_a_size_and_a_typeface_may_be_stated(run: Run) -> None:
    """A page in px prints at the trim that is given; live text is set in the typeface."""
    status, out, _ = run(
        "measure", "px.svg", "--trim", "170x260mm", "--typeface", "Bangers", "--json", "-"
    )
    page = json.loads(out)["page"]
    assert status == FITS
    assert page["trim"] == [170.0, 260.0]
    assert page["typeface"] == "Bangers"


def test_a_script_is_compared_with_a_drawn_page(run: Run) -> None:
    """Side by side in 80 columns, and as JSON in a file."""
    status, out, err = run("compare", "gate.txt", "lock.svg", "--json", "both.json")
    assert (status, err) == (FITS, "Wrote both.json\n")
    assert "A  ✓ gate.txt, page 1: fits." in out
    assert "B  ✓ lock.svg: fits." in out
    assert max(map(len, out.splitlines())) <= 80
    value = json.loads(Path("both.json").read_text(encoding="utf-8"))
    assert [page["origin"] for page in value["pages"]] == ["planned", "existing"]


def test_a_page_of_a_script_is_chosen_by_its_label(run: Run) -> None:
    """The first unless another is asked for; one that is not there is an error."""
    _, out, _ = run("compare", "gate.txt", "gate.txt", "--page", "2")
    assert out.count("gate.txt, page 2") == 2
    status, out, err = run("compare", "gate.txt", "lock.svg", "--page", "7")
    assert (status, out) == (UNUSABLE, "")
    assert err.strip().endswith("no page is called '7'; choose one of: 1, 2")


def test_a_script_is_lettered_as_it_is_asked_for(run: Run) -> None:
    """The options of lettering, outlines and placing go to the script."""
    both = [
        json.loads(run("compare", "gate.txt", "lock.svg", "--json", "-", *more)[1])
        for more in ((), ("--outline", "superellipse", "--size", "9"))
    ]
    covers = [value["pages"][0]["coverage_percent"] for value in both]
    assert covers[0] < covers[1]
    assert both[0]["pages"][1] == both[1]["pages"][1]


def test_a_misfit_on_either_side_is_a_misfit(run: Run) -> None:
    """The exit status is that of both."""
    assert run("compare", "lock.svg", "large.svg")[0] == MISFIT
    assert run("compare", "large.svg", "gate.txt")[0] == MISFIT


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("measure", "none.svg"), "none.svg: no such file"),
        (("measure", "gate.txt"), "gate.txt:1: no well-formed XML"),
        (("measure", "lock.svg", "--trim", "thumb"), "no paper is called 'thumb'"),
        (("measure", "lock.svg", "--air", "nan"), "air"),
        (("compare", "lock.svg"), "Missing argument 'B'"),
        (("compare", "gate.txt", "lock.svg", "--trim", "200x200"), "as wide as high"),
    ],
)
def test_unusable_input_is_told_in_one_line(
    run: Run, arguments: tuple[str, ...], told: str
) -> None:
    """Status 2 and one line that says what and where."""
    status, out, err = run(*arguments)
    assert (status, out) == (UNUSABLE, "")
    assert told in err
    assert err.count("\n") == 1
