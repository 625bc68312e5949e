"""The curves of the Games answer described, tick by tick."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any, NamedTuple

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, of, why
from seasonboard.answers.games.parts import GamesAnswer
from seasonboard.answers.games.words import clock_word
from seasonboard.stats.survival import CurvePoint

BEFORE_START = "before the curve's start: too few at risk"
_NO_ONE_LEFT = "nobody is left uninjured"


class OfGroup(NamedTuple):
    """A point of a curve, with the name of its group, and of what ended follow-up."""

    group: str
    point: Any
    cause: str = ""


class TickPair(NamedTuple):
    """One tick of both curves that are compared."""

    tick: int
    guarded: CurvePoint
    bare: CurvePoint


def uninjured(point: CurvePoint) -> str:
    """Return the share still uninjured: `99.1 %`."""
    return "–" if point.survival is None else words.percent(point.survival, digits=1)


def _why_no_share(point: CurvePoint) -> str:
    if point.survival is None:
        return BEFORE_START
    return _NO_ONE_LEFT if point.std_error is None else ""


GROUP = Field("group", "guarded or unguarded")
TICK = Field("tick", "games, sessions, plays or minutes counted so far", Kind.COUNT)
AT_RISK = Field("at_risk", "at risk at this tick", Kind.COUNT, heading="at risk")
STD_ERROR = Field("std_error", "its standard error", Kind.THOUSANDTHS)
_HURT = Field("injuries", "injured at this tick", Kind.COUNT, heading="hurt")
_SURVIVAL = Field(
    "survival",
    "share still uninjured after this tick",
    Kind.SHARE,
    heading="uninjured",
    show=uninjured,
)
_COUNTS = (
    _HURT,
    Field("entered", "of them not at risk the tick before", Kind.COUNT, heading="in"),
    Field("left", "uninjured, not at risk the next tick", Kind.COUNT, heading="left"),
    _SURVIVAL,
)
_POINT: tuple[Element, ...] = (
    *(TICK, AT_RISK, *_COUNTS, STD_ERROR, *interval(Kind.SHARE)),
    Field("thin", "whether fewer are at risk than asked for", Kind.FLAG),
    why(_why_no_share),
)
CURVE = Table(
    "curve",
    of("curve.points"),
    _POINT,
    "a tick at which someone was at risk (of plays and minutes, if somebody came or went); an "
    "injury counts in the row of its tick",
)
CURVES = Table(
    "curves",
    lambda answer: [OfGroup(one.name, p) for one in answer.groups for p in one.curve.points],
    (GROUP, Group("", of("point"), _POINT)),
    "a tick of one group's curve, as played",
)


def tick_pairs(answer: GamesAnswer) -> list[TickPair]:
    """Return every tick at which somebody was at risk, with both curves that are compared."""
    guarded, bare = ({p.tick: p for p in one.compared.points} for one in answer.groups)
    return [
        TickPair(tick, guarded.get(tick) or _nobody(tick), bare.get(tick) or _nobody(tick))
        for tick in sorted({*guarded, *bare})
    ]


def _nobody(tick: int) -> CurvePoint:
    return CurvePoint(tick, *(0, 0, 0, 0), *(None, None, None, None), thin=True)


def _tick_table(rows: Callable[[GamesAnswer], list[TickPair]]) -> Table:
    sides = [
        Group(side, of(side), (replace(AT_RISK, heading=side), *_COUNTS))
        for side in ("guarded", "bare")
    ]
    reading = [
        f"{side.name}.{name}" for side in sides for name in ("at_risk", "injuries", "survival")
    ]
    tick = replace(TICK, heading=clock_word)
    return Table(
        "ticks", rows, (tick, *sides), "a tick of both curves, as played", ("tick", *reading)
    )


TICKS = _tick_table(tick_pairs)
TICKS_WITH_INJURY = _tick_table(
    lambda answer: [row for row in tick_pairs(answer) if row.guarded.injuries or row.bare.injuries]
)


def _mixed_points(answer: GamesAnswer) -> list[OfGroup] | None:
    mix = answer.one_mix
    if mix.why:
        return None
    sides = (("guarded", mix.guarded), ("unguarded", mix.unguarded))
    return [OfGroup(name, point) for name, points in sides for point in points]


_MIXED_POINT: tuple[Element, ...] = (
    *(TICK, AT_RISK, _HURT, _SURVIVAL, STD_ERROR, *interval(Kind.SHARE)),
    why(lambda point: _NO_ONE_LEFT if point.std_error is None else ""),
)
MIXED_CURVES = Table(
    "curves",
    _mixed_points,
    (GROUP, Group("", of("point"), _MIXED_POINT)),
    "a tick of one group's curve at one mix of athletes",
)


PER_GAME = Table(
    "per_game",
    of("per_game"),
    (
        Field("sport", "of the team", heading="sport"),
        Field("sex", "of the team", heading="sex"),
        Field("position_group", "as on the roster", heading="position group", optional=True),
        Field("games", "athletes' games", Kind.COUNT, heading="games"),
        Field("with_plays", "of them, with plays recorded", Kind.COUNT, heading="with plays"),
        Field("plays", "mean plays of these", Kind.TENTHS, heading="plays", optional=True),
        Field("with_minutes", "of them, with minutes recorded", Kind.COUNT, heading="with minutes"),
        Field("minutes", "mean minutes of these", Kind.TENTHS, heading="minutes", optional=True),
        why(
            lambda game: (
                ""
                if None not in (game.position_group, game.plays, game.minutes)
                else "not recorded"
            )
        ),
    ),
    "an athlete's game of one sport, sex and position group, on the clocks of plays and minutes",
    optional=True,
)


def _ever_never_points(answer: GamesAnswer) -> list[OfGroup] | None:
    tally = answer.ever_never
    if tally is None:
        return None
    sides = (("ever guarded", tally.ever), ("never guarded", tally.never))
    return [OfGroup(name, point) for name, curve in sides for point in curve.points]


EVER_NEVER = Table(
    "misleading_ever_never",
    _ever_never_points,
    (GROUP, Group("", of("point"), (TICK, AT_RISK, replace(_SURVIVAL, optional=True)))),
    "a tick of the misleading tally, with --naive: not to be quoted",
    optional=True,
)
