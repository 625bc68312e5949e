"""Availability described: states, days lost, burden and rates, for JSON and in sentences."""

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, of, why
from seasonboard.answers.layout import prose
from seasonboard.answers.roster.availability import AvailabilityTotal, PartRate
from seasonboard.answers.roster.parts import RosterAnswer
from seasonboard.answers.severity_fields import SEVERITY, severity_words
from seasonboard.stats.days_lost import Burden

_STATES = tuple(
    Field(name, meaning, Kind.COUNT)
    for name, meaning in (
        ("rostered", "athletes on the roster that day"),
        ("full", "of them in full part"),
        ("limited_health", "limited through injury or illness"),
        ("limited_other", "limited for another reason"),
        ("limited_unknown", "limited without a reason recorded"),
        ("out_injury", "out through injury"),
        ("out_illness", "out through illness"),
        ("out_other", "out for another reason"),
        ("out_unknown", "out without a reason recorded"),
        ("not_recorded", "not recorded"),
        ("available", "not out or limited through injury or illness"),
        ("recorded", "those whose state can be told"),
    )
)
_SHARE = (Field("share", "available of recorded, 0 to 1", Kind.SHARE), why(of("why")))

_SESSIONS = Table(
    "sessions",
    of("sessions"),
    (
        Field("session", "key of the session"),
        Field("team", "key of the team"),
        Field("season", "season of the team"),
        Field("starts_at", "its start", Kind.INSTANT),
        Field("played_on", "its day in the department", Kind.DAY),
        Field("setting", "game or practice"),
        Field("season_part", "part of the season", optional=True),
        Field("label", "its label", privacy=Privacy.FREE_TEXT, optional=True),
        *_STATES,
        *_SHARE,
    ),
    "a session, and who of the roster could take part",
)

_TOTALS = Table(
    "totals",
    of("totals"),
    (
        Field("setting", "all, game or practice"),
        Field("sessions", "sessions of that setting", Kind.COUNT),
        *_STATES,
        Field("exposures", "athletes' sessions in full or limited", Kind.COUNT),
        *_SHARE,
    ),
    "the same, summed over sessions",
)


_BURDEN = (
    Field("days", "days lost by injuries in sessions", Kind.COUNT),
    Field("exposures", "athlete-exposures", Kind.COUNT),
    Field("per_1000", "days lost per 1000 athlete-exposures", Kind.TENTHS),
    Field("is_lower_bound", "whether some injuries are open", Kind.FLAG),
    why(of("why")),
)

_RATE = (
    Field("injuries", "injuries in sessions", Kind.COUNT),
    Field("exposures", "athlete-exposures", Kind.COUNT),
    estimate(
        *("rate", lambda rate: rate, "injuries per 1000 athlete-exposures"),
        is_flat=True,
        more=(Field("level", "level of the confidence interval", Kind.SHARE),),
    ),
)

_BY_PART = Table(
    "by_season_part",
    of("by_part"),
    (
        Field("season_part", "part of the season, or not recorded"),
        Group("any", of("any_injury"), _RATE, "every injury"),
        Group("time_loss", of("time_loss"), _RATE, "injuries with a day lost or open"),
    ),
    "injury rates of a part of the season",
)

AVAILABILITY = Group(
    "availability",
    of("availability"),
    (
        _SESSIONS,
        _TOTALS,
        Field("roster_days", "days of athletes on the roster", Kind.COUNT),
        Field("unavailable_days", "of them lost to injury", Kind.COUNT),
        Group("severity", of("severity"), SEVERITY, "days lost by injuries"),
        Group("burden", of("burden"), _BURDEN, "days lost over exposures"),
        _BY_PART,
    ),
    "who could take part, and what injuries cost",
)


def availability_lines(answer: RosterAnswer) -> list[str]:
    """Return availability, days lost, burden and rates, a sentence each."""
    availability = answer.availability
    texts = [_total_words(total) for total in availability.totals if total.sessions]
    if availability.severity.injuries:
        texts += [severity_words(availability.severity), *_burden_words(availability.burden)]
        days = (availability.unavailable_days, availability.roster_days)
        lost, of_days = map(words.whole, days)
        texts.append(
            f"Roster days lost to injury: {lost} of {of_days}, a day of overlapping injuries "
            "counted once."
        )
        texts += map(_rate_words, availability.by_part)
    else:
        texts.append("No injury of this roster is recorded in these seasons.")
    return [line for text in texts for line in prose(text, hang="  ")]


def _total_words(total: AvailabilityTotal) -> str:
    name = {"all": "All sessions", "game": "Games", "practice": "Practices"}[total.setting]
    if total.share is None:
        return f"{name}: {total.why}."
    return (
        f"{name}: {words.percent(total.share)} available "
        f"({words.whole(total.available)} of {words.whole(total.recorded)} recorded, "
        f"{words.whole(total.unknown)} not known); {words.whole(total.out_injury)} out through "
        f"injury, {words.whole(total.out_illness)} through illness, "
        f"{words.whole(total.out_other)} for other reasons."
    )


def _burden_words(burden: Burden) -> list[str]:
    if burden.per_1000 is None:
        return []
    least = "at least " if burden.is_lower_bound else ""
    days = words.number(burden.per_1000, digits=1)
    return [f"Burden: {least}{days} days lost per 1000 athlete-exposures."]


def _rate_words(part: PartRate) -> str:
    rate = part.any_injury
    return (
        f"{part.season_part}: {words.plural(rate.injuries, 'injury', 'injuries')} in "
        f"{words.whole(rate.exposures)} athlete-exposures, {words.number(rate.value)} per 1000 "
        f"({words.number(rate.low)} to {words.number(rate.high)})."
    )
