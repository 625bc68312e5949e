"""The list under a form: the lines that fit what is typed into the field in focus."""

from textual import work

from seasonboard.answers.lists import ListLine, MatchingLines
from seasonboard.errors import SeasonboardError
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.forms.form import FieldKind, FormField, FormLists, fitting
from seasonboard.ui.forms.form_values import FormDraft, matching_lines


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

    def _show_lines(self, asked: tuple[FormField, str, str], fit: MatchingLines) -> None:
        """Show lines, unless something else is typed by now."""
        if asked != self._asked:
            return
        (one, typed, value), lines = asked, fit.lines
        self._offered, self._offered_for = lines, (one.column, typed)
        none = 0 if typed.strip() else -1
        at = next((n for n, line in enumerate(lines) if value and line.value == value), none)
        more = fit.matching - len(lines)
        beyond = f", {more:,} more not shown" if more > 0 else ""
        summary = f"with “{typed}”{beyond}" if typed.strip() else f"type to narrow{beyond}"
        self.show(
            f"{one.title}: {summary if lines else f'none {summary}'}",
            [(line.shown, line.beside) for line in lines],
            at,
        )
