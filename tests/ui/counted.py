"""Small counts that belong to the stand-in's strata and ticks: the frames derived from them."""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

import polars as pl

COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")
_COURSE = ("area", "sport", "position_group", "setting", "block")
_WORE = ("guarded", "bare", "unknown")
_MONDAY = date(2026, 9, 7)


def played_on(number: int) -> date:
    """The day of a stratum: one each week."""
    return _MONDAY + timedelta(days=8 * number)


def _shares(count: int, parts: int) -> list[int]:
    """Split a count as evenly as whole numbers go."""
    return [count // parts + (part < count % parts) for part in range(parts)]


def athlete_strata(strata: pl.DataFrame) -> pl.DataFrame:
    """The rows of `compare/athlete_strata`: each stratum's counts over a few athletes."""
    hurt = strata.filter(pl.col("stratum").is_not_null())
    rows: list[tuple[object, ...]] = []
    for number, (name, *counts) in enumerate(hurt.select("comparison", *COUNTS).iter_rows()):
        a, b, guarded, bare = counts
        for first, injuries, exposures in ((1, a, guarded), (101, b, bare)):
            athletes = min(exposures, 12)
            both = zip(_shares(injuries, athletes), _shares(exposures, athletes), strict=True)
            for place, (harm, seen) in enumerate(both):
                athlete = first + (place + number) % 12
                halves = (harm, 0, seen, 0) if first == 1 else (0, harm, 0, seen)
                rows.append((name, number, athlete, *halves))
    schema = {"comparison": pl.String, "stratum": pl.Int64, "athlete_no": pl.Int64}
    schema |= dict.fromkeys(COUNTS, pl.Int64)
    return pl.DataFrame(rows, schema=schema, orient="row")


def athlete_courses() -> pl.DataFrame:
    """The rows of `compare/athlete_courses`: four sites, one of them hurt before it asked."""
    cell = ("soccer", "defence", "game")
    rows = [
        (1, "A1", "left", "lower leg", *cell, 3, False, 1, 0, 9, 2),
        (1, "A1", "left", "lower leg", *cell, 4, False, 0, 1, 3, 4),
        (2, "[/x] Lee", "right", "lower leg", *cell, 3, False, 0, 1, 6, 6),
        (3, "A3", "left", "lower leg", *cell, 4, False, 1, 0, 4, 8),
        (4, "A4", "left", "lower leg", *cell, 3, True, 1, 0, 5, 5),
    ]
    names = ("athlete_no", "athlete", "side", *_COURSE, "asked_after", *COUNTS)
    return pl.DataFrame(rows, schema=names, orient="row")


def bare_rates() -> pl.DataFrame:
    """The rows of `compare/bare_rates`: denser injuries early."""
    cell = ("lower leg", "soccer", "defence", "game")
    rows = [(*cell, 3, 5, 300), (*cell, 4, 4, 420)]
    return pl.DataFrame(rows, schema=(*_COURSE, "injuries", "exposures"), orient="row")


def other_side() -> pl.DataFrame:
    """The rows of `compare/other_side`: three bare sides hurt, no guarded one."""
    rows = [
        ("lower leg", 2, "[/x] Lee", 0, 1, 2),
        ("lower leg", 5, "A5", 0, 1, 1),
        ("lower leg", None, None, 0, 0, 210),
    ]
    hurt = ("injuries_guarded", "injuries_unguarded", "pairs")
    return pl.DataFrame(rows, schema=("area", "athlete_no", "athlete", *hurt), orient="row")


def decliners(strata: pl.DataFrame) -> pl.DataFrame:
    """The rows of `compare/decliners`: the same sessions, fewer bare sites."""
    same = strata.filter(pl.col("comparison") == "same session")
    fewer = same.with_columns(
        injuries_unguarded=pl.min_horizontal("injuries_unguarded", 2),
        exposures_unguarded=pl.col("exposures_unguarded") // 2,
    )
    return fewer.select("stratum", *COUNTS, "strata")


def questions() -> pl.DataFrame:
    """The rows of `compare/questions`: nobody fixed one."""
    names = ("asked_on", "kind", "area", "outcome", "setting", "horizon", "comparison")
    return pl.DataFrame(schema=(*names, "recorded_on", "first_on"))


def burden(strata: pl.DataFrame) -> pl.DataFrame:
    """The rows of `compare/burden`: one bare injury is open, one guarded is set aside."""
    schema = {"athlete_no": pl.Int64, "is_guarded": pl.Boolean, "why": pl.String}
    schema |= {"days_lost": pl.Int64, "is_open": pl.Boolean}
    schema |= {"onset": pl.String, "mechanism": pl.String}
    whole = strata.filter((pl.col("comparison") == "crude") & pl.col("stratum").is_not_null())
    if whole.is_empty():
        return pl.DataFrame(schema=schema)
    guarded, bare = whole.select(COUNTS[:2]).row(0)
    rows = [(n + 1, True, None, 3 * n + 2, False, "acute sudden", None) for n in range(guarded)]
    rows += [(n + 101, False, None, 5 * n + 1, n == 8, None, "direct contact") for n in range(bare)]
    rows.append((1, True, "after an earlier injury to the site", 4, False, None, None))
    return pl.DataFrame(rows, schema=schema, orient="row")


def owners() -> pl.DataFrame:
    """The rows of `compare/owners`: two strata in which somebody left a guard off."""
    rows = [("lower leg · G4 · attack", 1, 1, 4), ("lower leg · G6 · defence", 2, 0, 5)]
    names = ("stratum", "injuries", "unrecorded", "exposures")
    return pl.DataFrame(rows, schema=names, orient="row")


def drawn_turns() -> pl.DataFrame:
    """The rows of `compare/drawn_turns`: thirteen injuries in sessions of two draws."""
    rows = [
        *(
            (f"lower leg · G{n} · draw T01", 0, 1, 0, 0, 0, 0, 14, 10, 1, played_on(n))
            for n in range(4)
        ),
        *(
            (f"lower leg · G{n} · draw T02", 0, 0, 0, 0, 1, 0, 8, 12, 1, played_on(n))
            for n in range(6)
        ),
        *(
            (f"lower leg · G{n} · draw T02", 1, 0, 0, 0, 0, 0, 9, 11, 1, played_on(n))
            for n in range(6, 9)
        ),
        (None, 0, 0, 0, 0, 0, 0, 2100, 1840, 61, None),
    ]
    counts = tuple(f"{who}_{wore}" for who in ("come", "waiting") for wore in _WORE)
    schema = ("stratum", *counts, "exposures_come", "exposures_waiting", "strata", "played_on")
    return pl.DataFrame(rows, schema=schema, orient="row")


def draws(number: int) -> pl.DataFrame:
    """The rows of `compare/draws`: so many of two draws."""
    rows = [
        ("T01", played_on(0), 9, 14, 1, "B 12", None),
        ("T02", played_on(1), 11, 20, 0, None, "no study here"),
    ]
    names = ("draw", "drawn_on", "last_week", "turns", "jumped", "board_number", "no_board_reason")
    return pl.DataFrame(rows, schema=names, orient="row").head(number)


def repeats(ticks: pl.DataFrame) -> pl.DataFrame:
    """The rows of `games/repeats`: one site an athlete; who is hurt first is hurt again."""
    schema = {"guarded": pl.Boolean}
    schema |= dict.fromkeys(("athlete_no", "entry", "leaving", "sites", "injuries"), pl.Int64)
    rows = [row for guarded in (True, False) for row in _spells(ticks, guarded=guarded)]
    return pl.DataFrame(rows, schema=schema, orient="row")


def _spells(ticks: pl.DataFrame, *, guarded: bool) -> Iterator[tuple[object, ...]]:
    same = ticks.filter((pl.col("guarded") == guarded) & pl.col("tick").is_not_null())
    summed = same.group_by("tick").agg(pl.col("at_risk", "injuries").sum()).sort("tick")
    at_risk, hurt = summed["at_risk"].to_list(), summed["injuries"].to_list()
    for tick, (now, after) in enumerate(pairwise([*at_risk, 0]), 1):
        for athlete in range(after, now):
            yield (guarded, athlete, 0, tick, 1, 0)
    for tick, injuries in enumerate(hurt, 1):
        if injuries:
            yield (guarded, 0, tick - 1, tick, 0, injuries)


def ever_never(ticks: pl.DataFrame) -> pl.DataFrame:
    """The rows of `games/ever_never`: the guarded wait uninjured, so they seem the safer."""
    same = ticks.filter(pl.col("tick").is_not_null())
    summed = same.group_by("guarded", "tick").agg(pl.col("at_risk", "injuries").sum())
    harmed = pl.when("guarded").then(pl.col("injuries") * (pl.col("tick") > 6))
    return summed.select(
        pl.col("guarded").alias("ever"),
        "tick",
        "at_risk",
        harmed.otherwise("injuries").alias("injuries"),
    ).sort("ever", "tick")


def both_kinds(ticks: pl.DataFrame) -> pl.DataFrame:
    """The rows of `games/ticks` with a second kind in each group, of whom no guarded is hurt."""
    other = pl.when(pl.col("position_group") == "attack").then(pl.lit("defence"))
    spared = pl.when("guarded").then(pl.col("injuries")).otherwise(0)
    more = ticks.filter(pl.col("tick").is_not_null()).with_columns(
        position_group=other.otherwise(pl.lit("attack")),
        injuries=pl.col("injuries") - spared,
        no_more=pl.col("no_more") + spared,
    )
    return pl.concat([ticks, more])


def alike(ticks: pl.DataFrame) -> pl.DataFrame:
    """The rows of `games/strata`: one body area, one fortnight, kinds that are in both groups."""
    sides = {"guarded": pl.col("guarded"), "unguarded": ~pl.col("guarded")}
    sums = [
        pl.col(name).filter(side).sum().alias(f"{name}_{group}")
        for group, side in sides.items()
        for name in ("at_risk", "injuries")
    ]
    keys = ("sport", "sex", "position_group", "tick")
    rows = ticks.drop_nulls("tick").group_by(keys).agg(sums).sort(keys)
    both = rows.filter(pl.col("at_risk_guarded") > 0, pl.col("at_risk_unguarded") > 0)
    words = (pl.lit(value).alias(name) for name, value in (("area", "chest"), ("setting", "game")))
    block = pl.lit(0, pl.Int64).alias("block")
    stratum = ("area", "sport", "sex", "position_group", "setting", "block", "tick")
    width = pl.lit(1, pl.Int64).alias("width")
    return both.with_columns(*words, block).select(*stratum, pl.exclude(stratum), width)


def per_game() -> pl.DataFrame:
    """The rows of `games/per_game`: of forwards half the games have plays, none has minutes."""
    rows = [("soccer", "women", "attack", 40, 20, 610, 0, 0.0)]
    names = ("sport", "sex", "position_group", "games", "with_plays", "plays", "with_minutes")
    return pl.DataFrame(rows, schema=(*names, "minutes"), orient="row")


def control_sites() -> pl.DataFrame:
    """The rows of `compare/control_sites`: three far from the guard, two beside it."""
    rows = [
        ("far", "foot", "A1", "G4", 1, 1, 0, 9, 8),
        ("far", "foot", "[/x] Lee", "G6", 1, 0, 2, 10, 9),
        ("far", "head", "A3", "G7", 1, 0, 1, 12, 12),
        ("neighbouring", "knee", "A3", "G7", 1, 0, 1, 12, 12),
        ("neighbouring", "knee", "A1", "G4", 1, 1, 0, 9, 8),
    ]
    names = ("nearness", "area", "athlete", "session", "injuries", "sites_guarded")
    names += ("sites_unguarded", "exposures_guarded", "exposures_unguarded")
    return pl.DataFrame(rows, schema=names, orient="row")


def attendance_recorded() -> pl.DataFrame:
    """The rows of `compare/attendance_recorded`: eight practices, one in nine not recorded."""
    rows = [(s, n, n < 4, (s * 7 + n) % 9 > 0) for s in range(1, 9) for n in range(10)]
    return pl.DataFrame(rows, ("stratum", "athlete_no", "is_owner", "is_recorded"), orient="row")


def wear_of_injured() -> pl.DataFrame:
    """The rows of `compare/wear_of_injured`: four injured owners."""
    names = ("athlete", "session", "is_assumed", "not_known", "fellows", "fellows_not_known")
    rows = [(f"A{n}", f"G{n}", False, n == 2, 6, n % 2) for n in range(4)]
    return pl.DataFrame(rows, names, orient="row")


def hours(strata: pl.DataFrame) -> pl.DataFrame:
    """The hours of `strata`: 80 minutes an exposure, recorded for three in four and all injuries.

    One bare injury more has no minutes.
    """
    crude = strata.filter(pl.col("comparison") == "crude")
    groups = (("guarded", True), ("unguarded", False))
    rows = []
    for name, is_guarded in groups:
        exposures = int(crude[f"exposures_{name}"].sum())
        injuries = int(crude[f"injuries_{name}"].sum())
        timed = exposures * 3 // 4
        lost = min(injuries, 0 if is_guarded else 1)
        rows.append((is_guarded, timed * 80, injuries - lost, timed, lost, exposures - timed))
    names = ("guarded", "minutes", "injuries", "exposures", "untimed_injuries", "untimed_exposures")
    return pl.DataFrame(rows, schema=names, orient="row")
