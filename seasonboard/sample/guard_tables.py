"""The guards, stages and offers tables."""

import numpy as np
import polars as pl

from seasonboard.sample.clubs import Clubs
from seasonboard.sample.draws import Draws
from seasonboard.sample.guards import ANSWERS, BUILD, KINDS, SIDES, Offers
from seasonboard.sample.people import People
from seasonboard.sample.schedule import as_date, instants, numbered
from seasonboard.sample.turnaround import (
    NEVER,
    PRINTED,
    REASONS,
    REQUESTED,
    SCANNED,
    STAGES,
    Orders,
)

BENCHES = 4
"""Printers of the maker, which print for every weekly allotment."""
_OWN_HOURS, _BENCH_HOURS = 84.0, 126.0
_MATERIALS = ("PETG", "PA12", "PA11", "PP")
_DECLINED = ("comfort", "looks", "not needed", "own pad", "other")
_UNDECIDED = ("wants to try one first", "asks the coach first", "other")


def guard_keys(orders: Orders) -> pl.Series:
    """`G00001` upwards in the order of the requests."""
    order = np.lexsort((np.arange(len(orders)), orders.times[:, REQUESTED]))
    number = np.empty(len(orders), dtype=np.int64)
    number[order] = np.arange(1, len(orders) + 1)
    return pl.Series(number).cast(pl.String).str.zfill(5).str.replace("^", "G")


def guards_frame(orders: Orders, people: People, clubs: Clubs, draws: Draws) -> pl.DataFrame:
    """The guards table; some measurements were never written down."""
    count, build = len(orders), BUILD[orders.kind]
    keys, pair = guard_keys(orders), orders.side == 2
    shell = build["shell_mm"].to_numpy() + 0.2 * (draws.below(count, 5) - 2)
    mass = build["mass_g"].to_numpy()
    mass = mass * (0.8 + 0.4 * draws.uniform(count)) * np.where(pair, 2.0, 1.0)
    hours = build["print_hours"].to_numpy()
    hours = hours * (0.85 + 0.3 * draws.uniform(count)) * np.where(pair, 1.8, 1.0)
    contact = 100.0 - np.where(orders.phone, 14.0, 8.0) * draws.uniform(count) ** 1.5
    bench = pl.Series(draws.below(count, BENCHES) + 1)
    columns = {
        "guard": keys,
        "athlete": people.keys.gather(orders.athlete),
        "kind": build["kind"],
        "side": pl.Series(SIDES).gather(orders.side),
        "purpose": np.where(orders.returning, "return", "preventive"),
        "function": build["function"],
        "scan_method": np.where(orders.phone, "phone", "scanner"),
        "material": pl.Series(_MATERIALS).gather(draws.pick(count, (0.4, 0.35, 0.15, 0.1))),
        "shell_mm": np.round(shell, 1),
        "liner_mm": pl.Series([2.0, 3.0, 4.0]).gather(draws.pick(count, (0.3, 0.5, 0.2))),
        "contact_pct": np.round(contact, 1),
        "mass_g": np.round(mass, 1),
        "printer": clubs.departments["department"].gather(orders.department) + " printer",
        "print_hours": np.round(hours, 1),
        "remake_of": keys.gather(np.maximum(orders.before, 0)),
        "remake_reason": pl.Series(REASONS).gather(np.maximum(orders.reason, 0)),
    }
    conditions = {
        "bench": "bench " + bench.cast(pl.String),
        "onsite": orders.onsite,
        "printed": orders.times[:, PRINTED] < NEVER,
        "again": orders.before >= 0,
        "scanned": orders.times[:, SCANNED] < NEVER,
        "weighed": draws.chance(count, 0.93),
    }
    frame = _blank_what_is_not_known(pl.DataFrame(columns | conditions))
    return frame.drop(*conditions).sort("guard")


def _blank_what_is_not_known(frame: pl.DataFrame) -> pl.DataFrame:
    """No printer before printing, no scan method before the scan, no remake of nothing."""
    weighed = pl.col("printed") & pl.col("weighed")
    printer = pl.when("onsite").then("printer").otherwise("bench")
    return frame.with_columns(
        pl.when(weighed).then(pl.col("contact_pct", "mass_g", "print_hours")),
        pl.when("scanned").then("scan_method").alias("scan_method"),
        pl.when("printed").then(printer).alias("printer"),
        pl.when("again").then(pl.col("remake_of", "remake_reason")),
    )


def printers_frame(clubs: Clubs) -> pl.DataFrame:
    """The printers table: one for each department that prints on site, and the maker's own."""
    onsite = clubs.departments.filter(pl.col("plan") == "onsite printer")["department"]
    benches = [f"bench {number}" for number in range(1, BENCHES + 1)]
    hours = [_OWN_HOURS] * len(onsite) + [_BENCH_HOURS] * BENCHES
    columns = {
        "printer": [f"{name} printer" for name in onsite] + benches,
        "department": [*onsite, *[None] * BENCHES],
        "hours_per_week": hours,
    }
    return pl.DataFrame(columns, schema_overrides={"department": pl.String})


def stages_frame(orders: Orders, clubs: Clubs, draws: Draws) -> pl.DataFrame:
    """The stages table, by guard and then in the order they were reached."""
    count = len(orders)
    times = np.column_stack((orders.times, orders.retired, orders.cancelled))
    names = (*STAGES, "retired", "cancelled")
    order, stage = np.nonzero(times < NEVER)
    replaced = np.zeros(count, dtype=bool)
    replaced[orders.before[orders.before >= 0]] = True
    why = draws.pick(count, (0.6, 0.4))
    frame = pl.DataFrame(
        {
            "guard": guard_keys(orders).gather(order),
            "stage": pl.Series(names).gather(stage),
            "minute": times[order, stage],
            "reached_at": instants(times[order, stage], clubs.pattern[orders.department[order]]),
            "number": stage,
            "replaced": replaced[order],
            "why": why[order],
        }
    )
    gone, retired = pl.col("stage") == "cancelled", pl.col("stage") == "retired"
    note = (
        pl.when(gone & (pl.col("why") == 0))
        .then(pl.lit("no longer wanted"))
        .when(gone)
        .then(pl.lit("athlete could not come to the scan"))
        .when(retired & pl.col("replaced"))
        .then(pl.lit("replaced"))
        .when(retired)
        .then(pl.lit("no longer worn"))
    )
    ordered = frame.with_columns(note.alias("note")).sort("guard", "minute", "number")
    return ordered.select("guard", "stage", "reached_at", "note")


def offers_frame(offers: Offers, people: People, draws: Draws) -> pl.DataFrame:
    """The offers table: who was offered what, the answer, and why not."""
    count = len(offers)
    answer = pl.col("answer")
    columns = {
        "athlete": people.keys.gather(offers.athlete),
        "kind": pl.Series(KINDS).gather(offers.kind),
        "offered_on": offers.day,
        "answer": pl.Series(ANSWERS).gather(offers.answer),
        "no": pl.Series(_DECLINED).gather(draws.pick(count, (0.35, 0.15, 0.3, 0.1, 0.1))),
        "unsure": pl.Series(_UNDECIDED).gather(draws.pick(count, (0.4, 0.4, 0.2))),
    }
    return pl.DataFrame(columns).select(
        numbered("O", 5).alias("offer"),
        "athlete",
        "kind",
        as_date(pl.col("offered_on")),
        "answer",
        reason=pl.when(answer == "declined").then("no").when(answer == "undecided").then("unsure"),
    )
