"""What a workbook says of its cells beside their values: hidden, struck out, a formula."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import unescape
from zipfile import ZipFile

_RELS = "xl/_rels/workbook.xml.rels"
_STYLES, _STRINGS = "xl/styles.xml", "xl/sharedStrings.xml"
_ROW = re.compile(rb"<row\b([^>]*)>")
_COLUMN = re.compile(rb"<col\b([^>]*)>")
_CELL = re.compile(rb"<c\b([^>]*)>")
_FORMULA = re.compile(rb'<c\b[^>]*\br="([A-Z]+[0-9]+)"[^>]*>\s*<f')
_UNSTORED = re.compile(
    rb'<c\b[^>]*\br="([A-Z]+[0-9]+)"[^>]*>\s*<f(?:\s[^>]*)?(?:/>|>[^<]*</f>)\s*'
    rb"(?:<v\s*/>|<v></v>)?\s*</c>"
)
_STRIKE = re.compile(rb'<strike\b(?![^>]*val="(?:0|false)")')
_TRUE = (b"1", b"true")

Place = tuple[int, int]


@dataclass(frozen=True, slots=True)
class CellMarks:
    """Of one sheet: hidden rows and columns, struck-out and formula cells, counted from 1.

    `unstored` are the names of cells with a formula whose value was never stored.
    """

    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    struck: frozenset[Place] = frozenset()
    formulas: frozenset[Place] = frozenset()
    unstored: tuple[str, ...] = ()

    def struck_rows(self, columns: int) -> frozenset[int]:
        """Return the rows of which at least half of the first `columns` cells are struck out."""
        cells = Counter(row for row, _ in self.struck)
        return frozenset(row for row, many in cells.items() if many * 2 >= max(1, columns))


NO_MARKS = CellMarks()


@dataclass(frozen=True, slots=True)
class BookMarks:
    """Of a workbook: whether day numbers count from 1904, and the marks of each sheet."""

    from_1904: bool = False
    sheets: Mapping[str, CellMarks] = field(default_factory=dict)


def book_marks(package: ZipFile) -> BookMarks:
    """Read the marks of every visible sheet of an XLSX package; others have none.

    As in ECMA-376, part 1: 18.3.1.73 rows, 18.3.1.4 cells, 18.8.22 fonts.
    """
    names = set(package.namelist())
    if "xl/workbook.xml" not in names:
        return BookMarks()
    book = package.read("xl/workbook.xml")
    styles = _struck_styles(package.read(_STYLES)) if _STYLES in names else frozenset()
    strings = _struck_strings(package.read(_STRINGS)) if _STRINGS in names else frozenset()
    sheets = {
        name: _sheet_marks(package.read(path), styles, strings)
        for name, path in sheet_paths(package)
        if path in names
    }
    from_1904 = re.search(rb'date1904\s*=\s*"(1|true)"', book) is not None
    return BookMarks(from_1904, sheets)


def _sheet_marks(
    xml: bytes, struck_styles: frozenset[int], struck_strings: frozenset[int]
) -> CellMarks:
    rows, columns = (
        [one for one in map(_attributes, tags.findall(xml)) if one.get(b"hidden") in _TRUE]
        for tags in (_ROW, _COLUMN)
    )
    return CellMarks(
        frozenset(int(row[b"r"]) for row in rows if b"r" in row),
        frozenset(
            number
            for column in columns
            if {b"min", b"max"} <= column.keys()
            for number in range(int(column[b"min"]), min(int(column[b"max"]), 1 << 14) + 1)
        ),
        frozenset(_struck_cells(xml, struck_styles, struck_strings)),
        frozenset(cell_place(cell[1].decode()) for cell in _FORMULA.finditer(xml)),
        tuple(cell[1].decode() for cell in _UNSTORED.finditer(xml)),
    )


def _struck_cells(
    xml: bytes, struck_styles: frozenset[int], struck_strings: frozenset[int]
) -> Iterator[Place]:
    if not struck_styles and not struck_strings:
        return
    for cell in _CELL.finditer(xml):
        parts = _attributes(cell[1])
        if b"r" not in parts or cell[1].endswith(b"/"):
            continue
        is_struck = int(parts.get(b"s", b"0")) in struck_styles
        if not is_struck and struck_strings and parts.get(b"t") == b"s":
            index = re.compile(rb"\s*<v>([0-9]+)</v>").match(xml, cell.end())
            is_struck = index is not None and int(index[1]) in struck_strings
        if is_struck:
            yield cell_place(parts[b"r"].decode())


def _struck_styles(xml: bytes) -> frozenset[int]:
    """Return the numbers of cell formats whose font is struck out."""
    fonts = re.findall(rb"<font\b[^>]*?(?:/>|>.*?</font>)", _section(xml, b"fonts"), re.DOTALL)
    struck = {number for number, font in enumerate(fonts) if _STRIKE.search(font)}
    formats = re.findall(rb"<xf\b([^>]*)>", _section(xml, b"cellXfs"))
    return frozenset(
        number
        for number, one in enumerate(formats)
        if int(_attributes(one).get(b"fontId", b"0")) in struck
    )


def _struck_strings(xml: bytes) -> frozenset[int]:
    """Return the numbers of shared texts all of whose runs are struck out."""
    struck = set()
    for number, text in enumerate(re.findall(rb"<si\b[^>]*?(?:/>|>.*?</si>)", xml, re.DOTALL)):
        runs = re.findall(rb"<r>.*?</r>|<r\s.*?</r>", text, re.DOTALL)
        if runs and all(_STRIKE.search(run) for run in runs):
            struck.add(number)
    return frozenset(struck)


def _section(xml: bytes, name: bytes) -> bytes:
    part = re.search(rb"<" + name + rb"\b.*?</" + name + rb">", xml, re.DOTALL)
    return part[0] if part else b""


def _attributes(tag: bytes) -> dict[bytes, bytes]:
    return dict(re.findall(rb'([\w:]+)="([^"]*)"', tag))


def cell_place(name: str) -> Place:
    """Return the row and column of a cell from its name: `B13` is (13, 2)."""
    letters = name.rstrip("0123456789")
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return int(name[len(letters) :]), column


def sheet_paths(package: ZipFile) -> Iterator[tuple[str, str]]:
    """Return the name and the part of each visible sheet of an XLSX package; others have none."""
    names = set(package.namelist())
    if "xl/workbook.xml" not in names:
        return
    book = package.read("xl/workbook.xml").decode("utf-8")
    rels = package.read(_RELS).decode("utf-8") if _RELS in names else ""
    targets = {}
    for tag in re.findall(r"<Relationship\b[^>]*>", rels):
        parts = dict(re.findall(r'(\w+)="([^"]*)"', tag))
        targets[parts.get("Id", "")] = parts.get("Target", "")
    for tag in re.findall(r"<sheet\b[^>]*>", book):
        parts = dict(re.findall(r'([\w:]+)="([^"]*)"', tag))
        if parts.get("state", "visible") != "visible":
            continue
        target = targets.get(parts.get("r:id", ""), "").removeprefix("/").removeprefix("xl/")
        yield unescape(parts.get("name", "")), f"xl/{target}"
