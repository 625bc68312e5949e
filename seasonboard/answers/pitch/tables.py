"""The tables of the Pitch answer: teams, what the plan rests on, what would change it, claims."""

from dataclasses import replace

from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.pitch.figures import SPREAD
from seasonboard.answers.pitch.lines import rests_on
from seasonboard.answers.pitch.parts import Baseline, Input, PlanAhead, TeamAhead
from seasonboard.answers.pitch.words import value_words

FEW_ABSENCES = "too few own injuries tell how long athletes are out"
_NAME = 28
"""Letters of a team's name in a table: a sport is typed freely."""


def _team_name(team: TeamAhead) -> str:
    return team.name if len(team.name) <= _NAME else f"{team.name[: _NAME - 1]}…"


def _why_team(team: TeamAhead) -> str:
    return team.why or FEW_ABSENCES if None in (team.injuries, team.games_missed) else ""


def _why_baseline(one: Baseline) -> str:
    figures = (one.like, one.injuries, one.low, one.high, one.own, one.own_weight)
    return one.why or "its last season was not given" if None in figures else ""


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
    Field("basis", "what its own count is pooled with"),
    Field("like", "injuries of a team like it", Kind.TENTHS),
    Field("injuries", "injuries without guards, mean", Kind.TENTHS),
    *interval(Kind.TENTHS),
    Field("own", "its injuries of last season", Kind.COUNT),
    Field("own_weight", "how much they weigh", Kind.SHARE),
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
        why(lambda one: "" if one.injuries is not None else "not known for this team"),
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
        Group("baseline", of("baseline"), BASELINE, "what its injuries rest on"),
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
PERCENTILES = (
    Field("median", "median", Kind.TENTHS),
    Field("p80", "80 % are within", Kind.TENTHS),
    Field("p95", "95 % are within", Kind.TENTHS),
)


def _why_plan(plan: PlanAhead) -> str:
    known = (plan.printers, plan.printer_hours, plan.capacity, plan.made, plan.served, plan.ahead)
    figures = (plan.total, plan.per_game_kept, plan.fees.setup, plan.fees.monthly)
    reason = plan.why or "not asked for, not part of this plan, or too few records tell it"
    made = plan.made
    times = () if made is None else (
        made.wait_days, made.turnaround_days, made.ready_at_start,
        made.queue.grows_from, made.queue.clears_in,
    )  # fmt: skip
    served = () if plan.served is None else (
        plan.served.orders, plan.served.median, plan.served.p80, plan.served.ready,
    )  # fmt: skip
    kept = None if plan.ahead is None else plan.ahead.games_kept
    return reason if None in (*known, *figures, *times, *served, kept, plan.fees.per_print) else ""


_SPREAD = tuple(replace(one, heading=None) for one in SPREAD)
PLANS = Table(
    "plans",
    of("plans"),
    (
        Field("plan", "how the department gets its prints", get=of("way.value")),
        Field("is_given", "whether its number was given, else proposed"),
        Field("printers", "printers in the building"),
        Field("printer_hours", "hours a week each may print"),
        Field("capacity", "prints it can make in a week"),
        Group("busiest", of("busiest"), _SPREAD, "printer hours or prints of the busiest week"),
        Field("queue_grows_from", "first week in which more wait", get=of("made.queue.grows_from")),
        Field("queue_longest", "prints that wait at most", get=of("made.queue.longest")),
        Field("queue_clears_in", "week in which none waits again", get=of("made.queue.clears_in")),
        Field("queue_left_over", "waiting at the end", get=of("made.queue.left_over")),
        Group("wait_days", of("made.wait_days"), PERCENTILES, "wait of a first guard, days"),
        Group("turnaround_days", of("made.turnaround_days"), PERCENTILES, "requested to fitted"),
        Field("ready_at_start", "share fitted before the season", get=of("made.ready_at_start")),
        Field("served_departments", "departments on it", get=of("served.departments")),
        Field("served_orders", "their orders", get=of("served.orders")),
        Field("served_median_days", "their median, requested to fitted", get=of("served.median")),
        Field("served_p80_days", "80 % of theirs are within", get=of("served.p80")),
        Field("served_ready", "share of theirs ready for the next game", get=of("served.ready")),
        Field("guarded_share", "share of exposures guarded", Kind.SHARE),
        Group("games_kept", of("ahead.games_kept"), _SPREAD, "games kept"),
        Field("setup", "fee at the start", get=of("fees.setup")),
        Field("monthly", "fee a month", get=of("fees.monthly")),
        Field("per_print", "fee a print", get=of("fees.per_print")),
        Field("currency", "of the fees", get=of("fees.currency")),
        Field("months", "months that are paid for", Kind.COUNT),
        Group("total", of("total"), _SPREAD, "all fees of the season"),
        Group("per_game_kept", of("per_game_kept"), _SPREAD, "fees for a game kept"),
        why(_why_plan),
    ),
    "one of the two plans",
)
