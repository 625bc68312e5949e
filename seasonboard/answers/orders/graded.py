"""The forecasts graded: what would have been told on past days, beside what came."""

from dataclasses import dataclass
from datetime import date

import numpy as np
import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.forecast import (
    STAGES,
    Histories,
    fingerprint,
    forecaster_of,
    histories_of,
)
from seasonboard.stats.forecast_grading import Floats, Grading, drift, grading
from seasonboard.stats.stage_forecast import forecasts
from seasonboard.stats.stage_model import Ints

EVERY, MOST_DAYS = 8, 40
"""Days between the days on which the past is asked, so that all weekdays come; so many at most."""
LATELY = 28
"""Days of which drift is told."""
_FAR = 2.0
_FEW = 10
"""A share of fewer forecasts than this is not put into words."""


@dataclass(frozen=True, slots=True)
class PastForecasts:
    """Forecasts of past days as columns: chance, whether it came (1 or 0), stage, day asked.

    `bounds` counts lower bounds, `called_off` orders that were called off before the game; neither
    is graded.
    """

    told: Floats
    came: Floats
    stage: Ints
    day: Ints
    bounds: int
    called_off: int


@dataclass(frozen=True, slots=True)
class StageGrading:
    """The grade of forecasts made in one stage."""

    stage: str
    grading: Grading


@dataclass(frozen=True, slots=True)
class Graded:
    """The grade of all forecasts of the store's past, by stage too, and their drift of late.

    `drift` is by how many standard errors more came than was told in the last days.
    """

    all: Grading
    stages: tuple[StageGrading, ...]
    drift: float
    bounds: int
    called_off: int

    @property
    def sentence(self) -> str:
        """Return the grade in words."""
        if not self.all.forecasts:
            return "How forecasts came out cannot be told yet: no game was played since the first."
        group = max(self.all.groups[1:-1], key=lambda one: one.forecasts)
        text = f"Rewound over the past, {words.plural(self.all.forecasts, 'forecast')}."
        if group.forecasts >= _FEW and group.came is not None:
            low, high = round(group.low * 100), round(group.high * 100)
            text += (
                f" Of those told {low} to {high} %, {words.percent(group.came)} came "
                f"({words.whole(group.forecasts)})."
            )
        if abs(self.drift) > _FAR:
            more = "more" if self.drift > 0 else "fewer"
            text += f" In the last {LATELY} days {more} came than was told."
        return text


def graded(histories: pl.DataFrame, games: pl.DataFrame, until: date) -> Graded:
    """Return the grade of the forecasts that would have been told every eighth day before a day.

    Each is made from what was known on its day alone, for the team's next game then; games that
    are not played yet are not looked at.

    Args:
        histories: Rows of `orders/histories`.
        games: Rows of `orders/games`.
        until: First day not yet known.
    """
    today = (until - date(1970, 1, 1)).days
    key = (fingerprint(histories), fingerprint(games), today)
    if key not in _KEPT:
        days = games["played_on"].to_physical().to_numpy().astype(np.int64)
        ahead = NextGames.of(games["team"].to_list(), days + games["day_share"].to_numpy())
        _KEPT[key] = _grade(past_forecasts(histories_of(histories), ahead, today), today)
        while len(_KEPT) > _MOST:
            _KEPT.pop(next(iter(_KEPT)))
    return _KEPT[key]


_KEPT: dict[tuple[bytes, bytes, int], Graded] = {}
"""The past does not change between two looks: grades by all they are made from."""
_MOST = 8


@dataclass(frozen=True, slots=True)
class NextGames:
    """When each team played, in days since 1970 with their parts, by team and rising."""

    team: Ints
    at: Floats
    names: dict[str, int]

    @classmethod
    def of(cls, teams: list[str], at: Floats) -> "NextGames":
        """Return them from columns in any order."""
        names = {name: number for number, name in enumerate(sorted(set(teams)))}
        team = np.array([names[name] for name in teams], dtype=np.int64)
        order = np.lexsort((at, team))
        return cls(team[order], at[order], names)

    def after(self, teams: Ints, day: int) -> Floats:
        """Return each team's first game on or after a day; infinity without one."""
        code = self.team * 1e6 + self.at
        at = np.searchsorted(code, teams * 1e6 + day)
        inside = np.minimum(at, max(len(code) - 1, 0))
        if not len(code):
            return np.full(len(teams), np.inf)
        is_own = (at < len(code)) & (self.team[inside] == teams)
        return np.where(is_own, self.at[inside], np.inf)


def past_forecasts(
    orders: Histories, games: NextGames, today: int, every: int = EVERY
) -> PastForecasts:
    """Return what would have been told every so many days before `today`, and what came."""
    begun = np.where(orders.reached >= 0, orders.reached, np.iinfo(np.int64).max).min(axis=1)
    fitted = np.where(orders.reached[:, -1] >= 0, orders.reached[:, -1], np.inf)
    passed = np.where(np.isnan(orders.fitted_share), 0.5, orders.fitted_share)
    fitted_at = fitted + passed
    over = np.where(orders.over >= 0, orders.over, np.inf)
    team = np.array([games.names.get(name, -1) for name in orders.team], dtype=np.int64)
    columns: list[tuple[Floats, ...]] = []
    bounds = called_off = 0
    first = int(begun.min()) if len(begun) else today
    for day in range(today - every, first, -every)[:MOST_DAYS]:
        game = games.after(team, day)
        asked = (begun < day) & (fitted >= day) & (over >= day) & (game < today)
        is_off = asked & (over < np.floor(game))
        called_off += int(is_off.sum())
        rows = np.flatnonzero(asked & ~is_off)
        if not len(rows):
            continue
        chance, is_least, stage = _chances_then(orders.known_by(day), rows, game[rows], day)
        bounds += int(is_least.sum())
        came = (fitted_at[rows] < game[rows]).astype(float)
        kept = ~is_least
        columns.append((chance[kept], came[kept], stage[kept], np.full(kept.sum(), day)))
    if not columns:
        none = np.zeros(0)
        return PastForecasts(none, none, none.astype(int), none.astype(int), bounds, called_off)
    told, came, stage, day_asked = map(np.concatenate, zip(*columns, strict=True))
    return PastForecasts(told, came, stage, day_asked, bounds, called_off)


def _chances_then(
    known: Histories, rows: Ints, game: Floats, day: int
) -> tuple[Floats, np.ndarray, Ints]:
    tells = forecaster_of(known, day)
    reached = known.reached[rows]
    stage = np.where(reached >= 0, np.arange(len(STAGES)), -1).max(axis=1)
    since = reached[np.arange(len(rows)), stage]
    by = np.floor(game).astype(np.int64)
    groups = [known.groups[number] for number in known.group[rows]]
    waiting = tells.waiting(stage, since, by, game - by, groups)
    told = forecasts(tells.model, waiting, tells.is_open)
    return np.clip(told.chance, 0, 1), told.is_least, stage


def _grade(past: PastForecasts, today: int) -> Graded:
    lately = past.day >= today - LATELY
    stages = tuple(
        StageGrading(name, grading(past.told[rows], past.came[rows]))
        for number, name in enumerate(STAGES[:-1])
        if (rows := past.stage == number).any()
    )
    return Graded(
        grading(past.told, past.came),
        stages,
        drift(past.told[lately], past.came[lately]),
        past.bounds,
        past.called_off,
    )
