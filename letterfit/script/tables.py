"""Tables: scripts typed as one row a balloon; the header row says what each column holds.

The words of header rows are from memory, no source. A table without a header that is understood
becomes lines, its cells parted by TABs, and is read like any other text.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from letterfit.script.blocks import Row
from letterfit.script.cast import Cast
from letterfit.script.events import Event, Prose, Rule, Silence, Spoken, Unnamed
from letterfit.script.folding import fold
from letterfit.script.headings import PanelHeading, page_heading, panel_heading
from letterfit.script.heads import Head, take_brackets
from letterfit.script.labels import is_silence
from letterfit.script.lines import Line
from letterfit.script.markup import is_rule
from letterfit.script.numbers import number_of
from letterfit.script.spoken import from_head, spoken_line

_COLUMNS = {
    "page": "page, pg, planche, página, seite, pagina, tavola, prancha, bladzijde, ページ, 頁",
    "panel": "panel, pnl, frame, panel no, panel no., panel number, case, vignette, viñeta, "
    "cuadro, bild, vignetta, quadro, kader, plaatje, コマ",
    "picture": "picture, description, image, art, action, visual, visuals, art description, "
    "panel description, scene, setting, descripción, imagen, acción, dessin, "
    "beschreibung, bildbeschreibung, handlung, descrizione, immagine, azione, disegno, "
    "descrição, imagem, ação, beschrijving, beeld, actie, 絵, 内容, 描写, ト書き",
    "index": "no, no., nr, nr., #, number, balloon, balloon no, balloon no., bubble, n°, nº, núm, "
    "num, bulle, globo, blase, nuvoletta, balão, ballon, 番号",
    "speaker": "speaker, character, who, name, voice, personnage, qui, locuteur, personaje, quién, "
    "figur, sprecher, wer, person, personaggio, chi, personagem, quem, spreker, "
    "personage, wie, 話者, 人物, キャラ, 名前",
    "text": "text, dialogue, dialog, copy, words, lettering, line, lines, speech, texte, "
    "dialogues, texto, diálogo, diálogos, testo, dialogo, dialoghi, battuta, falas, fala, tekst, "
    "dialoog, セリフ, 台詞, 文字",
}
_COLUMN_OF = {fold(word): kind for kind, words in _COLUMNS.items() for word in words.split(", ")}
_PIPE = re.compile(r"(?<!\\)\|")
_PAUSES = frozenset("-–—/.")


def table_blocks(rows: Sequence[Row]) -> tuple[Row | Line, ...]:
    """The rows of one table with their columns named, or lines where no header tells them.

    >>> table_blocks([Row(1, ("Panel", "Text")), Row(2, ("1", "Hold."))])[1].columns
    ('panel', 'text')
    """
    columns: tuple[str, ...] = ()
    blocks: list[Row | Line] = []
    for row in rows:
        named = _header(row.cells)
        if named:
            columns = named
            blocks.append(row)
        elif all(is_rule(cell.strip(":")) for cell in row.cells):
            blocks.append(Row(row.number, row.cells))  # the line below a Markdown header
        elif columns:
            width = max(len(row.cells), len(columns))
            padded = columns + ("",) * (width - len(columns))
            blocks.append(replace(row, columns=padded))
        else:
            blocks += _as_lines(row)
    return tuple(blocks)


def pipe_tables(lines: Sequence[Line]) -> tuple[Row | Line, ...]:
    """The lines of a text, with the rows of Markdown tables (| 1 | WENNA | Hold. |) as rows.

    >>> pipe_tables([Line(1, "| Panel | Text |"), Line(3, "| 1 | Hold. |")])[1]
    Row(number=3, cells=('1', 'Hold.'), columns=('panel', 'text'))
    """
    blocks: list[Row | Line] = []
    for piped, group in groupby(lines, key=_is_piped):
        if piped:
            blocks += table_blocks([Row(line.number, _piped_cells(line.text)) for line in group])
        else:
            blocks += group
    return tuple(blocks)


def _is_piped(line: Line) -> bool:
    return len(line.text) > 2 and line.text[0] == line.text[-1] == "|"


def _piped_cells(text: str) -> tuple[str, ...]:
    return tuple(cell.replace(r"\|", "|").strip() for cell in _PIPE.split(text[1:-1]))


def row_events(row: Row, *, cast: Cast, page: tuple[int, ...]) -> Iterator[Event]:
    """What a row says, in order: page, panel, description, then what is lettered.

    Args:
        row: A row of a table whose header was understood; its header row says nothing.
        cast: The script's names.
        page: The numbers of the page the row stands on.
    """
    if not row.columns:
        yield Rule()
        return
    cells = _cells(row)
    if cells["page"]:
        yield from _page(cells["page"], page)
    if cells["panel"]:
        yield _panel(cells["panel"])
    if cells["picture"]:
        yield Prose(_folded(cells["picture"]), described=True)
    if cells["other"]:
        yield Prose(_folded(cells["other"]), described=True)
    yield from _lettering(cells, cast=cast)


def _header(cells: Sequence[str]) -> tuple[str, ...]:
    """The kinds of the columns if the row is a header: two or more are known, none said twice."""
    kinds = [_COLUMN_OF.get(fold(cell[:40]), "") for cell in cells]
    known = [kind for kind in kinds if kind]
    telling = {"text", "speaker", "picture"} & set(known)
    blank = all(kind or not cell or len(cell) < 20 for kind, cell in zip(kinds, cells, strict=True))
    if len(known) < 2 or len(set(known)) < len(known) or not telling or not blank:
        return ()
    return tuple(kind or "other" for kind in kinds)


def _as_lines(row: Row) -> Iterator[Line]:
    """Cells of a table without header: name and words on one line, anything longer by itself."""
    filled = [cell for cell in row.cells if cell]
    if len(filled) == 2 and "\n" not in filled[0] and len(filled[0]) <= 40:
        first, second = filled
        if not page_heading(first) and not panel_heading(first):
            yield Line(row.number, f"{first}\t{_folded(second)}")
            yield Line(row.number, "")
            return
    for cell in filled:
        yield from (Line(row.number, part.strip()) for part in cell.split("\n"))
        yield Line(row.number, "")


def _cells(row: Row) -> dict[str, str]:
    cells: dict[str, list[str]] = {column: [] for column in (*_COLUMNS, "other")}
    for cell, column in zip(row.cells, row.columns, strict=False):
        if cell:
            cells[column or "other"].append(cell)
    return {column: "\n".join(texts) for column, texts in cells.items()}


def _page(cell: str, page: tuple[int, ...]) -> Iterator[Event]:
    heading = page_heading(cell)
    number = number_of(cell)
    if heading is None and number is None:
        yield Prose(_folded(cell), described=True)
    elif heading is None:
        heading = page_heading(f"page {number}")
    if heading is not None and heading.numbers != page:
        yield heading


def _panel(cell: str) -> PanelHeading:
    """The panel that a cell such as "1", "Panel 1" or "3A" names."""
    heading = panel_heading(cell) or panel_heading(f"panel {cell}")
    if heading is None:
        return PanelHeading(number=None, rest=_folded(cell))
    return heading if panel_heading(cell) else replace(heading, languages=())


def _lettering(cells: dict[str, str], *, cast: Cast) -> Iterator[Event]:
    speaker, text, index = cells["speaker"], cells["text"], cells["index"]
    number = number_of(index.strip(".#) ")) if index else None
    if index and number is None:
        yield Prose(_folded(index), described=True)
    if text and (is_silence(text) or set(text) <= _PAUSES) and not speaker:
        yield Silence(text)
    elif speaker:
        yield _spoken(speaker, text, index=number, cast=cast)
    elif text:
        yield from _unnamed(text, index=number, cast=cast)


def _spoken(speaker: str, text: str, *, index: int | None, cast: Cast) -> Spoken:
    name, brackets = take_brackets(_folded(speaker).rstrip(":： "))
    return from_head(Head(name or speaker, brackets, _folded(text)), cast=cast, index=index)


def _unnamed(text: str, *, index: int | None, cast: Cast) -> Iterator[Event]:
    """Words in a cell without a speaker beside them: named in the cell, or the last one's."""
    named = False
    for part in text.split("\n"):
        spoken = spoken_line(part, cast=cast)
        if spoken is not None:
            yield replace(spoken, index=spoken.index or index)
        else:
            yield Prose(part) if named else Unnamed(part, index)
        named = True


def _folded(text: str) -> str:
    return " ".join(part for part in text.replace("\t", " ").split("\n") if part)
