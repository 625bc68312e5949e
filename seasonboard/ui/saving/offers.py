"""What a screen offers to copy or save, in which ways, and what is then in the file."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePath

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.base import Summary
from seasonboard.answers.curtain.columns import A_STORE
from seasonboard.answers.rows import Rows
from seasonboard.answers.source import AnswerSource
from seasonboard.paging import PageAsked
from seasonboard.saving import files, pictures, tables
from seasonboard.saving.about import About
from seasonboard.sentence import sentence
from seasonboard.ui.layout.blocks import Block
from seasonboard.ui.layout.styled_runs import styled_runs
from seasonboard.ui.themes import LIGHT_COLOURS


@dataclass(frozen=True, slots=True)
class Table:
    """A table that can be saved: its title, what fetches it, and the page of it that is shown."""

    title: str
    fetch: Callable[[PageAsked], Rows]
    asked: PageAsked
    shown: Rows | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """One way to save: of what, how it is called, and the ending of its file; empty: a copy."""

    name: str
    shown: str
    beside: str
    of: str
    ending: str = ""


@dataclass(frozen=True, slots=True)
class Putting:
    """How a file is put in its place.

    Attributes:
        path: Its place.
        may_replace: Whether a file that is there gives way.
        about: What is shown while it is made.
        look: Raises where it may not be put there any more, as the curtain was moved meanwhile.
    """

    path: Path
    may_replace: bool
    about: About
    look: Callable[[], None]


@dataclass(frozen=True, slots=True)
class Further:
    """A file of its own that a screen gives away beside its page.

    Attributes:
        way: How it is offered.
        word: What it is, in its file's name.
        read: Makes a path of what is typed, or refuses it.
        put: Makes it and puts it in its place, whole or not at all; gives what is to be said of
            it, mostly nothing. Runs in a thread.
        names_whom: Whether its file's name may say of whom it is: not where it goes to outsiders.
    """

    way: Way
    word: str
    read: Callable[[str], Path]
    put: Callable[[Putting], str]
    names_whom: bool = True


@dataclass(frozen=True, slots=True)
class Offer:
    """What a screen can give away; `word` and `department` go into a file's name."""

    about: About
    word: str
    department: str
    table: Table | None
    page: Sequence[Text] = ()
    picture: Sequence[Text] = ()
    further: Sequence[Further] = ()

    def made_by(self, way: Way) -> Further | None:
        """Return what makes the file of a way; None where it is the page or a part of it."""
        return next((one for one in self.further if one.way == way), None)


WAYS = {
    way.name: way
    for way in (
        Way("copy", "copy the table", "tab-separated, to paste", "table"),
        Way(
            "csv", "save the table as CSV", "with a text file that says what it is", "table", ".csv"
        ),
        Way("xlsx", "save the table as XLSX", "a workbook", "table", ".xlsx"),
        Way("parquet", "save the table as Parquet", "for programs", "table", ".parquet"),
        Way("svg", "save the picture as SVG", "a drawing", "picture", ".svg"),
        Way("text", "save the picture as text", "", "picture", ".txt"),
        Way("page", "save the whole page as text", "", "page", ".txt"),
    )
}
TABLES: dict[str, Callable[[Rows, About], bytes]] = {
    "csv": tables.as_csv,
    "xlsx": tables.as_xlsx,
    "parquet": tables.as_parquet,
}


def offered(  # noqa: PLR0913 - what a page is made of
    summary: Summary,
    answer_source: AnswerSource,
    name: str,
    uses: Collection[str] | None,
    *,
    blocks: Sequence[Block],
    table: Table | None,
) -> Offer:
    """Return what a page offers: its table, its picture, all of it, and what it is."""
    known, scope, place = answer_source.scope_values, summary.scope, answer_source.store_label
    keys = scope.departments or ()
    about = About(
        title=summary.question,
        answer=summary.answer,
        scope=" · ".join(phrase.text for phrase in sentence(scope, known, uses)),
        through=scope.through,
        saved_on=date.today(),  # noqa: DTZ011 - the day on the clock of who saves
        is_covered=answer_source.is_covered,
        place="" if PurePath(place).suffix or PurePath(place).anchor or place == A_STORE else place,
    )
    return Offer(
        about,
        name,
        known.name_of("department", keys[0]) if len(keys) == 1 else "all departments",
        table,
        [line for block in blocks for line in block.lines],
        [line for block in blocks if block.is_picture for line in block.lines],
    )


def ways(offer: Offer) -> list[Way]:
    """Return the ways in which something can be saved that is there."""
    of_page = [way for way in WAYS.values() if getattr(offer, way.of)]
    return of_page + [one.way for one in offer.further]


def of_table(name: str, shown: str, beside: str, rows: Rows) -> Further:
    """Return a table that is offered as CSV beside the page, whatever the cursor is on."""

    def put(to: Putting) -> str:
        data = tables.as_csv(rows, to.about)
        to.look()
        files.save({to.path: data}, may_replace=to.may_replace)
        return ""

    way = Way(name, shown, beside, "table of its own", ".csv")
    return Further(way, name, lambda text: files.read_path(text, ".csv"), put)


def counted(rows: Rows, asked: PageAsked, *, is_covered: bool = False) -> str:
    """Return in words how many rows these are, and whether they are cut, found or sorted.

    Under the curtain the words that were looked for are not told: they may be a name.
    """
    told = words.plural(len(rows.rows), "row")
    if rows.is_cut:
        told += f" of {words.whole(rows.matching)}"
    if asked.search.strip():
        looked_for = "words that are covered" if is_covered else f"“{asked.search.strip()}”"
        told += f", found with {looked_for} among {words.whole(rows.total)}"
    heading = {column.name: column.heading for column in rows.columns}.get(asked.sort)
    return f"{told}, sorted by {heading}" if heading else told


def written_to(way: Way, path: Path) -> list[Path]:
    """Return every file that a way writes: CSV cannot say itself what it is."""
    return [path, files.beside_about(path)] if way.name == "csv" else [path]


def content(offer: Offer, way: Way, about: About, rows: Rows | None) -> bytes:
    """Return what is to be in the file."""
    if rows is not None:
        return TABLES[way.name](rows, about)
    lines = offer.picture if way.of == "picture" else offer.page
    if way.name != "svg":
        return pictures.as_text([line.plain for line in lines], about)
    drawn = [styled_runs(line) for line in lines]
    return pictures.as_svg(
        drawn, about, colour=LIGHT_COLOURS["text"], ground=LIGHT_COLOURS["ground"]
    )
