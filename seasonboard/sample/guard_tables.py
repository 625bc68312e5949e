"""The guards, stages and offers tables."""

import numpy as np
import polars as pl

from seasonboard.sample.clubs import Clubs
from seasonboard.sample.draws import Draws
from seasonboard.sample.guards import ANSWERS, BUILD, KINDS, SIDES, Offers
from seasonboard.sample.instants import instants
from seasonboard.sample.people import People
from seasonboard.sample.turnaround import NEVER, PRINTED, REASONS, REQUESTED, STAGES, Orders

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
    count = len(orders)
    keys = guard_keys(orders)
    shell = np.array([BUILD[kind][1] for kind in KINDS])[orders.kind]
    shell = shell + 0.2 * (draws.below(count, 5) - 2)
    mass = np.array([BUILD[kind][2] for kind in KINDS])[orders.kind]
    mass = mass * (0.8 + 0.4 * draws.uniform(count)) * np.where(orders.side == 2, 2.0, 1.0)
    hours = (
        np.array([BUILD[kind][4] for kind in KINDS])[orders.kind]
        * (0.85 + 0.3 * draws.uniform(count))
        * np.where(orders.side == 2, 1.8, 1.0)
    )
    contact = 100.0 - np.where(orders.phone, 14.0, 8.0) * draws.uniform(count) ** 1.5
    printed = orders.times[:, PRINTED] < NEVER
    bench = draws.below(count, 4) + 1
    home = clubs.departments["department"].gather(orders.department)
    frame = pl.DataFrame(
        {
            "guard": keys,
            "athlete": people.keys.gather(orders.athlete),
            "kind": pl.Series(KINDS).gather(orders.kind),
            "side": pl.Series(SIDES).gather(orders.side),
            "purpose": pl.Series(["preventive", "return"]).gather(orders.returning.astype(int)),
            "function": pl.Series([BUILD[kind][3] for kind in KINDS]).gather(orders.kind),
            "scan_method": pl.Series(["scanner", "phone"]).gather(orders.phone.astype(int)),
            "material": pl.Series(_MATERIALS).gather(draws.pick(count, (0.4, 0.35, 0.15, 0.1))),
            "shell_mm": np.round(shell, 1),
            "liner_mm": pl.Series([2.0, 3.0, 4.0]).gather(draws.pick(count, (0.3, 0.5, 0.2))),
            "contact_pct": np.round(contact, 1),
            "mass_g": np.round(mass, 1),
            "home": home,
            "bench": pl.Series(bench).cast(pl.String),
            "onsite": orders.onsite,
            "print_hours": np.round(hours, 1),
            "remake_of": keys.gather(np.maximum(orders.before, 0)),
            "remake_reason": pl.Series(REASONS).gather(np.maximum(orders.reason, 0)),
            "printed": printed,
            "again": orders.before >= 0,
            "scanned": orders.times[:, 1] < NEVER,
            "weighed": draws.chance(count, 0.93),
        }
    )
    return _blank_what_is_not_known(frame).sort("guard")


def _blank_what_is_not_known(frame: pl.DataFrame) -> pl.DataFrame:
    """No printer before printing, no scan method before the scan, no remake of nothing."""
    at_home = pl.concat_str("home", pl.lit(" printer"))
    at_bench = pl.concat_str(pl.lit("bench "), "bench")
    made = [
        pl.when(pl.col("printed") & pl.col("weighed")).then(name).alias(name)
        for name in ("contact_pct", "mass_g", "print_hours")
    ]
    return frame.with_columns(
        *made,
        pl.when("scanned").then("scan_method").alias("scan_method"),
        pl.when("printed").then(pl.when("onsite").then(at_home).otherwise(at_bench)).alias("printer"),
        pl.when("again").then("remake_of").alias("remake_of"),
        pl.when("again").then("remake_reason").alias("remake_reason"),
    ).select(
        "guard", "athlete", "kind", "side", "purpose", "function", "scan_method", "material",
        "shell_mm", "liner_mm", "contact_pct", "mass_g", "printer", "print_hours", "remake_of",
        "remake_reason",
    )  # fmt: skip


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
            "reached_at": instants(
                pl.Series(times[order, stage]), clubs.pattern[orders.department[order]]
            ),
            "number": stage,
            "replaced": replaced[order],
            "why": why[order],
        }
    )
    gone = pl.col("stage") == "cancelled"
    put_away = (pl.col("stage") == "retired") & ~pl.col("replaced")
    note = (
        pl.when(gone & (pl.col("why") == 0))
        .then(pl.lit("no longer wanted"))
        .when(gone)
        .then(pl.lit("athlete could not come to the scan"))
        .when(put_away)
        .then(pl.lit("no longer worn"))
        .when((pl.col("stage") == "retired") & pl.col("replaced"))
        .then(pl.lit("replaced"))
    )
    ordered = frame.with_columns(note.alias("note")).sort("guard", "minute", "number")
    return ordered.select("guard", "stage", "reached_at", "note")


def offers_frame(offers: Offers, people: People, draws: Draws) -> pl.DataFrame:
    """The offers table: who was offered what, the answer, and why not."""
    count = len(offers.athlete)
    no = pl.Series(_DECLINED).gather(draws.pick(count, (0.35, 0.15, 0.3, 0.1, 0.1)))
    unsure = pl.Series(_UNDECIDED).gather(draws.pick(count, (0.4, 0.4, 0.2)))
    frame = pl.DataFrame(
        {
            "offer": pl.Series(np.arange(1, count + 1)).cast(pl.String).str.zfill(5),
            "athlete": people.keys.gather(offers.athlete),
            "kind": pl.Series(KINDS).gather(offers.kind),
            "offered_on": pl.Series(offers.day).cast(pl.Int32).cast(pl.Date),
            "answer": pl.Series(ANSWERS).gather(offers.answer),
            "no": no,
            "unsure": unsure,
        }
    )
    reason = (
        pl.when(pl.col("answer") == "declined")
        .then("no")
        .when(pl.col("answer") == "undecided")
        .then("unsure")
    )
    return frame.select(
        pl.concat_str(pl.lit("O"), "offer").alias("offer"),
        "athlete",
        "kind",
        "offered_on",
        "answer",
        reason.alias("reason"),
    )
