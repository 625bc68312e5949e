"""The Return answer described: every figure once, for text, JSON, CSV and pages."""

from collections.abc import Iterator
from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import estimate, interval
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.report import Report
from seasonboard.answers.returns.out_now import alike_words, return_guard_words
from seasonboard.answers.returns.parts import STATES, Contrast, ReturnsAnswer, StateRow
from seasonboard.answers.returns.words import NOT_SAYABLE, verdict_words
from seasonboard.answers.row_fields import usual

SHOWN = {"games": (0, 1, 2, 3, 5, 8, 12, 16), "days": (7, 14, 28, 56, 84)}
"""The ticks of each clock that people read; files have every one at which something happened."""


def _count(name: str, meaning: str, heading: str | None = None) -> Field:
    return Field(name, meaning, Kind.COUNT, heading=heading)


def _day(name: str, meaning: str, heading: str | None = None) -> Field:
    return Field(name, meaning, Kind.DAY, heading=heading, optional=True)


_TIME = words.time_words
WAITS = Table.described(
    "waits",
    "a part of the way from the injury to the first game in a return guard",
    Field("name", "which part", heading="from … to"),
    Field("unit", "days or games", heading="in"),
    _count("begun", "that began", "begun"),
    _count("ended", "that ended", "ended"),
    _count("still_open", "still open, censored at their age", "open"),
    _count("called_off", "called off", "called off"),
    estimate("median", of("median"), "half within", kind=Kind.DURATION),
    estimate("p80", of("p80"), "four in five within", kind=Kind.DURATION),
    for_people("half", "half within", lambda one: _TIME(one.median)),
    for_people("most", "four in five", lambda one: _TIME(one.p80)),
)


def _share(place: int) -> tuple[Field, ...]:
    state = STATES[place].replace(" ", "_")

    def at(name: str) -> "Field":
        return Field(
            f"{state}_{name}" if name != "share" else state,
            f"share {STATES[place]}" if name == "share" else f"{name} of the share {STATES[place]}",
            Kind.SHARE,
            get=lambda row: getattr(row.point, name)[place],
            heading=STATES[place] if name == "share" else None,
            optional=True,
        )

    return (at("share"), at("std_error"), at("low"), at("high"))


_STATE_FIELDS = (
    Field("clock", "games of the team, or days, since the injury", heading="clock"),
    Field("tick", "how many", Kind.COUNT, get=of("point.tick"), heading="after"),
    *(field for place in range(len(STATES)) for field in _share(place)),
    Field(
        "followed",
        "followed at that tick",
        Kind.COUNT,
        lambda row: sum(row.point.at_risk),
        "followed",
    ),
)
STATES_TABLE = Table(
    "states", of("states"), _STATE_FIELDS, "the shares in each state at a tick of a clock"
)


def shown_states(answer: ReturnsAnswer) -> Iterator[StateRow]:
    """Return the shares after the ticks that people read, as they were at the last change."""
    for clock, ticks in SHOWN.items():
        own = [row for row in answer.states if row.clock == clock]
        for tick in ticks:
            known = [row for row in own if row.point.tick <= tick]
            if known and own[-1].point.tick >= tick:
                yield replace(known[-1], point=replace(known[-1].point, tick=tick))


def ratio_words(one: Contrast) -> str:
    """Return the ratio with its limits."""
    limits = words.interval(one.ratio.low, one.ratio.high)
    return f"{words.ratio(one.ratio.value)} ({limits})"


STATES_READ = replace(STATES_TABLE, name="states_read", rows=shown_states)
CONTRASTS = Table.described(
    "contrasts",
    "guarded against bare: back, or hurt again",
    Field("name", "back or again", heading="guarded against bare"),
    Field("verdict", "by the rules of Compare", get=verdict_words, heading="verdict"),
    estimate(
        *("ratio", of("ratio"), "guarded over bare, within strata"),
        kind=Kind.RATIO,
        more=(
            _count("injuries_guarded", "returns or injuries with a guard", "guarded"),
            _count("injuries_unguarded", "returns or injuries without one", "bare"),
            _count(
                "exposures_guarded", "days out, or exposures, with a guard", "days or exposures"
            ),
            _count("exposures_unguarded", "days out, or exposures, without one", "of bare"),
            _count("informative_injuries", "that inform the ratio", "informing"),
            Field("p", "two-sided p of no difference", Kind.THOUSANDTHS, optional=True),
        ),
    ),
    for_people("limits", "ratio", ratio_words),
)


def _rate(name: str, heading: str) -> Group:
    return Group(
        name,
        of(name),
        (
            _count("injuries", "to the same site", f"{heading} hurt"),
            _count("exposures", "of the site in that time", f"{heading} exposures"),
            Field("value", "per 1000 exposures", Kind.HUNDREDTHS, heading=f"{heading} per 1000"),
            *interval(Kind.HUNDREDTHS),
            why(of("why")),
        ),
    )


