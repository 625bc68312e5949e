"""What the app does with a thing that was found by its name."""

from functools import partial
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seasonboard.answers.finder import Hit
    from seasonboard.ui.app.app import SeasonboardApp


def find_anything(app: "SeasonboardApp") -> None:
    """Ask for a name or key, and open what was meant."""
    from seasonboard.ui.windows.finder import Finder

    answer_source, scope = app.answer_source, app.scope
    if answer_source is None or scope is None:
        return
    if answer_source.is_covered:
        app.notify("The curtain is down: c lifts it, to find by name.", markup=False, timeout=4)
        return
    finder = Finder(lambda typed: answer_source.find(scope, typed))
    app.push_screen(finder, partial(open_hit, app))


def open_hit(app: "SeasonboardApp", hit: "Hit | None") -> None:
    """Open an athlete's records or a session's rows; put a department or team into the scope."""
    from seasonboard.answers.finder import narrowed
    from seasonboard.ui.board.row_sources import opened_by
    from seasonboard.ui.windows.rows import RowsScreen

    if hit is None or app.answer_source is None or app.scope is None:
        return
    source = opened_by(hit, app.answer_source, app.scope)
    if source is None:
        app.scope = narrowed(app.scope, hit)
        return
    board = app.board_shown()
    name, offer = board.QUESTION.name, board.offer
    app.push_screen(RowsScreen(*source, app.stop_asking, board=name, told=offer))
