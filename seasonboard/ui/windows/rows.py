"""The rows behind a number, as a table of their own."""

from collections.abc import Callable
from dataclasses import replace

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.geometry import Region
from textual.widgets import DataTable, Input, Static

from seasonboard.answers.rows import Rows
from seasonboard.errors import SeasonboardError
from seasonboard.paging import PageAsked
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.board.row_sources import Opener, RowSource
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.layout import row_text
from seasonboard.ui.layout.breadcrumb import breadcrumb
from seasonboard.ui.layout.format import clean
from seasonboard.ui.saving.offers import SavableTable, SaveOffer
from seasonboard.ui.saving.save_windows import SavableScreen
from seasonboard.ui.widgets.key_line import KeyLine
from seasonboard.ui.widgets.lines import StateLine, TitleLine, TooSmall
from seasonboard.ui.widgets.row_table import RowTable
from seasonboard.ui.windows.method_card import CardScreen

PAGE = 200
"""Rows fetched at once."""


class RowsScreen(SavableScreen):
    """One table, a page of it at a time: sorted and searched where the rows are kept."""

    AUTO_FOCUS = "DataTable"
    HELP = (
        "The rows that the number came from. ↵ opens all that was recorded of a row's athlete; m "
        "says how the number is made. Finding looks for every word in all of them, in any "
        "capitals and accents; o sorts by the next column and O turns the order round, and a click "
        "on a heading does both. n and p fetch the next rows and those before."
    )
    BINDINGS = bindings(
        key("escape", "leave", "back", "Back to the page", "rows.leave", display="Esc"),
        key("slash", "find", "find", "Show only rows with certain words", "rows.find"),
        key("o", "sort", "sort", "Sort by the next column", "rows.sort"),
        key("O,shift+o", "turn", "turn round", "Turn the order round", "rows.turn", display="O"),
        key("m", "method", "method", "How the number is made", "rows.method"),
        key(
            "k",
            "alike",
            "made alike",
            "Every guard made like this one, and who wears it",
            "rows.alike",
        ),
        key("n", "turn_page(1)", "next", "The next rows", "rows.next"),
        key("p", "turn_page(-1)", "before", "The rows before", "rows.before"),
    )

    def __init__(
        self,
        behind: RowSource,
        opener: Opener,
        stop: Callable[[], None],
        *,
        board: str,
        told: Callable[[], SaveOffer | None],
    ) -> None:
        """Show what `behind` fetches; it runs in a thread, and `stop` ends it.

        `opener` opens what is behind the rows; `board` is the screen that the title line marks;
        `told` gives what can be saved of the page below, from which a saved table says what it is.
        """
        super().__init__()
        self._title, self._fetch_rows = behind
        self._opener = opener
        self._stop = stop
        self.answer_source = opener.answer_source
        self._told = told
        self._number = 0
        self._is_forgotten = False
        self._board = board
        self._rows: Rows | None = None
        self._asked = PageAsked(PAGE)
        self._is_waiting = False

    def compose(self) -> ComposeResult:
        """Put the title over the table."""
        yield TitleLine()
        yield StateLine()
        yield Static(self._asking(), id="head")
        yield RowTable(cursor_type="row", zebra_stripes=False)
        yield Input(placeholder="show only rows with …, Esc for all", id="find", compact=True)
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Fetch the rows."""
        self.query_one(TitleLine).board = self._board
        self._name_what_is_open()
        self._ask(self._asked)

    def _name_what_is_open(self) -> None:
        line = self.query_one(StateLine)
        line.store_label = self.answer_source.store_label
        line.is_covered = self.answer_source.is_covered
        line.state = breadcrumb(self.app.screen_stack)

    def forget(self) -> None:
        """Empty the table, the title and the find line, and drop every reply still to come."""
        self._number += 1
        self._rows = None
        self._is_forgotten = True
        self._asked = replace(self._asked, search="")
        self.query_one("#find", Input).value = ""
        self.query_one(DataTable).clear(columns=True)
        self.query_one("#head", Static).update(self._asking())
        self._name_what_is_open()

    def fetch_what_was_forgotten(self) -> None:
        """Fetch the rows anew."""
        if self._is_forgotten:
            self._is_forgotten = False
            self._ask(self._asked)

    def _asking(self) -> Text:
        return Text(f" {self._title}: asking …", style="bold")

    @property
    def breadcrumb_name(self) -> str:
        """Return what the table is called on the way to it."""
        return self._title if self._rows is None else self._rows.title

    def _ask(self, asked: PageAsked) -> None:
        self._asked = asked
        if self._is_forgotten:
            return
        self._number += 1
        self._is_waiting = True
        self._fetch(asked, self._number)

    @work(thread=True, exclusive=True, group="rows")
    def _fetch(self, asked: PageAsked, number: int) -> None:
        outcome = outcome_of(lambda: self._fetch_rows(asked), self._title)
        self.call_later(self._show, number, outcome)

    def _show(self, number: int, outcome: Rows | SeasonboardError) -> None:
        """Fill the table with the reply to the last asking; drop every other."""
        if number != self._number:
            return
        self._is_waiting = False
        if isinstance(outcome, SeasonboardError):
            text = f" {clean(outcome.what)} {clean(outcome.hint)}"
            self.query_one("#head", Static).update(Text(text, style="bold"))
            return
        self._rows = outcome
        self.query_one(StateLine).state = breadcrumb(self.app.screen_stack)
        table = self.query_one(DataTable)
        table.clear(columns=True)
        for column in outcome.columns:
            mark = ""
            if column.name == self._asked.sort:
                mark = " ▾" if self._asked.descending else " ▴"
            heading = f"{column.heading}{mark}"
            table.add_column(row_text.aligned(heading, column.is_number), key=column.name)
        numbers = [column.is_number for column in outcome.columns]
        for row in outcome.rows:
            pairs = zip(row_text.cells(outcome, row), numbers, strict=True)
            table.add_row(*(row_text.aligned(shown, number) for shown, number in pairs))
        self.query_one("#head", Static).update(row_text.head(outcome, self._asked))
        table.call_after_refresh(self._show_sorted)

    def _show_sorted(self) -> None:
        """Bring the column into sight that the rows are sorted by."""
        table = self.query_one(DataTable)
        keys = [str(column.key.value) for column in table.ordered_columns]
        if self._asked.sort in keys:
            place = keys.index(self._asked.sort)
            widths = [column.get_render_width(table) for column in table.ordered_columns]
            region = Region(sum(widths[:place]), 0, widths[place], 1)
            table.scroll_to_region(region, animate=False, y_axis=False)

    @on(DataTable.RowSelected)
    def _open_athlete(self, event: DataTable.RowSelected) -> None:
        """Open all that was recorded of the row's athlete."""
        names = [column.name for column in self._rows.columns] if self._rows else []
        cells = self._rows.rows[event.cursor_row] if self._rows and self._rows.rows else ()
        athlete = dict(zip(names, cells, strict=False)).get("athlete")
        if athlete is None:
            self.notify("This row is not of one athlete.", markup=False, timeout=3)
            return
        behind, opener = self._opener.athlete(str(athlete)), self._opener
        rows = RowsScreen(behind, opener, self._stop, board=self._board, told=self._told)
        self.app.push_screen(rows)

    def action_alike(self) -> None:
        """Ask of what the row's guard was made, and show every guard made of the same."""
        from seasonboard.ui.recall.alike import guard_of, show_alike

        table = self.query_one(DataTable)
        show_alike(self.app, guard_of(self._rows, table.cursor_row))

    def action_method(self) -> None:
        """Show how the number that the rows are behind is made."""
        card = self._opener.card
        if card is None:
            self.notify("There is no method card for these rows.", markup=False, timeout=3)
        else:
            self.app.push_screen(CardScreen(card, self._opener.answer_source.question_text))

    def action_find(self) -> None:
        """Open the find line."""
        find = self.query_one("#find", Input)
        find.add_class("-shown")
        find.focus()

    @on(Input.Changed, "#find")
    def _narrow(self, event: Input.Changed) -> None:
        if event.value != self._asked.search:
            self._ask(replace(self._asked, search=event.value, offset=0))

    @on(Input.Submitted, "#find")
    def _to_the_table(self) -> None:
        self.query_one(DataTable).focus()

    def action_sort(self) -> None:
        """Sort by the next column; after the last one, as the rows came."""
        if self._rows is None:
            return
        names = ["", *(column.name for column in self._rows.columns)]
        after = names[(names.index(self._asked.sort) + 1) % len(names)]
        self._ask(replace(self._asked, sort=after, descending=False, offset=0))

    def action_turn(self) -> None:
        """Turn the order round."""
        if self._asked.sort:
            self._ask(replace(self._asked, descending=not self._asked.descending, offset=0))

    @on(DataTable.HeaderSelected)
    def _heading_clicked(self, event: DataTable.HeaderSelected) -> None:
        name = str(event.column_key.value)
        turned = self._asked.sort == name and not self._asked.descending
        self._ask(replace(self._asked, sort=name, descending=turned, offset=0))

    def action_turn_page(self, by: int) -> None:
        """Fetch the next rows, or those before."""
        if self._rows is None:
            return
        offset = self._asked.offset + by * PAGE
        if 0 <= offset < max(1, self._rows.matching):
            self._ask(replace(self._asked, offset=offset))

    def offer(self) -> SaveOffer | None:
        """Offer the rows as they are found and sorted, and the page of them as text."""
        below = self._told()
        if below is None or self._rows is None:
            return None
        table = SavableTable(self._rows.title, self._fetch_rows, self._asked, self._rows)
        about = replace(below.about, title=self._rows.title, answer="")
        page = row_text.lines(self._rows)
        return replace(below, about=about, table=table, page=page, picture=(), extra_files=())

    def action_leave(self) -> None:
        """Show all rows again, or go back to the page."""
        find = self.query_one("#find", Input)
        if find.has_class("-shown"):
            find.value = ""
            find.remove_class("-shown")
            self.query_one(DataTable).focus()
            return
        if self._is_waiting:
            self._stop()
        self.dismiss()
