"""The tables of the Pitch answer: teams, what the plan rests on, what would change it, claims."""

from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.pitch.lines import rests_on
from seasonboard.answers.pitch.parts import Baseline, Input, TeamAhead
from seasonboard.answers.pitch.words import value_words

FEW_ABSENCES = "too few own injuries tell how long athletes are out"
_NAME = 28
"""Letters of a team's name in a table: a sport is typed freely."""


def _team_name(team: TeamAhead) -> str:
    return team.name if len(team.name) <= _NAME else f"{team.name[: _NAME - 1]}…"


def _why_team(team: TeamAhead) -> str:
    return team.why or FEW_ABSENCES if None in (team.injuries, team.games_missed) else ""


def _why_baseline(one: Baseline) -> str:
    figures = (one.rate, one.low, one.high, one.injuries, one.exposures, one.share)
    reason = one.why or "a share is of published rates, counts where printed"
    return reason if None in figures else ""


def _why_input(one: Input) -> str:
    no_limits = "no limits: taken as it is" if None in (one.value, one.low, one.high) else ""
    return one.why or no_limits


def _why_claim(claim: Claim) -> str:
    if claim.missing is None:
        return "nothing is missing"
    return "nothing is known of it" if claim.interval is None else ""


def _in_unit(name: str, meaning: str, heading: str) -> Field:
    """Describe a figure that stands in the unit of its row."""
    get = of(name)
    show = lambda row: value_words(get(row), row.unit)  # noqa: E731
    return Field(name, meaning, Kind.RATIO, get=get, heading=heading, show=show)


BASELINE = (
    Field("setting", "game or practice"),
    Field("basis", "what the rate rests on"),
    Field("rate", "injuries to the sites per 1000 athlete-exposures"),
    *interval(Kind.HUNDREDTHS),
    Field("injuries", "injuries that it rests on", Kind.COUNT),
    Field("exposures", "exposures that it rests on", Kind.COUNT),
    Field("share", "share of all published injuries at the sites", Kind.SHARE),
    Field("source", "where it is from"),
    why(_why_baseline),
)
SETTINGS = Table(
    "settings",
    of("settings"),
    (
        Field("setting", "game or practice"),
        Field("sessions", "sessions of it in a season", Kind.COUNT),
        Field("taking_part", "share of the roster in a session", Kind.SHARE),
        Field("is_own_taking_part", "whether own records say so"),
        Field("exposures", "athlete-exposures of a season", Kind.TENTHS),
        Field("injuries", "injuries without guards, mean", Kind.TENTHS),
        Group("baseline", of("baseline"), BASELINE, "how often athletes are hurt without guards"),
        why(of("baseline.why")),
    ),
    "games or practices of the team",
)
GROUPS = Table(
    "groups",
    of("team.groups"),
    (
        Field("group", "position group", get=lambda group: group[0]),
        Field("athletes", "its athletes", Kind.COUNT, get=lambda group: group[1]),
    ),
    "its position groups",
)
TEAMS = Table(
    "teams",
    of("teams"),
    (
        for_people("team", "team", _team_name),
        Field("sport", "its sport", get=of("team.sport")),
        Field("sex", "women, men or mixed", get=of("team.sex")),
        Field("athletes", "its athletes", Kind.COUNT, heading="athletes"),
        GROUPS,
        Field("games", "games of a season", Kind.COUNT, get=of("team.games"), heading="games"),
        Field("practices", "practices of a season", Kind.COUNT, of("team.practices"), "practices"),
        Field("injuries", "injuries without guards, mean", Kind.TENTHS, heading="injuries"),
        Field("games_missed", "games they cost, mean", Kind.TENTHS, heading="missed"),
        for_people("rests_on", "rests on", rests_on),
        SETTINGS,
        why(_why_team),
    ),
    "a team of the prospect, for one season",
)
INPUTS = Table(
    "inputs",
    of("inputs"),
    (
        Field("name", "which number", heading="the plan rests on"),
        _in_unit("value", "its value, shares from 0 to 1", "value"),
        _in_unit("low", "how low it may lie", "from"),
        _in_unit("high", "how high", "to"),
        Field("unit", "its unit", heading="unit"),
        Field("source", "where it is from", heading="where it is from"),
        why(_why_input),
    ),
    "a number that the plan rests on",
)
SWINGS = Table(
    "sensitivity",
    of("swings"),
    (
        Field("input", "what is changed alone", heading="one at a time"),
        Field("unit", "its unit"),
        _in_unit("low", "its low end", "low end"),
        _in_unit("high", "its high end", "high end"),
        Field("kept_at_low", "games kept then, mean", Kind.TENTHS, heading="games kept at low"),
        Field("kept_at_high", "the same", Kind.TENTHS, heading="at high"),
    ),
    "what the games kept would be with one number at its ends, the widest first",
)
CLAIMS = Table(
    "claims",
    of("claims"),
    (
        Field("topic", "what it is about"),
        Field("sentence", "the sentence"),
        Field("is_supported", "whether it may be said", Kind.FLAG),
        Field("interval", "what the records allow"),
        Field("missing", "what is missing where it may not be said"),
        Field("rests_on", "the counts behind it"),
        Field("is_for_outsiders", "whether no count of 1 to 10 is in it"),
        why(_why_claim),
    ),
    "a sentence that the records allow to be said, or do not",
)
