"""`seasonboard ask week`."""

from datetime import date

import click

from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.answers.week.cards import WEEK_CARDS
from seasonboard.answers.week.json import week_json
from seasonboard.answers.week.parts import WeekAnswer, WeekOptions
from seasonboard.answers.week.text import week_csv, week_text
from seasonboard.cli.answer_command import Told, answers
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope


@click.command("week")
@answers(WEEK_CARDS.values())
@click.option(
    "--since",
    metavar="DATE",
    help="Last day already talked about, as 2026-11-07. Without it, seven days before “through”.",
)
def ask_week(board: StoreAnswers, scope: Scope, *, since: str | None) -> Told[WeekAnswer]:
    """What changed this week, and what must be decided? To be read aloud in a meeting.

    JSON: since, through; days [{day, games, practices, injuries, returns, asked, fitted}]; items
    [{item, title, sentence, ahead, rows [{…}]}], where item is played, injuries, returns, orders,
    remakes, offers, decided, loads (what changed after since), games, guards, out, late and
    decisions (what is ahead); answer, caveats, left_out, scope. CSV: item, row, column, value.
    Purpose, outcome and setting do not filter this answer.
    """
    answer = board.week(scope, WeekOptions(read_since(since)))
    return Told(answer, week_json, week_text, week_csv)


def read_since(text: str | None) -> date | None:
    """Return the day that was typed; None where there is none.

    Raises:
        ScopeError: It is no date.
    """
    if text is None:
        return None
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise ScopeError(
            f"“{text}” is not a date for “since”.", "Write it as 2026-11-07."
        ) from None
