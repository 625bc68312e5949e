"""The lines of a form, and the list under it."""

from collections.abc import Sequence

from rich.text import Text
from textual import work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from seasonboard.answers.lists import ListLine, MatchingLines
from seasonboard.errors import SeasonboardError
from seasonboard.ui.forms.form import FieldKind, FormField, FormLists, fitting
from seasonboard.ui.forms.form_values import FormDraft, matching_lines
from seasonboard.ui.layout.format import clean, fit

_TITLE = 16


class FieldLine(Vertical):
    """One field: its title, what stands there, and under it what is wrong.

    `known` is the text that the form knows of; letters may be typed that it has not heard of yet.
    """

    def __init__(self, one: FormField) -> None:
        """Show one field."""
        super().__init__()
        self.one = one
        self.known = ""

    def compose(self) -> ComposeResult:
        """Put the field under its title."""
        mark = "*" if self.one.is_required else " "
        with Horizontal():
            yield Static(Text(fit(f"{mark}{self.one.title}", _TITLE)), classes="name")
            yield Input(id=f"field-{self.one.column}", compact=True)
        yield Static(Text(""), classes="wrong")

    @property
    def box(self) -> Input:
        """Return what is typed into."""
        return self.query_one(Input)

    def show(self, text: str, problem: str) -> None:
        """Show a text and what is wrong with it; what is being typed keeps its cursor.

        A text that the form puts in is marked, so that typing replaces it.
        """
        self.known = text
        if self.box.value != text:
            with self.prevent(Input.Changed):
                self.box.value = text
            self.box.selection = Selection(0 if self.box.has_focus else len(text), len(text))
        self.set_class(bool(problem), "-wrong")
        self.query_one(".wrong", Static).update(Text(clean(problem)))


class Choices(Widget):
    """The lines that fit what is typed, one of them under the cursor; -1: none."""

    lines: reactive[tuple[tuple[str, str], ...]] = reactive(())
    head: reactive[str] = reactive("")
    cursor: reactive[int] = reactive(0)

    def show(self, head: str, lines: Sequence[tuple[str, str]], cursor: int) -> None:
        """Show lines (a word, and what stands beside it) under a headline."""
        self.lines, self.head = tuple(lines), head
        self.cursor = min(cursor, len(lines) - 1)

    def render(self) -> Text:
        """Return the headline and as many lines around the cursor as there is room for."""
        width, room = self.size.width, max(1, self.size.height - 1)
        text = Text().append(fit(f" {self.head}", width), "italic")
        first = min(max(0, self.cursor - room // 2), max(0, len(self.lines) - room))
        for number, (word, beside) in enumerate(self.lines[first : first + room], first):
            is_here = number == self.cursor
            line = f" {'▸' if is_here else ' '} {clean(word)}"
            line += f"   {clean(beside)}" if beside else ""
            text.append("\n").append(fit(line, width), "bold" if is_here else "")
        return text


class FieldChoices(Choices):
    """The choices of one field at a time; lists of the store are read in a thread."""

    def __init__(self) -> None:
        """Offer nothing yet."""
        super().__init__()
        self._offered: tuple[ListLine, ...] = ()
        self._offered_for = ("", "")  # the column and the letters that the lines are for
        self._asked: tuple[FormField, str, str] | None = None

    @property
    def chosen(self) -> ListLine:
        """Return the line under the cursor."""
        return self._offered[self.cursor]

    def are_for(self, column: str, typed: str | None = None) -> bool:
        """Say whether there are lines, and they are those of a column, for what is typed there."""
        is_same = self._offered_for == (column, self._offered_for[1] if typed is None else typed)
        return bool(self._offered) and is_same

    def walk(self, by: int) -> None:
        """Go along the lines."""
        self.cursor = min(max(0, self.cursor + by), len(self._offered) - 1)

    def leave_as_it_is(self) -> None:
        """Show no lines that are still being read: a choice was made."""
        self._asked = None

    def offer(self, one: FormField, typed: str, draft: FormDraft, form_lists: FormLists) -> None:
        """Offer what fits the letters typed into a field; without letters, all there is."""
        self._asked = (one, typed, draft.values.get(one.column, ""))
        if one.holds is FieldKind.WORD:
            words, best = fitting(typed, one.words) if typed.strip() else (one.words, 1)
            lines = tuple(ListLine(word, word, "", {}) for word in words)
            if one.takes_others and not best:
                lines = (ListLine(typed.strip(), typed.strip(), "as it is typed", {}), *lines)
            self._show_lines(self._asked, MatchingLines(lines, len(lines)))
        elif one.holds is FieldKind.LINE:
            if self._offered_for[0] != one.column:
                self._show_lines(self._asked, MatchingLines((), 0))
            self._read(self._asked, draft, form_lists)
        else:
            self._offered = ()
            hint = one.hint or ("text" if one.holds is FieldKind.TEXT else one.holds.value)
            self.show(f"{one.title}: {hint}", (), -1)

    @work(thread=True, exclusive=True, group="list")
    def _read(
        self, asked: tuple[FormField, str, str], draft: FormDraft, form_lists: FormLists
    ) -> None:
        one, typed, _ = asked
        try:
            lines = matching_lines(draft, one, form_lists, typed)
        except SeasonboardError:
            return  # saving tells what is wrong with the store
        self.call_later(self._show_lines, asked, lines)

    def _show_lines(self, asked: tuple[FormField, str, str], matching: MatchingLines) -> None:
        """Show lines, unless something else is typed by now."""
        if asked != self._asked:
            return
        (one, typed, value), lines = asked, matching.lines
        self._offered, self._offered_for = lines, (one.column, typed)
        none = 0 if typed.strip() else -1
        at = next((n for n, line in enumerate(lines) if value and line.value == value), none)
        more = matching.matching - len(lines)
        beyond = f", {more:,} more not shown" if more > 0 else ""
        summary = f"with “{typed}”{beyond}" if typed.strip() else f"type to narrow{beyond}"
        self.show(
            f"{one.title}: {summary if lines else f'none {summary}'}",
            [(line.shown, line.beside) for line in lines],
            at,
        )
