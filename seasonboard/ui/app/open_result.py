"""What the app does with a thing that was found by its name."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seasonboard.answers.finder import Hit
    from seasonboard.ui.app.app import SeasonboardApp


def find_anything(app: "SeasonboardApp") -> None:
    """Ask for a name or key, and open what was meant."""
    from seasonboard.ui.windows.finder import Finder

    asker, scope = app.asker, app.scope
    if asker is None or scope is None:
        return
    if asker.is_covered:
        app.notify("The curtain is down: c lifts it, to find by name.", markup=False, timeout=4)
        return

    def take(hit: "Hit | None") -> None:
        if hit is not None:
            open_hit(app, hit)

    app.push_screen(Finder(lambda typed: asker.find(scope, typed)), take)


def open_hit(app: "SeasonboardApp", hit: "Hit") -> None:
    """Open an athlete's records or a session's rows; put a department or team into the scope."""
    from seasonboard.answers.finder import narrowed
    from seasonboard.ui.board.row_sources import opened_by
    from seasonboard.ui.windows.rows import RowsScreen

    if app.asker is None or app.scope is None:
        return
    found = opened_by(hit, app.asker, app.scope)
    if found is None:
        app.scope = narrowed(app.scope, hit)
    else:
        board = app.board_shown()
        rows = RowsScreen(*found, app.stop_asking, board=board.NAME, told=board.offer)
        app.push_screen(rows)
