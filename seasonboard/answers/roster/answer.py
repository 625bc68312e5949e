"""Who can play the next game, and in what guard? Put together from what was recorded."""

from collections import Counter
from collections.abc import Mapping
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl

from seasonboard.answers.base import CAUTION, LeftOut, Summary, rules_caveat
from seasonboard.answers.orders.lateness import late_after
from seasonboard.answers.questions import ROSTER
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.returns.out_now import QUESTIONS, by_athlete, out_now
from seasonboard.answers.roster.athletes import RosterContext, comparable_injuries, roster_athlete
from seasonboard.answers.roster.availability import availability, availability_left_out, days_out
from seasonboard.answers.roster.guards import guards_of
from seasonboard.answers.roster.parts import (
    ATTENTION,
    STRIP,
    GuardState,
    Headline,
    NextGame,
    RosterAnswer,
    RosterAthlete,
    Status,
    StripSession,
)
from seasonboard.answers.roster.words import day_word, reason_word, roster_caveats, roster_sentence
from seasonboard.scope import Scope, ScopeValues

_QUESTIONS = (
    *("roster/guards", "roster/places", "roster/injuries", "roster/sessions"),
    *("roster/teams", *QUESTIONS),
)
"""The slow ones first, since two cursors share them by turns."""


def roster(reader: Reader, scope: Scope, scope_values: ScopeValues) -> RosterAnswer:
    """Say who can play the next game of each team in the scope, and in what guard."""
    frames = read_frames(reader, scope, *_QUESTIONS)
    teams, places = frames["roster/teams"], frames["roster/places"]
    sessions, injuries = frames["roster/sessions"], frames["roster/injuries"]
    listed = _listed(teams, places)
    late = late_after(frames["orders/histories"], sorted(teams["department"].unique()))
    guards = guards_of(frames["roster/guards"], late, scope.through)
    out = days_out(places, teams, injuries, scope.through)
    here = places.join(listed, on=["team", "season"], how="semi", maintain_order="left").filter(
        pl.col("here") == "yes"
    )
    hurt = here["open_area"].drop_nulls().unique().to_list()
    comparable = comparable_injuries(frames["roster/like_injuries"], hurt)
    games = _next_games(frames, listed, scope_values)
    by_team = {(game.team, game.season): game for game in games}
    told = by_athlete(out_now(frames, scope))
    context = RosterContext(
        guards.by_athlete, out.by_athlete, comparable, by_team, scope.through, told
    )
    rows = [roster_athlete(row, context) for row in here.iter_rows(named=True)]
    athletes = _sorted(rows, games)
    headline = _headline(athletes)
    ahead = tuple(game for game in games if game.session is not None)
    left_out = (
        *_places_left_out(places, teams, listed),
        *guards.left_out,
        *availability_left_out(sessions, injuries),
    )
    sentence = roster_sentence(games, headline, scope.through)
    in_hand = frames["roster/guards"].filter(
        pl.col("state").is_in(["open", "fitted"]), ~pl.col("is_replaced")
    )
    rules = rules_caveat(in_hand["rule"])
    caveats = (CAUTION, *roster_caveats(athletes, scope, scope_values), *rules)
    return RosterAnswer(
        summary=Summary(ROSTER.asks, sentence, caveats, left_out, scope),
        next_game=ahead[0] if ahead else None,
        next_games=games,
        athletes=athletes,
        headline=headline,
        late_after=tuple(late.values()),
        availability=availability(sessions, injuries, out, scope),
    )


def _listed(teams: pl.DataFrame, places: pl.DataFrame) -> pl.DataFrame:
    """Return the team-seasons whose athletes are asked for.

    Those with a game ahead in a season that has begun; without any, those with a game ahead;
    without any, the latest season of each team.
    """
    peopled = teams.join(places, on=["team", "season"], how="semi", maintain_order="left")
    ahead = peopled.filter(pl.col("next_session").is_not_null())
    begun = ahead.filter(pl.col("held") > 0)
    if len(begun):
        return begun
    if len(ahead):
        return ahead
    return peopled.sort("last_on", "season", nulls_last=False).unique(
        "team", keep="last", maintain_order=True
    )


