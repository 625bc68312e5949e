"""What a document is made of, whatever it is written as."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from seasonboard import __version__
from seasonboard.answers.fields import Kind, read_value
from seasonboard.saving.text import harmless

Cell = str | int | float | date | None


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
    """Rows under headings; the first cell of a row names it. None: nothing is known.

    `name` is what the workbook's sheet is called by, `lead` what the rows say in a sentence or two
    after the caption, `note` what to know beside it. The cells of the column at place `marks` are
    marks in a row of equal steps.
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
    """A heading, and what stands under it in order; one that `starts_page` does so in print."""

    heading: str
    parts: tuple[Part, ...]
    starts_page: bool = False


@dataclass(frozen=True, slots=True)
class Facts:
    """Where the numbers come from, said at a document's end.

    `scope` is the sentence at the top of the board, `place` that the season is invented where it
    is, `mark` the store's fingerprint, and `command` makes it again: no path, no name.
    """

    made_on: date
    through: date
    scope: str
    place: str
    mark: str
    command: str

    def lines(self) -> list[tuple[str, str]]:
        """Return what there is to say, each with its heading."""
        lines = [
            ("scope", self.scope),
            ("through", self.through.isoformat()),
            ("data", self.place),
            ("store", self.mark),
            ("made on", self.made_on.isoformat()),
            ("made by", f"seasonboard {__version__}"),
            ("command", self.command),
        ]
        return [(heading, text) for heading, text in lines if text]


@dataclass(frozen=True, slots=True)
class Document:
    """A document of one `kind`, a word as in its file's name.

    `of` says whom it is about, and when; `notice` whom it is for, and whether names are in it;
    `cautions` what it does not show; `keep_in_mind` also what was left out; `sources` where methods
    and figures from elsewhere come from. Only a workbook has room for the `sheets`. One that
    `is_tight` is set small in print. `hollow` is told before it is saved and not written: what a
    main part of it lacks; `typed` are names that were typed for it.
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
    is_tight: bool = False
    hollow: tuple[str, ...] = ()
    typed: tuple[str, ...] = ()

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