RECURRENCES = Table.described(
    "recurrences",
    "recurrences by the time since the return",
    Field("name", "early (2 months), late (12 months) or delayed", heading="recurrence"),
    *(_rate("guarded", "guarded"), _rate("bare", "bare")),
)
GAMES_WORN = Table.described(
    "games_worn",
    "a department's games in a return guard",
    *usual("department"),
    *(_count("games", "played in one", "games"), _count("athletes", "who did", "athletes")),
    _count("guards", "worn in them", "guards"),
)
FACTS = (
    _count("alike", "like injuries that lasted as long"),
    _day("early_on", "a quarter of these were over by the day that would be this"),
    _day("half_on", "half of them"),
    _day("late_on", "three quarters of them"),
    why(of("why")),
    Field("stage", "of the return guard, or that none is asked for"),
    Field("chance_by_next_game", "to be fitted by then", Kind.SHARE, of("chance"), optional=True),
    Field("is_least", "whether that is a lower bound", Kind.FLAG),
    _day("game_on", "day of the team's next game"),
    Field("next_step", "what the guard waits for", optional=True),
)
"""What is told of somebody out now beside the injury, here and on Roster."""
OUT_NOW = Table.described(
    "out_now",
    "an athlete out now; no return is predicted",
    *usual("name", "team", "area", "side"),
    _count("day", "days since the injury", "day"),
    for_people("like_injuries", "like injuries were over", alike_words),
    for_people("return_guard", "return guard", return_guard_words),
    _day("occurred_on", "day of the injury"),
    *FACTS,
    *usual("injury", "athlete", "department"),
    replace(usual("guard")[0], optional=True),
    reading=("name", "team", "area", "side", "day", "like_injuries", "return_guard"),
)
EPISODES = Table.described(
    "episodes",
    "an injury that cost time at a site guards can cover",
    *usual("injury", "athlete", "name", "team", "department", "area", "side"),
    *(
        _day("occurred_on", "day of the injury", "hurt"),
        _day("returned_on", "of the return", "back"),
    ),
    _count("days_lost", "full days out; so far, while open", "days out"),
    _count("games_missed", "the team's games while out", "games missed"),
    Field("back_in", "in the first session after: guarded, bare or not known", heading="back in"),
    replace(usual("guard")[0], optional=True),
    _day("requested_on", "day the first return guard was asked for", "asked for"),
    _day("fitted_on", "day it was fitted", "fitted"),
    _day("called_off_on", "day it was called off", None),
    _day("game_on", "first game it was worn in", "first game"),
    _day("again_on", "day the site was hurt again", "hurt again"),
)
STRATA = Table.described(
    "strata",
    "a stratum after the return",
    *usual("area"),
    Field("days_out", "days out up to the return", heading="days out"),
    Field("setting", "game or practice", heading="setting"),
    _count("fortnight", "fortnights since the return", "fortnight"),
    Field("recurrence", "early, late or delayed", heading="recurrence"),
    _count("injuries_guarded", "hurt in a return guard", "guarded hurt"),
    _count("exposures_guarded", "exposures in one", "of"),
    _count("injuries_unguarded", "hurt bare", "bare hurt"),
    _count("exposures_unguarded", "exposures bare", "of bare"),
    _count("not_counted", "exposures in neither", "in neither"),
)
DAYS = Table.described(
    "days",
    "a day out of one body area",
    *usual("area"),
    _count("day", "days since the injury", "day out"),
    _count("injuries_guarded", "back that day with a return guard in hand", "back guarded"),
    _count("exposures_guarded", "out until then, with one in hand", "of"),
    _count("injuries_unguarded", "back that day without one", "back bare"),
    _count("exposures_unguarded", "out until then, without one", "of bare"),
)
TABLES = {
    one.name: one
    for one in (
        OUT_NOW,
        WAITS,
        STATES_READ,
        CONTRASTS,
        RECURRENCES,
        GAMES_WORN,
        EPISODES,
        STRATA,
        DAYS,
    )
}
"""Every table that a screen can open, by its name."""

REPORT = Report(
    (
        *(_count("injuries", "that cost time"), _count("back", "with a return known")),
        *(_count("out", "still out"), _count("again", "hurt there again within the season")),
        estimate("asked", of("asked"), "share with a return guard asked for", kind=Kind.SHARE),
        estimate("in_time", of("in_time"), "of fitted ones, by the day of return", kind=Kind.SHARE),
        *(WAITS, STATES_TABLE, CONTRASTS, RECURRENCES, GAMES_WORN),
        Field("sayable", "what may be said of it: a count"),
        Field("not_sayable", "what may not", get=lambda _: NOT_SAYABLE),
        *(OUT_NOW, STRATA, DAYS, EPISODES),
    ),
    csv=EPISODES,
    text=(
        lambda answer: "Out now, a count of like injuries:" if answer.out_now else "",
        *(OUT_NOW, WAITS, STATES_READ, CONTRASTS, RECURRENCES, GAMES_WORN),
        lambda answer: f"May be said: {answer.sayable}",
        lambda _: f"May not be said: {NOT_SAYABLE}",
    ),
)
"""Return: how soon are hurt athletes back, and in what guard?"""
