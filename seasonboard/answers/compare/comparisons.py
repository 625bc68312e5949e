"""Five ways of comparing guarded with bare, one statistic: only the strata differ."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import polars as pl

from seasonboard.stats.clustered_ratio import AthleteCells, ClusteredRatio, clustered_ratio
from seasonboard.stats.indirect_standardisation import MultiplicativeRates
from seasonboard.stats.multiple_testing import holm
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel

SAME_SESSION = "same session"
ALIKE_ATHLETES = "alike athletes"
SAME_ATHLETE = "same athlete"
OTHER_SIDE = "other side"
CRUDE = "crude"
DECLINERS = "decliners"
DRAWN_TURNS = "drawn turns"
HEADLINE = SAME_SESSION
ORDER = (SAME_SESSION, ALIKE_ATHLETES, SAME_ATHLETE, OTHER_SIDE, CRUDE)
"""The comparisons as they are shown: the headline first, the one not to be quoted last."""

REMOVES: Mapping[str, str] = {
    SAME_SESSION: "everything that teammates of one position group share in one session",
    ALIKE_ATHLETES: "the mix of sports, positions, games and practices, and the season's course",
    SAME_ATHLETE: "everything stable about an athlete, and the season's course",
    OTHER_SIDE: "everything but the side: one athlete, one session, one side guarded and one bare",
    DECLINERS: "as same session, and that those who take a guard were offered one",
    DRAWN_TURNS: "all that decides who takes and wears a guard: whose came first was drawn",
    CRUDE: "nothing: shown so that the effect of adjusting is seen",
}

_COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")
_COURSE = ("area", "sport", "position_group", "setting", "block")


@dataclass(frozen=True, slots=True)
class Stratum:
    """One stratum of a comparison that holds an injury."""

    label: str
    injuries_guarded: int
    injuries_unguarded: int
    exposures_guarded: int
    exposures_unguarded: int

    @property
    def informs(self) -> bool:
        """Say whether both groups were exposed in it."""
        return self.exposures_guarded > 0 and self.exposures_unguarded > 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """One way of comparing, its ratio, and the strata with injuries behind it.

    `set_aside` counts sites that this comparison alone leaves out, with the reason.
    """

    name: str
    ratio: RateRatio
    clustered: ClusteredRatio
    strata: tuple[Stratum, ...]
    set_aside: tuple[tuple[str, int], ...] = ()

    @property
    def removes(self) -> str:
        """Return what it takes away of what could tip the balance."""
        return REMOVES[self.name]

    @property
    def informing_guarded(self) -> int:
        """Return the guarded injuries of strata in which both groups were exposed."""
        return sum(stratum.injuries_guarded for stratum in self.strata if stratum.informs)

    @property
    def informing_unguarded(self) -> int:
        """Return the bare injuries of strata in which both groups were exposed."""
        return sum(stratum.injuries_unguarded for stratum in self.strata if stratum.informs)


def from_strata(
    name: str, strata: pl.DataFrame, athletes: pl.DataFrame, level: float
) -> Comparison:
    """Return crude, alike athletes or same session from `compare/strata`, `…/athlete_strata`."""
    rows = _of(name, strata)
    own = athletes.filter(pl.col("comparison") == name)
    cells = AthleteCells(*(own[c].to_numpy() for c in ("stratum", "athlete_no", *_COUNTS)))
    clustered = clustered_ratio(cells, level=level)
    return Comparison(name, _ratio(rows, level), clustered, _injured(rows))


def ratio_within(name: str, strata: pl.DataFrame, level: float) -> RateRatio:
    """Return the ratio alone of crude, alike athletes or same session from `compare/strata`."""
    return _ratio(_of(name, strata), level)


def _of(name: str, strata: pl.DataFrame) -> pl.DataFrame:
    return strata.filter(pl.col("comparison") == name)


def _ratio(rows: pl.DataFrame, level: float) -> RateRatio:
    columns = (rows[name].to_list() for name in (*_COUNTS, "strata"))
    return mantel_haenszel(Strata(*columns), level=level)


def _injured(rows: pl.DataFrame) -> tuple[Stratum, ...]:
    injured = rows.filter(pl.col("stratum").is_not_null())
    return tuple(Stratum(*row) for row in injured.select("stratum", *_COUNTS).iter_rows())


@dataclass(frozen=True, slots=True)
class AreaRatio:
    """The headline for one body area of several; `p_adjusted` is Holm's, None without a ratio."""

    area: str
    ratio: RateRatio
    p_adjusted: float | None


