"""Bundled families: found in a checkout and in an installed package, missed with one clear line."""

from pathlib import Path

import pytest

from letterfit.errors import FontError
from letterfit.lettering.fonts import bundled
from letterfit.lettering.fonts.bundled import (
    BUNDLED,
    STYLES,
    find_bundled,
    fonts_folder,
    read_bundled,
)


@pytest.fixture(autouse=True)
def _forget_the_folder() -> None:
    """The folder is looked up afresh in each test."""
    fonts_folder.cache_clear()


@pytest.mark.parametrize("place", ["site/letterfit/fonts_open", "site/fonts_open"])
def test_the_folder_is_in_the_package_or_beside_it(
    place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wheel carries the fonts inside the package, a checkout beside it."""
    (tmp_path / place).mkdir(parents=True)
    monkeypatch.setattr(bundled, "PACKAGE", tmp_path / "site" / "letterfit")
    assert fonts_folder() == tmp_path / place
    fonts_folder.cache_clear()


def test_missing_fonts_are_said_to_be_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One line that says what to do, for the folder and for a file."""
    with pytest.raises(FontError, match=r"Nowhere\.ttf is missing; install letterfit again"):
        read_bundled("Nowhere.ttf")
    fonts_folder.cache_clear()
    monkeypatch.setattr(bundled, "PACKAGE", tmp_path)
    with pytest.raises(FontError, match="fonts are missing"):
        fonts_folder()


def test_every_listed_file_is_there() -> None:
    """Each style of each family has its file."""
    for family in BUNDLED.values():
        assert set(family.styles) <= set(STYLES)
        for style in family.styles:
            assert (fonts_folder() / family.path_of(style)).is_file()


def test_an_unknown_name_finds_nothing() -> None:
    """A name is found whole or not at all."""
    assert find_bundled("Grand") is None
    assert find_bundled("") is None
