"""What a screen offers to copy or save, in which ways, and what is then in the file."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.base import Summary
from seasonboard.answers.rows import Rows
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.origin import department_label, is_file
from seasonboard.paging import PageAsked
from seasonboard.saving import files, pictures, tables
from seasonboard.saving.about import About
from seasonboard.sentence import sentence
from seasonboard.ui.layout.blocks import Block
from seasonboard.ui.layout.styled_runs import styled_runs
from seasonboard.ui.themes import LIGHT_COLOURS


@dataclass(frozen=True, slots=True)
class SavableTable:
    """A table that can be saved: its title, what fetches it, and the page of it that is shown."""

    title: str
    fetch: Callable[[PageAsked], Rows]
    request: PageAsked
    shown: Rows | None = None


@dataclass(frozen=True, slots=True)
class SaveChoice:
    """One way to save: of what, how it is called, and the ending of its file; empty: a copy."""

    name: str
    label: str
    detail: str
    of: str
    ending: str = ""


@dataclass(frozen=True, slots=True)
class SaveTarget:
    """Where a file goes; `about` is what is shown while it is made.

    `check` raises where it may not be put there any more, as the curtain was moved meanwhile.
    """

    path: Path
    may_replace: bool
    about: About
    check: Callable[[], None]


@dataclass(frozen=True, slots=True)
class ExtraFile:
    """A file of its own that a screen gives away beside its page; `word` is in the file's name.

    `read_path` makes a path of what is typed, or refuses it. `write` puts the file in its place,
    whole or not at all, in a thread; it gives what is to be said of it, mostly nothing. The name
    says of whom it is if it `names_whom`: not where it goes to outsiders.
    """

    choice: SaveChoice
    word: str
    read_path: Callable[[str], Path]
    write: Callable[[SaveTarget], str]
    names_whom: bool = True


@dataclass(frozen=True, slots=True)
class SaveOffer:
    """What a screen can give away; `word` and `department` go into a file's name."""

    about: About
    word: str
    department: str
    table: SavableTable | None
    page: Sequence[Text] = ()
    picture: Sequence[Text] = ()
    extra_files: Sequence[ExtraFile] = ()

    def extra_file(self, choice: SaveChoice) -> ExtraFile | None:
        """Return what makes the file of a choice; None where it is the page or a part of it."""
        return next((one for one in self.extra_files if one.choice == choice), None)


_CSV = "with a text file that says what it is"
PAGE_CHOICES = (
    SaveChoice("copy", "copy the table", "tab-separated, to paste", "table"),
    SaveChoice("csv", "save the table as CSV", _CSV, "table", ".csv"),
    SaveChoice("xlsx", "save the table as XLSX", "a workbook", "table", ".xlsx"),
    SaveChoice("parquet", "save the table as Parquet", "for programs", "table", ".parquet"),
    SaveChoice("svg", "save the picture as SVG", "a drawing", "picture", ".svg"),
    SaveChoice("text", "save the picture as text", "", "picture", ".txt"),
    SaveChoice("page", "save the whole page as text", "", "page", ".txt"),
)
TABLES: dict[str, Callable[[Rows, About], bytes]] = {
    "csv": tables.as_csv,
    "xlsx": tables.as_xlsx,
    "parquet": tables.as_parquet,
}


def save_offer(  # noqa: PLR0913 - what a page is made of
    summary: Summary,
    answer_source: AnswerSource,
    name: str,
    uses: Collection[str] | None,
    *,
    blocks: Sequence[Block],
    table: SavableTable | None,
) -> SaveOffer:
    """Return what a page offers: its table, its picture, all of it, and what it is."""
    values, scope, label = answer_source.scope_values, summary.scope, answer_source.store_label
    about = About(
        title=summary.question,
        answer=summary.answer,
        scope=" · ".join(phrase.text for phrase in sentence(scope, values, uses)),
        through=scope.through,
        saved_on=date.today(),  # noqa: DTZ011 - the day on the clock of who saves
        is_covered=answer_source.is_covered,
        place="" if is_file(label) else label,
    )
    return SaveOffer(
        about,
        name,
        department_label(values, scope),
        table,
        [line for block in blocks for line in block.lines],
        [line for block in blocks if block.is_picture for line in block.lines],
    )


def save_choices(offer: SaveOffer) -> list[SaveChoice]:
    """Return the ways in which something can be saved that is there."""
    of_page = [choice for choice in PAGE_CHOICES if getattr(offer, choice.of)]
    return of_page + [one.choice for one in offer.extra_files]


def table_file(name: str, label: str, detail: str, rows: Rows) -> ExtraFile:
    """Return a table that is offered as CSV beside the page, whatever the cursor is on."""

    def write(target: SaveTarget) -> str:
        data = tables.as_csv(rows, target.about)
        target.check()
        files.save({target.path: data}, may_replace=target.may_replace)
        return ""

    choice = SaveChoice(name, label, detail, "table of its own", ".csv")
    return ExtraFile(choice, name, lambda text: files.read_path(text, ".csv"), write)


def count_words(rows: Rows, request: PageAsked, *, is_covered: bool = False) -> str:
    """Return in words how many rows these are, and whether they are cut, found or sorted.

    Under the curtain the words that were looked for are not told: they may be a name.
    """
    text = words.plural(len(rows.rows), "row")
    if rows.is_cut:
        text += f" of {words.whole(rows.matching)}"
    if request.search.strip():
        search = "words that are covered" if is_covered else f"“{request.search.strip()}”"
        text += f", found with {search} among {words.whole(rows.total)}"
    heading = {column.name: column.heading for column in rows.columns}.get(request.sort)
    return f"{text}, sorted by {heading}" if heading else text


def files_written(choice: SaveChoice, path: Path) -> list[Path]:
    """Return every file that a choice writes: CSV cannot say itself what it is."""
    return [path, files.beside_about(path)] if choice.name == "csv" else [path]


def file_bytes(offer: SaveOffer, choice: SaveChoice, about: About, rows: Rows | None) -> bytes:
    """Return what is to be in the file."""
    if rows is not None:
        return TABLES[choice.name](rows, about)
    lines = offer.picture if choice.of == "picture" else offer.page
    if choice.name != "svg":
        return pictures.as_text([line.plain for line in lines], about)
    drawn = [styled_runs(line) for line in lines]
    return pictures.as_svg(
        drawn, about, colour=LIGHT_COLOURS["text"], ground=LIGHT_COLOURS["ground"]
    )