def area_by_area(strata: pl.DataFrame, level: float) -> tuple[AreaRatio, ...]:
    """Return the same-session ratio of each body area, where several are studied.

    Whoever looks at several areas will find one below 0.05 by chance before long; the adjusted
    p-values allow for that (Holm 1979).
    """
    rows = strata.filter((pl.col("comparison") == SAME_SESSION) & pl.col("area").is_not_null())
    if rows["area"].n_unique() < 2:
        return ()
    ratios = {
        str(area): _ratio(cells, level)
        for (area,), cells in rows.sort("area").group_by("area", maintain_order=True)
    }
    ps = {area: ratio.p for area, ratio in ratios.items() if ratio.p is not None}
    adjusted = dict(zip(ps, holm(list(ps.values())), strict=True))
    return tuple(AreaRatio(area, ratio, adjusted.get(area)) for area, ratio in ratios.items())


def against_decliners(strata: pl.DataFrame, level: float) -> Comparison:
    """Return the same-session comparison with bare sites of athletes who declined such a guard.

    Who was offered a guard and said no is likelier to be like those who said yes than someone who
    was never offered one.
    """
    return from_counts(DECLINERS, strata, level)


def from_counts(name: str, strata: pl.DataFrame, level: float) -> Comparison:
    """Return a comparison from its strata alone; the spread between athletes is not looked at."""
    clustered = ClusteredRatio(None, why="not worked out for this comparison", athletes=0)
    return Comparison(name, _ratio(strata, level), clustered, _injured(strata))


def same_athlete(courses: pl.DataFrame, bare: pl.DataFrame, level: float) -> Comparison:
    """Return the comparison of each athlete's site with itself, exposures weighted as expected.

    Sites are followed through their injuries and all of them count. An exposure weighs what the
    bare rate of such athletes in such sessions leads one to expect, so that the season's course
    does not pass for the guard. Sites whose guard was asked for after an injury are set aside.
    """
    cells = courses.filter(~pl.col("asked_after"))
    weights = [1.0] * len(cells)
    if len(bare):
        counts = bare["injuries"].to_list(), bare["exposures"].to_list()
        rates = MultiplicativeRates(bare.select(_COURSE).rows(), *counts)
        weights = [rates.rate(cell) for cell in cells.select(_COURSE).iter_rows()]
    weight = pl.Series(weights, dtype=pl.Float64)
    sites = (
        cells.with_columns(
            expected_guarded=pl.col("exposures_guarded") * weight,
            expected_unguarded=pl.col("exposures_unguarded") * weight,
        )
        .group_by("athlete_no", "athlete", "area", "side")
        .agg(pl.col(*_COUNTS, "expected_guarded", "expected_unguarded").sum())
        .sort("athlete", "area", "side")
    )
    a, b, t1, t0 = (sites[name].to_list() for name in _COUNTS)
    e1, e0 = sites["expected_guarded"].to_list(), sites["expected_unguarded"].to_list()
    ratio = mantel_haenszel(Strata(a, b, e1, e0), level=level)
    clustered = clustered_ratio(
        AthleteCells(list(range(len(a))), sites["athlete_no"].to_list(), a, b, e1, e0), level=level
    )
    late = courses.filter(pl.col("asked_after")).select("athlete_no", "area", "side").n_unique()
    labels = sites.select(pl.concat_str("athlete", "area", "side", separator=" · ")).to_series()
    return Comparison(
        SAME_ATHLETE,
        replace(ratio, exposures_guarded=sum(t1), exposures_unguarded=sum(t0)),
        clustered,
        tuple(Stratum(*row) for row in zip(labels, a, b, t1, t0, strict=True)),
        (("sites whose guard was asked for after an injury to them", late),) if late else (),
    )


def other_side(pairs: pl.DataFrame, level: float) -> Comparison:
    """Return the comparison of a guarded side with the same athlete's bare one, by session.

    Only pairs in which one side was hurt and the other not tell anything: given their number the
    guarded ones are binomial, which the exact limits use.
    """
    hurt = pairs.filter(pl.col("athlete_no").is_not_null())
    single = hurt.select(pl.exclude("pairs").repeat_by("pairs").explode()) if len(hurt) else hurt
    quiet = int(pairs.filter(pl.col("athlete_no").is_null())["pairs"].sum())
    a, b = single["injuries_guarded"].to_list(), single["injuries_unguarded"].to_list()
    ones = [1] * len(a)
    rest = ([0], [0], [quiet], [quiet]) if quiet else ([], [], [], [])
    ratio = mantel_haenszel(
        Strata(a + rest[0], b + rest[1], ones + rest[2], ones + rest[3], [*ones, *rest[2]]),
        level=level,
    )
    clustered = clustered_ratio(
        AthleteCells(list(range(len(a))), single["athlete_no"].to_list(), a, b, ones, ones),
        level=level,
    )
    labels = single.select(pl.concat_str("athlete", "area", separator=" · ")).to_series()
    hurt_pairs = tuple(Stratum(*row) for row in zip(labels, a, b, ones, ones, strict=True))
    return Comparison(OTHER_SIDE, ratio, clustered, hurt_pairs)
