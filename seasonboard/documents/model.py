"""What a document is made of, whatever it is written as."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from seasonboard.answers.fields import Kind, read_value
from seasonboard.saving.text import harmless

Cell = str | int | float | date | None
Form = Kind


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading with the unit, and the form of its cells."""

    heading: str
    form: Kind = Kind.TEXT

    @property
    def is_number(self) -> bool:
        """Say whether its cells stand at the right."""
        return self.form.is_number


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under headings; the first cell of a row names it.

    Attributes:
        name: A word or two: the workbook's sheet is called so.
        caption: What the rows are, in a few words.
        columns: What each cell is.
        rows: Typed, unrounded; None where nothing is known or recorded.
        lead: What they say, in a sentence or two after the caption.
        note: What to know beside it, such as how many rows are not shown.
        marks: A column whose cells are marks in a row of equal steps, by its place; None without.
    """

    name: str
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    lead: str = ""
    note: str = ""
    marks: int | None = None

    def __post_init__(self) -> None:
        """Refuse rows that do not fit under the headings."""
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError(f"{self.name}: a row has more or fewer cells than there are columns")


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing (SVG), what it shows in words, and the same numbers as a table."""

    title: str
    description: str
    svg: str
    table: Table


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Sentences; `opening` stands before them in bold type."""

    text: str
    opening: str = ""


@dataclass(frozen=True, slots=True)
class Points:
    """Sentences in a list."""

    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Room:
    """Empty lines to write on, when it is printed, under the words at their start."""

    heading: str
    lines: int


Part = Paragraph | Points | Table | Picture | Room


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, and what stands under it in order."""

    heading: str
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """Where the numbers come from, said at a document's end.

    Attributes:
        made_on: The day it was made.
        through: The last day known.
        scope: The sentence at the top of the board.
        place: Where the season comes from, where that must be said: that it is invented.
        mark: The fingerprint of the store it was asked of.
        version: The program's.
        command: What makes it again: no path, no name.
    """

    made_on: date
    through: date
    scope: str
    place: str
    mark: str
    version: str
    command: str

    def lines(self) -> list[tuple[str, str]]:
        """Return what there is to say, each with its heading."""
        lines = [
            ("scope", self.scope),
            ("through", self.through.isoformat()),
            ("data", self.place),
            ("store", self.mark),
            ("made on", self.made_on.isoformat()),
            ("made by", f"seasonboard {self.version}"),
            ("command", self.command),
        ]
        return [(heading, text) for heading, text in lines if text]


@dataclass(frozen=True, slots=True)
class Document:
    """A document.

    Attributes:
        kind: One word, as in a file's name.
        title: What it is.
        of: Whom it is about, and when, in a line under the title.
        lead: The answer in a sentence or two.
        notice: Whom it is for, and whether names are in it.
        sections: In order.
        facts: Where the numbers come from.
        cautions: What it does not show.
        keep_in_mind: What was left out, and what to keep in mind.
        sources: Where methods and figures from elsewhere come from.
        sheets: Tables that only a workbook has room for.
    """

    kind: str
    title: str
    of: str
    lead: str
    notice: str
    sections: tuple[Section, ...]
    facts: Facts
    cautions: tuple[str, ...]
    keep_in_mind: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    sheets: tuple[Table, ...] = ()

    def tables(self) -> Iterator[Table]:
        """Give every table, those of pictures too, then those for a workbook alone."""
        for section in self.sections:
            for part in section.parts:
                if isinstance(part, Picture):
                    yield part.table
                elif isinstance(part, Table):
                    yield part
        yield from self.sheets

    def ends(self) -> list[tuple[str, tuple[str, ...]]]:
        """Return the lists at its end, each with its heading; those with nothing are left out."""
        ends = [
            ("What it does not show", self.cautions),
            ("Left out, and to keep in mind", self.keep_in_mind),
            ("Sources", self.sources),
        ]
        return [(heading, points) for heading, points in ends if points]


def written(cell: Cell, form: Kind) -> str:
    """Return a cell as it is read: the same digits as on the board and in `ask`."""
    if isinstance(cell, datetime):
        return f"{cell.day} {cell:%b %Y %H:%M}"
    if isinstance(cell, date):
        return f"{cell.day} {cell:%b %Y}"
    return harmless(cell) if isinstance(cell, str) else read_value(cell, form)
