"""The bill of materials names all that the wheel brings and asks for; what is not so is found."""

import io
import json
import tomllib
import zipfile
from importlib.util import find_spec
from typing import Any

import pytest
from packaging.requirements import Requirement

from tests.supply.bill import BILL, FONTS, TABLES, TOP, against_schema, bill, faults

PROJECT = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
TEXT = BILL.read_text(encoding="utf-8")
PARTS: list[dict[str, Any]] = json.loads(TEXT)["components"]


def wheel(*, without: str = "", changed: str = "", more: str = "", asks: str = "") -> io.BytesIO:
    """An archive with what a wheel has of the bill; with one thing wrong if asked."""
    file = io.BytesIO()
    asked = [f"Requires-Dist: {text}\n" for text in PROJECT["dependencies"]]
    for extra, texts in PROJECT["optional-dependencies"].items():
        asked += [
            f'Requires-Dist: {text}; extra == "{extra}"\n' for text in texts if ";" not in text
        ]
    with zipfile.ZipFile(file, "w") as archive:
        for path in (*FONTS.rglob("*.ttf"), *(TOP / place for *_, place in TABLES)):
            name = path.relative_to(TOP).as_posix()
            name = f"letterfit/{name}" if name.startswith("fonts_open") else name
            if name != without:
                archive.writestr(name, b"other" if name == changed else path.read_bytes())
        if more:
            archive.writestr(more, b"")
        archive.writestr("letterfit-1.dist-info/METADATA", "".join(asked) + asks)
    return file


def told(text: str = TEXT, **wrong: str) -> list[str]:
    """What is wrong between the bill and such a wheel."""
    with zipfile.ZipFile(wheel(**wrong)) as archive:
        return [*faults(text, archive)]


def test_the_bill_is_that_of_this_tree() -> None:
    """Whoever changes a dependency, a font or the version runs `python -m tests.supply.bill`."""
    assert bill() == TEXT


def test_it_names_every_runtime_dependency_with_its_versions() -> None:
    """Each of pyproject.toml's, as one that is asked for and not brought along."""
    named = {part["name"]: part for part in PARTS if part.get("scope") == "required"}
    wanted = [Requirement(text) for text in PROJECT["dependencies"]]
    assert set(named) == {one.name for one in wanted}
    for one in wanted:
        part = named[one.name]
        assert part["isExternal"] is True
        assert part["versionRange"] == f"vers:pypi/{one.specifier}"
        assert part["purl"] == f"pkg:pypi/{one.name}"


def test_it_names_every_bundled_font_with_its_licence_and_copyright() -> None:
    """Each file in the folder, under the SIL Open Font License 1.1, by the notice beside it."""
    named = {part["name"]: part for part in PARTS if part["type"] == "file"}
    files = {
        f"letterfit/fonts_open/{path.relative_to(FONTS).as_posix()}": path
        for path in FONTS.rglob("*.ttf")
    }
    assert set(named) == set(files)
    for name, path in files.items():
        assert named[name]["licenses"] == [{"license": {"id": "OFL-1.1"}}]
        notice = path.with_name("OFL.txt").read_text(encoding="utf-8")
        assert notice.startswith(named[name]["copyright"])
        assert "SIL OPEN FONT LICENSE Version 1.1" in notice


def test_it_names_the_published_tables() -> None:
    """Unicode's data, under its licence, with a file that says where it is from."""
    tables = [part for part in PARTS if part["type"] == "data"]
    assert {part["licenses"][0]["license"]["id"] for part in tables} == {"Unicode-3.0"}
    for name, version, place in TABLES:
        said = (TOP / place).with_suffix(".py").read_text(encoding="utf-8")
        assert "Unicode" in name
        assert "Unicode" in said
        assert version.removesuffix(".0.0") in said


def test_a_wheel_that_is_as_the_bill_says_has_no_fault() -> None:
    """Nothing is held against a sound one."""
    assert told() == []


FONT = "letterfit/fonts_open/Bangers/Bangers-Regular.ttf"


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"without": FONT}, "is not in the wheel"),
        ({"changed": FONT}, "is another file"),
        ({"more": "letterfit/fonts_open/New/New.ttf"}, "is not in the bill"),
        ({"without": TABLES[0][2]}, "is not in the wheel"),
        ({"asks": "Requires-Dist: tides>=2\n"}, "tides is asked for"),
    ],
)
def test_what_is_not_so_of_a_wheel_is_found(wrong: dict[str, str], said: str) -> None:
    """A font taken out, changed or put in; a table gone; a new dependency."""
    (fault,) = told(**wrong)
    assert said in fault


def test_a_dependency_that_the_wheel_lacks_is_found() -> None:
    """The bill may not ask for what the wheel does not."""
    text = TEXT.replace('"name": "rich"', '"name": "tides"')
    assert sorted(told(text)) == [
        f"{name} is asked for by one of bill and wheel alone" for name in ("rich", "tides")
    ]


@pytest.mark.skipif(find_spec("cyclonedx") is None, reason="pip install cyclonedx-python-lib")
def test_it_is_valid_by_the_standard_s_schema() -> None:
    """CycloneDX 1.7, strictly; a licence that there is not is refused."""
    assert [*against_schema(TEXT)] == []
    assert [*against_schema(TEXT.replace('"OFL-1.1"', '"OFL-9"'))] != []
