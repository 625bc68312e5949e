"""The Roster answer described: games, counts and lines around the table of athletes."""

import unicodedata
from operator import itemgetter

from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, of, why
from seasonboard.answers.layout import listed
from seasonboard.answers.orders.report import LATE_AFTER
from seasonboard.answers.report import Report
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.availability_report import AVAILABILITY, availability_lines
from seasonboard.answers.roster.parts import GuardState, RosterAnswer
from seasonboard.answers.roster.words import STRIP_KEY, comparable_words, game_words, reasons_words
from seasonboard.answers.safe_text import one_line

_WIDTH = 100
_WIDTHS = {"name": 20, "team": 9, "initials": 4, "strip": 12, "state": 28}
"""Cells of the columns of a terminal's table; the guards have the rest."""

NEXT_GAME = (
    Field("team", "key of the team"),
    Field("team_name", "its name"),
    Field("season", "season of the team"),
    Field("department", "key of the department"),
    Field("department_name", "its name"),
    Field("session", "key of the game"),
    Field("starts_at", "its start", Kind.INSTANT),
    Field("played_on", "its day in the department", Kind.DAY),
    Field("label", "its label", privacy=Privacy.FREE_TEXT, optional=True),
    Field("rostered", "athletes on the roster", Kind.COUNT),
    Field("is_listed", "whether these are in athletes", Kind.FLAG),
    why(of("why")),
    Table(
        "strip_sessions",
        of("strip_sessions"),
        (
            Field("session", "key of the session"),
            Field("played_on", "its day in the department", Kind.DAY),
            Field("setting", "game or practice"),
            Field("label", "its label", privacy=Privacy.FREE_TEXT, optional=True),
        ),
        "one of the team's last sessions, the oldest first",
    ),
)

_HEADLINE = (
    Field("rostered", "athletes on the roster", Kind.COUNT),
    Field("full", "of them in full part", Kind.COUNT),
    Field("limited", "limited", Kind.COUNT),
    Field("out", "out", Kind.COUNT),
    Field("not_recorded", "not recorded", Kind.COUNT),
    Field("out_for_health", "out, injured or ill", Kind.COUNT),
    Field("limited_because", "those limited, by reason", Kind.COUNT),
    Field("out_because", "those out, by reason", Kind.COUNT),
    Group(
        "guards",
        of("guards"),
        tuple(
            Field(state.value, f"guards {state}", Kind.COUNT, get=itemgetter(state))
            for state in GuardState
        ),
        "guards by their state",
    ),
    Field("late", "guards open for too long, delivered or not", Kind.COUNT),
    Field("guards_in_hand", "guards in hand", Kind.COUNT),
    Field("athletes_with_guard", "athletes with one", Kind.COUNT),
)


def athlete_lines(answer: RosterAnswer) -> list[str]:
    """Return an athlete a line, with the team where there are several, else the position."""
    if not answer.athletes:
        return []
    is_of_one_team = len({athlete.team for athlete in answer.athletes}) == 1
    skipped = "team" if is_of_one_team else "initials"
    widths = {name: width for name, width in _WIDTHS.items() if name != skipped}
    widths["guards"] = _WIDTH - sum(widths.values()) - 2 * len(widths)
    fields = [ATHLETES.field(name) for name in widths]
    heads = ["athlete" if one.name == "name" else one.heading_of(answer) for one in fields]
    rows = [heads, *([one.read(athlete) for one in fields] for athlete in answer.athletes)]
    fitted = [map(_fitted, map(one_line, row), widths.values()) for row in rows]
    return ["  ".join(row).rstrip() for row in fitted]


def _fitted(text: str, width: int) -> str:
    """Return text in exactly so many terminal cells, cut with an ellipsis."""
    if _cells(text) > width:
        while _cells(text) > width - 1:
            text = text[:-1]
        text += "…"
    return text + " " * (width - _cells(text))


def _cells(text: str) -> int:
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )


def _needs(answer: RosterAnswer) -> list[str]:
    return [f"{one_line(a.name)}: {one_line(need)}" for a in answer.athletes for need in a.needs]


def _reasons(answer: RosterAnswer) -> list[str]:
    return [reasons] if (reasons := reasons_words(answer.headline)) else []


def _comparable(answer: RosterAnswer) -> list[str]:
    by_area = {a.comparable.area: a.comparable for a in answer.athletes if a.comparable is not None}
    return [comparable_words(injuries) for injuries in by_area.values()]


def _games(answer: RosterAnswer) -> list[str]:
    if len(answer.next_games) < 2:
        return []
    return [
        f"{one_line(game.team)} ({one_line(game.season)}), {game.rostered} rostered: "
        f"{game_words(game)}"
        for game in answer.next_games
    ]


REPORT = Report(
    (
        Group("next_game", of("next_game"), NEXT_GAME, "the earliest; null: none is ahead"),
        Table("next_games", of("next_games"), NEXT_GAME, "the next game of a team"),
        Group("headline", of("headline"), _HEADLINE, "counts of athletes and guards"),
        ATHLETES,
        LATE_AFTER,
        AVAILABILITY,
        why(lambda answer: "" if answer.next_game else "no game is ahead"),
    ),
    csv=ATHLETES,
    text=(
        athlete_lines,
        lambda answer: [STRIP_KEY] if answer.athletes else [],
        listed("Why not in full part:", _reasons),
        listed("Needed:", _needs),
        listed("How long injuries of the same area took (a count, no forecast):", _comparable),
        listed("Next games:", _games),
        availability_lines,
    ),
)
