"""Quotes: straight marks as a typewriter has them, curly ones as each language has its own.

Which marks a language quotes with is CLDR's (Unicode CLDR 48, delimiters: quotationStart,
quotationEnd, alternateQuotationStart, alternateQuotationEnd). The apostrophe is U+2019 (The Unicode
Standard 17, section 6.2.7). Which way a straight mark turns is read from its neighbours; one that
cannot be told stays straight: so do feet and inches, and marks inside a word.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from letterfit.lettering.style.casing import base_language
from letterfit.lettering.style.edits import Edit

APOSTROPHE = "\u2019"
NO_BREAK_SPACE = "\u00a0"

COMMON = "“”‘’"
"""CLDR's root: the opening and closing mark, and those of a quotation inside a quotation."""

_LANGUAGES = {
    "«»“”": "ast blo bm br ca cv dyo el es-US eu ewo ie it kab kk lij mg mua nnh pms pt-AO pt-CH "
    "pt-CV pt-GQ pt-GW pt-LU pt-MO pt-MZ pt-PT pt-ST pt-TL sc sg ti",
    "„“‚‘": "bs-Cyrl cs de dsb et hr hsb is ksh lb luy mk nds sk sl",
    "«»‹›": "am az-Arab az-Cyrl fa fr-CH gsw jgo kkj mzn rm sdh wae",
    "«»„“": "bas be bua ky os ru sah tyv uk",
    "””’’": "fi he lag rn se sn sv yi",
    "«»‘’": "dua el-polyton ksf nb nn no rw",
    "”“’‘": "ar lld ms-Arab syr ur",
    "«»«»": "fr ht hy oc yav",
    "„“„“": "bg lt prg sgs",
    "‘’“”": "fur ia ti-ER tn",
    "“”‘’": "bm-Nkoo ff-Adlm uz-Arab uz-Cyrl",
    "「」『』": "ja yue zh-Hant zh-HK zh-MO zh-TW",
    "„”«»": "nmg pl ro",
    "„”‚’": "agq ff",
    "„”»«": "hu szl",
    "«»„”": "shi zgh",
    "»«›‹": "kk-Arab ug",
    "„”‘’": "bs",
    "“”«»": "eo",
    "„“«»": "ka",
    "‘’‘’": "nl",
    "„”’’": "sr",
    "“’“”": "st",
    "“”“”": "tk",
    "“”’‘": "uz",
    "«»”“": "fr-CA",
}
_MARKS = {tag.lower(): marks for marks, tags in _LANGUAGES.items() for tag in tags.split()}

_NO_APOSTROPHE = frozenset({"he", "yi"})
"""Where a straight mark after a letter is a geresh, a letter's own sign."""

_ELISIONS = {
    "en": "tis tisn twas twasn twere twill twould em til cause bout n nuff nother kay tain",
    "nl": "s t n k m r",
    "af": "n",
}
"""Words that begin with an apostrophe (common practice, no source)."""

_QUOTE_RUN = re.compile(r"[\"'“”„‟‘’‚‛«»‹›「」『』]+")
_WORD = re.compile(r"[^\W\d_]+")
_OPENS_AFTER = frozenset("([{¿¡-‐‑–—―/…")
_STRAIGHT = {**dict.fromkeys("“”„‟", '"'), **dict.fromkeys("‘’‚‛", "'")}
_CURLY = re.compile(f"[{''.join(_STRAIGHT)}]")


@lru_cache(maxsize=64)
def quotation_marks(language: str) -> str:
    """The language's four quotation marks: the outer pair, then the inner one.

    Args:
        language: BCP 47 tag; the longest part of it that CLDR knows decides.

    >>> quotation_marks("de-AT"), quotation_marks("en")
    ('„“‚‘', '“”‘’')
    """
    tag = language.replace("_", "-").lower()
    while tag:
        if tag in _MARKS:
            return _MARKS[tag]
        tag = tag.rpartition("-")[0]
    return COMMON


def straight(text: str) -> Iterator[Edit]:
    """The changes that make curly quotes and apostrophes straight; angle quotes stay.

    >>> [edit.text for edit in straight("“Don’t”")]
    ['"', "'", '"']
    """
    for match in _CURLY.finditer(text):
        yield Edit(match.start(), match.end(), _STRAIGHT[match[0]])


