"""How follow-up ends, in the Games answer, and repeat injuries, described."""

from collections.abc import Callable, Sequence
from typing import NamedTuple, TypeVar

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.games.curve_tables import (
    AT_RISK,
    BEFORE_START,
    GROUP,
    STD_ERROR,
    TICK,
    OfGroup,
)
from seasonboard.answers.games.parts import GamesAnswer
from seasonboard.stats.competing import SharePoint
from seasonboard.stats.recurrent import MeanPoint

PointT = TypeVar("PointT")

_Cause = tuple[str, Sequence[SharePoint], Sequence[SharePoint]]
_NO_SPREAD = "no injury yet, or no spread between athletes"


class Ended(NamedTuple):
    """How much of follow-up had ended so in both groups, or what it had brought."""

    what: str
    guarded: SharePoint | MeanPoint | None
    bare: SharePoint | MeanPoint | None


def _share(point: SharePoint | MeanPoint) -> float | None:
    return point.mean if isinstance(point, MeanPoint) else point.share


def _share_words(point: SharePoint | MeanPoint) -> str:
    if isinstance(point, MeanPoint):
        return words.number(point.mean, digits=3)
    return "–" if point.share is None else words.percent(point.share, digits=1)


def _share_interval(point: SharePoint) -> str:
    if point.low is None or point.high is None:
        return "no limits"
    return f"{words.number(point.low * 100, digits=1)}–{words.number(point.high * 100, digits=1)}"


def _level(answer: GamesAnswer) -> str:
    return words.level_words(answer.summary.scope)


def _ends_table(rows: Callable[[GamesAnswer], list[Ended]]) -> Table:
    sides = (
        Group(
            *(name, of(name)),
            (
                Field("share", "share of sites", Kind.SHARE, _share, name, show=_share_words),
                for_people("interval", _level, _share_interval, Kind.SHARE),
            ),
        )
        for name in ("guarded", "bare")
    )
    what = Field("what", "what ended it", heading="by the last tick")
    reading = ("what", "guarded.share", "bare.share")
    return Table("ends", rows, (what, *sides), "what can end follow-up", reading)


def _causes(answer: GamesAnswer) -> list[_Cause]:
    causes = zip(*(of_group.causes for of_group in answer.incidence), strict=True)
    return [(one.cause, one.points, other.points) for one, other in causes]


def _at_the_last_tick(answer: GamesAnswer) -> list[Ended]:
    ends = [Ended(cause, last(one), last(other)) for cause, one, other in _causes(answer)]
    means = (last(of_group.points) for of_group in answer.repeats)
    return [*ends, Ended("injuries per site, repeats counted", *means)]


def last(points: Sequence[PointT]) -> PointT | None:
    """Return the last of some points; None without any."""
    return points[-1] if points else None


def by_the_horizon(answer: GamesAnswer) -> list[Ended]:
    """Return what each cause had ended by the horizon, and last those free of all of them."""
    guarded, bare = answer.incidence
    free = ("none of these yet", guarded.survival, bare.survival)
    return [
        Ended(what, _last_with_share(one, answer.horizon), _last_with_share(other, answer.horizon))
        for what, one, other in (*_causes(answer), free)
    ]


def _last_with_share(points: Sequence[SharePoint], horizon: int | None) -> SharePoint | None:
    """Return the last point up to the horizon that has a share."""
    shares = [p for p in points if p.share is not None and (horizon is None or p.tick <= horizon)]
    return last(shares)


ENDS = _ends_table(by_the_horizon)
LAST_ENDS = _ends_table(_at_the_last_tick)


def _why_no_mean(row: OfGroup) -> str:
    if row.point.mean is None:
        return BEFORE_START
    return _NO_SPREAD if row.point.std_error is None else ""


REPEATS = Table(
    "mean_cumulative",
    lambda answer: [
        OfGroup(group.name, point)
        for group, repeats in zip(answer.groups, answer.repeats, strict=True)
        for point in repeats.points
    ],
    (
        GROUP,
        Group(
            "",
            of("point"),
            (
                TICK,
                AT_RISK,
                Field("injuries", "injuries at this tick", Kind.COUNT, get=of("events")),
                Field("mean", "mean injuries per site so far", Kind.THOUSANDTHS),
                STD_ERROR,
                *interval(Kind.THOUSANDTHS),
            ),
        ),
        why(_why_no_mean),
    ),
    "a tick: mean injuries of one group, repeats counted",
)
INCIDENCE = Table(
    "cumulative_incidence",
    lambda answer: [
        OfGroup(group.name, point, curve.cause)
        for group, incidence in zip(answer.groups, answer.incidence, strict=True)
        for curve in incidence.causes
        for point in curve.points
    ],
    (
        GROUP,
        Field("tick", "games, or sessions, counted so far", Kind.COUNT, get=of("point.tick")),
        Field("cause", "what ended follow-up"),
        Field("share", "share of sites that it has ended", Kind.SHARE, get=of("point.share")),
        why(lambda row: BEFORE_START if row.point.share is None else ""),
    ),
    "a tick: the share of one group that one cause has ended",
)
