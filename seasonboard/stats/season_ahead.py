"""One season ahead, simulated: injuries without and with guards, and what that keeps.

A season without guards is drawn; the same season is then looked at with guards. Each injury falls
on a guarded exposure with the share of exposures that would be guarded, and of those a share of
1 − ratio does not happen; with a ratio above 1 further injuries happen instead. So the two seasons
differ by nothing but the guard.

What is not known goes into every range: chance (Poisson), how often each team is hurt (gamma, in
part the same for all teams of a department), how much is guarded, the ratio (log-normal, from its
limits), and how long athletes are out.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from seasonboard.stats.absence_duration import AbsenceLaw, Floats, draw_absences

OUT_DIFFERS = 0.15
"""By how much departments differ in how long athletes are out: standard deviation of logarithms.

Assumed, without a source.
"""
ALPHA = 0.05
"""A difference is visible where the exact two-sided p is at most this."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One team: injuries expected without guards, how surely, its games, how long athletes are out.

    The rate is gamma about what is expected, as sure as `shape` injuries (0: taken as it is);
    `shared` (0 to 1) is the part of its variance that all teams have in common. Days out are `out`
    times those of the law.
    """

    expected: float
    shape: float
    shared: float
    games: float
    out: float = 1.0


@dataclass(frozen=True, slots=True)
class RatioLaw:
    """The rate ratio guarded / bare, log-normal about `ratio`."""

    ratio: float
    std_error: float


@dataclass(frozen=True, slots=True)
class Chances:
    """What may come: the share of exposures guarded in each season, the ratio, the days out.

    `in_sessions` is the share of injuries on which a guard can act. Without a ratio no effect has
    been shown, without a law too few injuries tell how long athletes are out.
    """

    guarded: Floats
    in_sessions: float
    ratio: RatioLaw | None
    absence: AbsenceLaw | None


@dataclass(frozen=True, slots=True)
class Spread:
    """Where a number lies over the simulated seasons: median, mean, and two ranges."""

    median: float
    mean: float
    low_80: float
    high_80: float
    low_95: float
    high_95: float

    def times(self, factor: float) -> "Spread":
        """Return the spread of the number times a factor of 0 or more."""
        return Spread(*(getattr(self, name) * factor for name in self.__slots__))


@dataclass(frozen=True, slots=True)
class Visible:
    """The chance that one season shows a difference, and which: fewer or more with guards."""

    chance: float
    fewer: float
    more: float


@dataclass(frozen=True, slots=True)
class SeasonAhead:
    """What the simulated seasons hold; None where it cannot be told.

    Without a ratio only `injuries`, `games_missed` and `days_lost` (all without guards) are known;
    without a law of absences nothing in games or days is. `games_kept_each` is one figure a season.
    """

    seasons: int
    injuries: Spread
    games_missed: Spread | None
    days_lost: Spread | None
    injuries_with: Spread | None = None
    averted: Spread | None = None
    games_missed_with: Spread | None = None
    games_kept: Spread | None = None
    days_kept: Spread | None = None
    visible: Visible | None = None
    games_kept_each: Floats | None = field(default=None, compare=False, repr=False)


def season_ahead(
    cells: Sequence[Cell], chances: Chances, *, days_in_season: float, seed: int
) -> SeasonAhead:
    """Simulate one season ahead, as many times as `chances.guarded` is long.

    The same seed gives the same numbers.

    Raises:
        ValueError: A share, an expectation or the season is out of range, or nothing is simulated.
    """
    guarded, ratio = chances.guarded, chances.ratio
    if not len(guarded) or days_in_season <= 0 or ((guarded < 0) | (guarded > 1)).any():
        raise ValueError("give shares between 0 and 1, one a season, and a season of some days")
    if any(min(cell.expected, cell.games, cell.shape) < 0 for cell in cells):
        raise ValueError("injuries expected and games are 0 or more")
    # Each kind of chance has a stream of its own: the seasons without guards stay the same ones
    # whatever is asked about guards.
    streams = [np.random.default_rng([seed, number]) for number in range(6)]
    mean = _means(cells, len(guarded), streams[0])
    costs = _Costs(cells, chances.absence, days_in_season, _longer(chances, streams[5]))
    hurt = _Injuries(mean, streams[1], costs)
    lost = (_known_spread(hurt.games()), _known_spread(hurt.days()))
    bare = SeasonAhead(len(guarded), spread(hurt.per_season()), *lost)
    if ratio is None:
        return bare
    reached = guarded * chances.in_sessions
    theta = ratio.ratio * np.exp(ratio.std_error * streams[2].standard_normal(len(guarded)))
    place = streams[3].random(len(hurt.season))
    is_averted = place < (reached * np.maximum(1 - theta, 0))[hurt.season]
    more = _Injuries(mean * reached * np.maximum(theta - 1, 0), streams[4], costs)
    averted = hurt.per_season(is_averted) - more.per_season()
    games = _less(hurt.games(is_averted), more.games())
    on_guarded = hurt.per_season(place < reached[hurt.season])
    return replace(
        bare,
        injuries_with=spread(hurt.per_season() - averted),
        averted=spread(averted),
        games_missed_with=_known_spread(_less(hurt.games(), games)),
        games_kept=_known_spread(games),
        days_kept=_known_spread(_less(hurt.days(is_averted), more.days())),
        visible=_visible(on_guarded - averted, hurt.per_season() - on_guarded, guarded),
        games_kept_each=games,
    )


def _longer(chances: Chances, random: np.random.Generator) -> Floats:
    """Return by how much days out are longer in each season than the law says."""
    law, normal = chances.absence, random.standard_normal(len(chances.guarded))
    error = math.hypot(law.std_error / law.mean if law and law.mean else 0.0, OUT_DIFFERS)
    drawn: Floats = np.exp(error * normal - error**2 / 2)
    return drawn


def spread(values: Floats) -> Spread:
    """Return median, mean, and the ranges that hold 80 and 95 % of the values; at least one."""
    low, lower, median, upper, high = np.quantile(values, [0.025, 0.1, 0.5, 0.9, 0.975]).tolist()
    return Spread(median, float(values.mean()), lower, upper, low, high)


def expected_kept(  # noqa: PLR0913 - the factors of one product
    injuries: float,
    games: float,
    *,
    guarded: float,
    ratio: float,
    days_out: float,
    days_in_season: float,
) -> float:
    """Return the games kept on average, all inputs taken as certain.

    `injuries` are expected without guards, `games` those of the teams, weighted by their injuries,
    `guarded` a share of exposures, `days_out` the mean within the season for one injury.
    """
    return injuries * guarded * (1 - ratio) * days_out * games / days_in_season


def _means(cells: Sequence[Cell], seasons: int, random: np.random.Generator) -> Floats:
    """Return the injuries to expect of every cell (rows) in every season (columns).

    Gamma quantiles of normal numbers that teams have in part in common (a Gaussian copula).
    """
    from scipy.special import gammaincinv, ndtr

    expected, shape, shared = np.array(
        [(cell.expected, cell.shape, cell.shared) for cell in cells], dtype=np.float64
    ).T[:, :, None]
    common, own = random.standard_normal(seasons), random.standard_normal((len(cells), seasons))
    normal = np.sqrt(shared) * common + np.sqrt(1 - shared) * own
    drawn = gammaincinv(np.maximum(shape, 1e-9), ndtr(normal)) / np.maximum(shape, 1e-9)
    means: Floats = expected * np.where(shape > 0, drawn, 1.0)
    return means


@dataclass(frozen=True, slots=True)
class _Costs:
    """What decides how many games an injury costs; `longer` is one factor a season."""

    cells: Sequence[Cell]
    absence: AbsenceLaw | None
    days_in_season: float
    longer: Floats


class _Injuries:
    """Injuries drawn about their means, each with its season and, where known, what it costs."""

    def __init__(self, mean: Floats, random: np.random.Generator, costs: _Costs) -> None:
        self._seasons = mean.shape[1]
        counts = random.poisson(mean)
        place = np.repeat(np.arange(counts.size), counts.ravel())
        self.season: NDArray[np.int64] = place % self._seasons
        self._costs: tuple[Floats, Floats] | None = None
        if costs.absence is not None:
            of_team = np.array([(cell.games, cell.out) for cell in costs.cells], dtype=np.float64)
            games, out = of_team[place // self._seasons].T
            longer = out * costs.longer[self.season]
            absence, days = costs.absence, costs.days_in_season
            self._costs = draw_absences(absence, games, days, random, longer)

    def per_season(self, only: NDArray[np.bool_] | None = None) -> Floats:
        """Return the injuries of every season."""
        return self._sums(None, only)

    def days(self, only: NDArray[np.bool_] | None = None) -> Floats | None:
        """Return the days lost in every season."""
        return None if self._costs is None else self._sums(self._costs[0], only)

    def games(self, only: NDArray[np.bool_] | None = None) -> Floats | None:
        """Return the games missed in every season."""
        return None if self._costs is None else self._sums(self._costs[1], only)

    def _sums(self, weights: Floats | None, only: NDArray[np.bool_] | None) -> Floats:
        season = self.season if only is None else self.season[only]
        if weights is not None and only is not None:
            weights = weights[only]
        return np.bincount(season, weights, minlength=self._seasons).astype(np.float64)


def _less(one: Floats | None, other: Floats | None) -> Floats | None:
    return None if one is None or other is None else one - other


def _known_spread(values: Floats | None) -> Spread | None:
    return None if values is None else spread(values)


def _visible(guarded_hurt: Floats, bare_hurt: Floats, guarded: Floats) -> Visible | None:
    """Return how often the exact conditional test finds a difference between guarded and bare."""
    from scipy.special import bdtr, bdtrc

    is_mixed = (guarded > 0) & (guarded < 1)
    if not is_mixed.any():
        return None
    share = np.where(is_mixed, guarded, 0.5)
    total = (guarded_hurt + bare_hurt).astype(np.int64)
    fewer = 2 * bdtr(guarded_hurt, total, share) <= ALPHA
    more = 2 * bdtrc(guarded_hurt - 1, total, share) <= ALPHA
    share_fewer, share_more = float((fewer & is_mixed).mean()), float((more & is_mixed).mean())
    return Visible(share_fewer + share_more, share_fewer, share_more)
