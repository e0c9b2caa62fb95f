"""Reading: the bytes of a file become text, or one line says why they cannot.

The encoding is taken from a byte order mark, else it is UTF-8, else Windows-1252 with a finding;
bytes that Windows-1252 leaves undefined (0x81, with which the Japanese comma and full stop of
Shift_JIS begin) are tried as Shift_JIS.
"""

import codecs
from dataclasses import dataclass

from letterfit.errors import ScriptError
from letterfit.findings import Finding

MOST_TEXT_BYTES = 20_000_000
"""The longest script that is read; a script of 500 pages has under 2 MB."""

_MARKS = (
    # The UTF-32 mark begins like the UTF-16 one and must be tried first.
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)

_FOREIGN = (
    (b"%PDF", "a PDF file", "export the script as plain text or .docx"),
    (b"{\\rtf", "an RTF file", "save the script as plain text or .docx"),
    (b"\xd0\xcf\x11\xe0", "an old word-processor file", "save the script as .docx"),
    (b"\x89PNG", "a picture", "give the typed script"),
    (b"\xff\xd8\xff", "a picture", "give the typed script"),
    (b"\x1f\x8b", "a compressed file", "unpack it first"),
)

_MOST_CONTROLS = 0.01
"""Share of control characters beyond which the bytes are no text (typed text has none)."""


@dataclass(frozen=True, slots=True)
class Decoded:
    """Text, and what a reader should know of how it was got."""

    text: str
    findings: tuple[Finding, ...] = ()


def decode(data: bytes, *, source: str = "") -> Decoded:
    """The text of a plain-text file.

    Args:
        data: The whole file.
        source: Its name, for messages.

    Raises:
        ScriptError: The bytes are empty, too many, or no text.

    >>> decode("RÉCITATIF".encode("cp1252")).text
    'RÉCITATIF'
    """
    check_size(len(data), source=source)
    if not data.strip():
        raise ScriptError("the script is empty", advice="give a typed script", source=source)
    for magic, what, advice in _FOREIGN:
        if data.startswith(magic):
            raise ScriptError(f"this is {what}, not a script", advice=advice, source=source)
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return Decoded(_decoded(data, encoding, source))
    if b"\0" in data:
        raise _binary(source)
    return _guessed(data, source)


def check_size(size: int, *, source: str = "") -> None:
    """Refuse a text of too many bytes (or characters).

    Raises:
        ScriptError: There are more than MOST_TEXT_BYTES.
    """
    if size > MOST_TEXT_BYTES:
        raise ScriptError(
            f"the script is larger than {MOST_TEXT_BYTES // 1_000_000} MB",
            advice="give one script at a time, as text",
            source=source,
        )


def _guessed(data: bytes, source: str) -> Decoded:
    try:
        text, name = data.decode("utf-8"), "UTF-8"
    except UnicodeDecodeError:
        text, name = _legacy(data, source)
    controls = sum(data.count(bytes([code])) for code in (*range(1, 9), *range(14, 32)))
    if controls > _MOST_CONTROLS * len(data):
        raise _binary(source)
    if name == "UTF-8":
        return Decoded(text)
    finding = Finding(
        code="encoding-guessed",
        severity="warning",
        message=f"The script is not UTF-8; it was read as {name}.",
        advice="Check accents and quotes, and save the script as UTF-8.",
    )
    return Decoded(text, (finding,))


def _legacy(data: bytes, source: str) -> tuple[str, str]:
    for encoding, name in (("cp1252", "Windows-1252"), ("cp932", "Shift_JIS")):
        try:
            return data.decode(encoding), name
        except UnicodeDecodeError:
            continue
    raise _binary(source)


def _decoded(data: bytes, encoding: str, source: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise ScriptError(
            f"the file begins as {encoding.removesuffix('-sig').upper()} but breaks at byte "
            f"{error.start}",
            advice="save the script again as UTF-8",
            source=source,
        ) from error


def _binary(source: str) -> ScriptError:
    return ScriptError(
        "this is a binary file, not a script",
        advice="give plain text (UTF-8) or .docx",
        source=source,
    )
