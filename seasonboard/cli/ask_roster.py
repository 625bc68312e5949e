"""`seasonboard ask roster`: who can play the next game, and in what guard."""

import click

from seasonboard.answers.roster.athlete import AthleteTimeline
from seasonboard.answers.roster.athlete_text import athlete_csv, athlete_json, athlete_text
from seasonboard.answers.roster.cards import ROSTER_CARDS
from seasonboard.answers.roster.json import roster_json
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.roster.text import roster_csv, roster_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.scope import Scope


@click.command("roster")
@answers(ROSTER_CARDS.values())
@click.option("--athlete", metavar="KEY", help="Show all that was recorded of one athlete instead.")
def ask_roster(
    board: StoreAnswers, scope: Scope, *, athlete: str | None
) -> Told[RosterAnswer] | Told[AthleteTimeline]:
    """Who can play the next game, and in what guard? Athletes by what needs attention first.

    JSON: next_game, next_games [{team, season, session, starts_at, label, rostered, is_listed,
    strip_sessions}]; headline {rostered, full, limited, out, not_recorded, out_for_health,
    out_because, guards}; athletes [{athlete, name, team, position, status, reason, because,
    expected_back, injury, like_injuries, days_lost, guards [{guard, kind, side, purpose, state,
    stage, age_days, is_late, games_missed, worn, taken_part, worn_share, because}], worn_share,
    needs, attention, strip}]; late_after; availability {sessions, totals, roster_days,
    unavailable_days, severity, burden, by_season_part}; answer, caveats, left_out, scope. status is
    full, limited, out or not recorded; expected_back is always null: no such day is recorded.

    With --athlete: athlete, name, teams, parts, guarded, injuries, timeline [{on, at, what, item,
    word, reason, kind, side, label, guards, days_lost, told}].
    """
    if athlete is not None:
        timeline = board.athlete_timeline(scope, athlete)
        return Told(timeline, athlete_json, athlete_text, athlete_csv)
    return Told(board.roster(scope), roster_json, roster_text, roster_csv)
