"""The simulated figures of a season ahead, each named once: injuries, games, days, prints."""

from dataclasses import dataclass
from typing import Any

from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.pitch.words import range_80, range_95
from seasonboard.stats.season_ahead import Spread


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a season: the part of the plan it belongs to, its name, and what people say.

    `spread` is None where it is not known; of a team only the mean is.
    """

    part: str
    name: str
    words: str
    spread: Any


_SEASON = (
    ("injuries", "injuries without guards", "ahead.injuries"),
    ("injuries_with", "injuries with guards", "ahead.injuries_with"),
    ("averted", "injuries averted", "ahead.averted"),
    ("games_missed", "games missed without guards", "ahead.games_missed"),
    ("games_missed_with", "games missed with guards", "ahead.games_missed_with"),
    ("games_kept", "games kept", "ahead.games_kept"),
    ("plays_kept", "plays kept", "plays_kept"),
    ("days_lost", "days lost in the season without", "ahead.days_lost"),
    ("days_kept", "days kept", "ahead.days_kept"),
)
_PRINTS = (
    ("first", "first guards", "prints.first"),
    ("remakes", "remakes within 30 days", "prints.remakes"),
    ("later", "later prints", "prints.later"),
    ("all", "all prints", "prints.prints"),
    ("busiest_week", "prints in the busiest week", "prints.busiest_week"),
    ("hours", "printer hours", "hours"),
    ("busiest_hours", "printer hours in that week", "busiest_hours"),
)
_PARTS = {"season": _SEASON, "prints": _PRINTS}

SPREAD = (
    Field("median", "half of the seasons lie below", Kind.WHOLE, heading="median"),
    Field("mean", "mean of the seasons", Kind.TENTHS),
    Field("low_80", "80 % of seasons lie above", Kind.WHOLE, heading="80 % from"),
    Field("high_80", "and below", Kind.WHOLE, heading="80 % to"),
    Field("low_95", "95 % of seasons lie above", Kind.WHOLE, heading="95 % from"),
    Field("high_95", "and below", Kind.WHOLE, heading="95 % to"),
)
"""Where a figure lies over the simulated seasons."""


def spread_groups(part: str) -> tuple[Group, ...]:
    """Describe every figure of a part of the plan."""
    return tuple(Group(name, of(path), SPREAD, words) for name, words, path in _PARTS[part])


def figures_of(answer: PitchAnswer, part: str) -> list[Figure]:
    """Return every figure of a part of the plan: season or prints."""
    return [Figure(part, name, words, of(path)(answer)) for name, words, path in _PARTS[part]]


def known_figures(answer: PitchAnswer, part: str) -> list[Figure]:
    """Return those that are known."""
    return [figure for figure in figures_of(answer, part) if figure.spread is not None]


def _all_figures(answer: PitchAnswer) -> list[Figure]:
    weeks = answer.prints.by_week
    by_team = [
        Figure(f"team: {team.name}", name, words, {**dict.fromkeys(Spread.__slots__), "mean": mean})
        for team in answer.teams
        for (name, words, _), mean in ((_SEASON[0], team.injuries), (_SEASON[3], team.games_missed))
    ]
    return [
        *figures_of(answer, "season"),
        *figures_of(answer, "prints"),
        *(Figure(f"week {week.week}", "all", "prints", week.prints) for week in weeks),
        *(Figure(f"plan: {plan.way}", "total", "all fees", plan.total) for plan in answer.plans),
        *by_team,
    ]


def _columns(heading: str) -> tuple[Field | Group, ...]:
    return (
        Field("part", "what it belongs to: season, prints, a week, a plan, a team"),
        Field("figure", "its name, as in JSON", get=of("name")),
        for_people("words", heading, of("words")),
        Group("", of("spread"), SPREAD),
        for_people("range_80", "80 % of seasons", lambda f: range_80(f.spread), Kind.WHOLE),
        for_people("range_95", "95 % of seasons", lambda f: range_95(f.spread), Kind.WHOLE),
    )


def _known_table(part: str, heading: str) -> Table:
    reading = ("words", "median", "range_80", "range_95")
    return Table(
        part, lambda answer: known_figures(answer, part), _columns(heading), reading=reading
    )


SEASON = _known_table("season", "in one season")
PRINTS = _known_table("prints", "prints")
FIGURES = Table("figures", _all_figures, _columns("figure"), "a simulated figure of the season")
"""Every figure of the plan, for CSV."""
