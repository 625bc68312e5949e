"""The rows behind a number, as a table of their own."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen
from textual.widgets import DataTable, Footer, Input, Static

from seasonboard.answers import words
from seasonboard.answers.rows import Cell, Rows
from seasonboard.errors import SeasonboardError
from seasonboard.ui.format import cell, clean
from seasonboard.ui.widgets.lines import TitleLine, TooSmall


class RowsScreen(Screen[None]):
    """One table; how many rows there are stands above it, also when only some were fetched."""

    AUTO_FOCUS = "DataTable"
    HELP = (
        "The rows that the number came from. Where there are more than were fetched, the title "
        "says so. Finding looks through the rows shown here."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape",
            "leave",
            "back",
            key_display="Esc",
            tooltip="Back to the page",
            id="rows.leave",
        ),
        Binding(
            "slash",
            "find",
            "find",
            key_display="/",
            tooltip="Show only rows with a word",
            id="rows.find",
        ),
    ]

    @dataclass
    class Fetched(Message):
        """The rows, or why there are none."""

        outcome: Rows | SeasonboardError

    def __init__(
        self,
        title: str,
        fetch: Callable[[], Rows],
        stop: Callable[[], None],
        *,
        board: str,
        place: str,
    ) -> None:
        """Show what `fetch` returns; it runs in a thread, and `stop` ends it.

        `board` and `place` are what the title line says.
        """
        super().__init__()
        self._title = title
        self._fetch_rows = fetch
        self._stop = stop
        self._place = place
        self._board = board
        self._rows: Rows | None = None

    def compose(self) -> ComposeResult:
        """Put the title over the table."""
        yield TitleLine()
        yield Static(Text(f" {self._title}: asking …", style="bold"), id="head")
        table: DataTable[Text] = DataTable(cursor_type="row", zebra_stripes=False)
        yield table
        yield Input(placeholder="show only rows with …, Esc for all", id="find", compact=True)
        yield Footer(compact=True, show_command_palette=False)
        yield TooSmall()

    def on_mount(self) -> None:
        """Fetch the rows."""
        title = self.query_one(TitleLine)
        title.board, title.place = self._board, self._place
        self._fetch()

    @work(thread=True, exclusive=True, group="rows")
    def _fetch(self) -> None:
        outcome: Rows | SeasonboardError
        try:
            outcome = self._fetch_rows()
        except SeasonboardError as problem:
            outcome = problem
        self.post_message(self.Fetched(outcome))

    def on_rows_screen_fetched(self, message: Fetched) -> None:
        """Fill the table."""
        if isinstance(message.outcome, SeasonboardError):
            told = f" {clean(message.outcome.what)} {clean(message.outcome.hint)}"
            self.query_one("#head", Static).update(Text(told, style="bold"))
            return
        self._rows = message.outcome
        table = self.query_one(DataTable)
        for column in self._rows.columns:
            table.add_column(_aligned(column.heading, column.is_number), key=column.name)
        self._fill("")

    def _fill(self, wanted: str) -> None:
        if self._rows is None:
            return
        numbers = [column.is_number for column in self._rows.columns]
        shown = [row for row in self._rows.rows if _holds(row, wanted.casefold())]
        table = self.query_one(DataTable)
        table.clear()
        for row in shown:
            pairs = zip(row, numbers, strict=True)
            table.add_row(*(_aligned(cell(value), number) for value, number in pairs))
        self.query_one("#head", Static).update(_head(self._rows, len(shown)))

    def action_find(self) -> None:
        """Open the find line."""
        find = self.query_one("#find", Input)
        find.add_class("-shown")
        find.focus()

    @on(Input.Changed, "#find")
    def _narrow(self, event: Input.Changed) -> None:
        self._fill(event.value)

    @on(Input.Submitted, "#find")
    def _to_the_table(self) -> None:
        self.query_one(DataTable).focus()

    def action_leave(self) -> None:
        """Show all rows again, or go back to the page."""
        find = self.query_one("#find", Input)
        if find.has_class("-shown"):
            find.value = ""
            find.remove_class("-shown")
            self.query_one(DataTable).focus()
            return
        if self._rows is None:
            self._stop()
        self.dismiss()


def _aligned(text: str, is_number: bool) -> Text:  # noqa: FBT001 - one flag of one helper
    return Text(text, justify="right" if is_number else "left", no_wrap=True)


def _holds(row: tuple[Cell, ...], wanted: str) -> bool:
    return any(wanted in cell(value).casefold() for value in row)


def _head(rows: Rows, shown: int) -> Text:
    fetched = len(rows.rows)
    if rows.is_cut:
        count = f"{words.whole(fetched)} of {words.whole(rows.total)} rows"
    else:
        count = words.plural(rows.total, "row")
    if shown < fetched:
        count = f"{words.whole(shown)} of {count} shown"
    return Text(f" {clean(rows.title)} · {count}", style="bold")
