"""From one guard to every guard made like it."""

from typing import TYPE_CHECKING, Any

from textual.app import App

from seasonboard.answers import words
from seasonboard.answers.recall.answer import of_everything
from seasonboard.answers.rows import Rows
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose

if TYPE_CHECKING:
    from seasonboard.ui.app.app import SeasonboardApp

NO_GUARD = "This row is not of one guard."
NO_BUILD = "Nothing is recorded of what this guard was made of: l b writes it down."
COVERED = "The curtain is down: c lifts it, to look for guards made alike."


def guard_of(rows: Rows | None, number: int) -> str | None:
    """Return the key of the guard that a row is of; None where it is of none."""
    if rows is None or not 0 <= number < len(rows.rows):
        return None
    cells = dict(zip((column.name for column in rows.columns), rows.rows[number], strict=True))
    of_stage = cells.get("item") if cells.get("what") == "stage" else None
    found = cells.get("guard") or of_stage
    return None if found is None else str(found)


def show_alike(app: App[Any], guard: str | None) -> None:
    """Ask which part of a guard's build is meant, and show all guards made of it."""
    board: SeasonboardApp = app  # type: ignore[assignment]  # rows are shown on the board alone
    source = board.answer_source
    if source is None or source.is_covered or guard is None:
        said = COVERED if source is not None and source.is_covered else NO_GUARD
        app.notify(said, markup=False, timeout=4)
        return
    parts = source.made_alike(guard)
    if not parts:
        app.notify(NO_BUILD, markup=False, timeout=4)
        return
    choices = [Choice(made_of, made_of, words.plural(count, "guard")) for made_of, count in parts]
    prompt = ChooserPrompt(f"Guards made like {guard}: of the same …", choices)
    choose(app, prompt, lambda made_of: show_made_of(board, made_of))


def show_made_of(app: "SeasonboardApp", made_of: str) -> None:
    """Show every guard of the store that is made of one thing, whatever the scope was."""
    if app.answer_source is None or app.scope is None:
        return
    while len(app.screen_stack) > 1:
        app.pop_screen()
    app.scope = of_everything(app.scope, made_of, app.answer_source.scope_values)
    app.action_show_board("recall")