def curly(text: str, language: str) -> Iterator[Edit]:
    """The changes that make straight quotes and apostrophes those of the language.

    >>> [edit.text for edit in curly('''"Don't," he said.''', "en")]
    ['“', '’', '”']
    """
    if '"' not in text and "'" not in text:
        return
    reader = _Reader(text, language)
    for run in _QUOTE_RUN.finditer(text):
        for at in range(*run.span()):
            mark = text[at]
            if mark == '"':
                turned = reader.double(run)
            elif mark == "'":
                turned = reader.single(run)
            else:
                reader.pass_over(mark)
                continue
            if turned is not None:
                yield Edit(at, at + 1, turned)


@dataclass(slots=True)
class _Reader:
    """Reads a text's quotes from left to right, and keeps what is open."""

    text: str
    language: str
    marks: str = field(init=False)
    spaced: bool = field(init=False)
    open_double: int = 0
    open_single: int = 0
    seen_opening: bool = False
    last_closing: int = field(init=False)

    def __post_init__(self) -> None:
        self.marks = quotation_marks(self.language)
        # French quotes keep a no-break space inside, in Switzerland they do not (Imprimerie
        # nationale, Lexique des règles typographiques, from memory).
        french = base_language(self.language) == "fr"
        self.spaced = french and self.marks != _MARKS["fr-ch"]
        ends = [
            run.start()
            for run in _QUOTE_RUN.finditer(self.text)
            if "'" in run[0] and self._may_close(run)
        ]
        self.last_closing = max(ends, default=-1)

    def pass_over(self, mark: str) -> None:
        """A typed mark of the language that opens a quotation."""
        if mark in self.marks[::2] and mark not in (*self.marks[1::2], APOSTROPHE):
            self.seen_opening = True

    def double(self, run: re.Match[str]) -> str | None:
        """What a straight double mark becomes; None when it stays."""
        opens, closes = self._may_open(run), self._may_close(run)
        if opens and not (closes and self.open_double):
            self.open_double += 1
            self.seen_opening = True
            return self._opening(self.marks[0])
        if not closes or self._is_measure(run):
            return None
        self.open_double = max(0, self.open_double - 1)
        return self._closing(self.marks[1])

    def single(self, run: re.Match[str]) -> str | None:
        """What a straight single mark becomes; None when it stays."""
        before, after = self._around(run)
        if before.isalnum() and after.isalnum():
            in_word = len(run[0]) == 1 and not (before.isdigit() and after.isdigit())
            return self._apostrophe() if in_word else None
        opens, closes = self._may_open(run), self._may_close(run)
        if opens and not (closes and self.open_single):
            if self._is_elision(run) or self.last_closing <= run.start():
                return self._apostrophe()
            self.open_single += 1
            self.seen_opening = True
            return self._opening(self.marks[2])
        if not closes or self._is_measure(run):
            return None
        if not self.open_single:
            return self._apostrophe()
        self.open_single -= 1
        return self._closing(self.marks[3])

    def _around(self, run: re.Match[str]) -> tuple[str, str]:
        """The characters before and after a run of quotes; empty at the text's ends."""
        return self.text[run.start() - 1 : run.start()], self.text[run.end() : run.end() + 1]

    def _may_open(self, run: re.Match[str]) -> bool:
        before, after = self._around(run)
        if not after.strip() or before.isalnum():
            return False
        return not before.strip() or before in _OPENS_AFTER or after.isalnum()

    def _may_close(self, run: re.Match[str]) -> bool:
        before, after = self._around(run)
        return bool(before.strip()) and not after.isalnum()

    def _is_measure(self, run: re.Match[str]) -> bool:
        """Whether a mark after a digit says feet or inches: nothing was opened before it."""
        before, _ = self._around(run)
        return before.isdigit() and not self.seen_opening

    def _is_elision(self, run: re.Match[str]) -> bool:
        """Whether the mark stands for letters left out at the head of a word, or of a year."""
        if self.text[run.end()].isdigit():
            return True
        word = _WORD.match(self.text, run.end())
        known = _ELISIONS.get(base_language(self.language), "")
        return word is not None and word[0].lower() in known.split()

    def _apostrophe(self) -> str | None:
        return None if base_language(self.language) in _NO_APOSTROPHE else APOSTROPHE

    def _opening(self, mark: str) -> str:
        return mark + NO_BREAK_SPACE if self.spaced and mark in "«‹" else mark

    def _closing(self, mark: str) -> str:
        return NO_BREAK_SPACE + mark if self.spaced and mark in "»›" else mark