def _next_games(
    frames: Mapping[str, pl.DataFrame], listed: pl.DataFrame, scope_values: ScopeValues
) -> tuple[NextGame, ...]:
    """Return each team's next game, in order of their start; teams without one come last."""
    places = frames["roster/places"].filter(pl.col("here") == "yes")
    rostered = Counter(places.select("team", "season").iter_rows())
    keys = set(listed.select("team", "season").iter_rows())
    columns = ("session", "played_on", "setting", "label")
    strips = {
        (str(team), str(season)): tuple(
            StripSession(*row) for row in rows.select(columns).tail(STRIP).iter_rows()
        )
        for (team, season), rows in frames["roster/sessions"]
        .join(listed, on=["team", "season"], how="semi", maintain_order="left")
        .partition_by("team", "season", as_dict=True, maintain_order=True)
        .items()
    }
    return tuple(
        _next_game(row, scope_values, rostered[key], key in keys, strips.get(key, ()))
        for row in frames["roster/teams"].iter_rows(named=True)
        for key in [(row["team"], row["season"])]
    )


def _next_game(
    row: Mapping[str, Any],
    scope_values: ScopeValues,
    rostered: int,
    is_listed: bool,  # noqa: FBT001 - private, and named at its one use
    strip: tuple[StripSession, ...],
) -> NextGame:
    at = row["next_at"]
    return NextGame(
        team=row["team"],
        team_name=scope_values.name_of("team", row["team"]),
        season=row["season"],
        department=row["department"],
        department_name=row["department_name"],
        session=row["next_session"],
        starts_at=None if at is None else at.astimezone(ZoneInfo(row["time_zone"])),
        played_on=row["next_on"],
        label=row["next_label"],
        rostered=rostered,
        is_listed=is_listed,
        why="" if at is not None else _no_game(row),
        strip_sessions=strip,
    )


def _no_game(row: Mapping[str, Any]) -> str:
    if row["first_on"] is None:
        return "no session of this season is recorded"
    if not row["held"]:
        return f"the season begins on {day_word(row['first_on'])}, and has no game of its own next"
    return f"no game is recorded ahead; the last session was on {day_word(row['last_on'])}"


def _sorted(rows: list[RosterAthlete], games: tuple[NextGame, ...]) -> tuple[RosterAthlete, ...]:
    order = {(game.team, game.season): n for n, game in enumerate(games)}

    def rank(one: RosterAthlete) -> tuple[int, int, str, str]:
        need = ATTENTION.index(one.attention)
        return need, order[one.team, one.season], one.name.casefold(), one.athlete

    return tuple(sorted(rows, key=rank))


def _headline(athletes: tuple[RosterAthlete, ...]) -> Headline:
    by_status = Counter(athlete.status for athlete in athletes)
    guards = {g.guard: g for athlete in athletes for g in athlete.guards}.values()
    states = Counter(guard.state for guard in guards)

    def because(status: Status) -> dict[str, int]:
        reasons = Counter(reason_word(a.reason) for a in athletes if a.status is status)
        return dict(reasons.most_common())

    return Headline(
        rostered=len(athletes),
        full=by_status[Status.FULL],
        limited=by_status[Status.LIMITED],
        out=by_status[Status.OUT],
        not_recorded=by_status[Status.NOT_RECORDED],
        out_for_health=sum(a.attention == ATTENTION[0] for a in athletes),
        limited_because=because(Status.LIMITED),
        out_because=because(Status.OUT),
        guards={state: states[state] for state in GuardState},
        late=sum(guard.is_late for guard in guards),
        guards_in_hand=sum(guard.is_in_hand for guard in guards),
        athletes_with_guard=sum(any(g.is_in_hand for g in a.guards) for a in athletes),
    )


def _places_left_out(
    places: pl.DataFrame, teams: pl.DataFrame, listed: pl.DataFrame
) -> list[LeftOut]:
    keys = ["team", "season"]
    here = places.join(listed, on=keys, how="semi")
    away = places.join(listed, on=keys, how="anti").join(teams, on=keys)
    is_ahead = pl.col("next_session").is_not_null()
    counts = (
        ("left the roster", here.filter(pl.col("here") == "left")),
        ("joins the roster later", here.filter(pl.col("here") == "not yet")),
        ("the season of the team has not begun", away.filter(is_ahead)),
        ("no game ahead in that season", away.filter(~is_ahead)),
    )
    return [LeftOut("roster places", why, len(rows)) for why, rows in counts if len(rows)]
