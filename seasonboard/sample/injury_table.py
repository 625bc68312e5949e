"""The injuries table, and which injuries led to a return guard."""

import datetime as dt

import numpy as np
import polars as pl

from seasonboard.sample.diagnoses import DIAGNOSES, GRADUAL
from seasonboard.sample.draws import Draws, Ints
from seasonboard.sample.guards import BOTH, BUILD, KINDS, SIDES, Requests
from seasonboard.sample.injuries import SITE_AREA, SITE_SIDE, Injuries, first_site
from seasonboard.sample.people import People
from seasonboard.sample.schedule import DAY, LAST, as_date, day_number, numbered
from seasonboard.sample.truth import AREAS, truth
from seasonboard.sample.turnaround import NEVER, Orders
from seasonboard.sample.wear import Wear

_MECHANISMS = ("direct contact", "indirect contact", "non-contact")


def return_requests(injuries: Injuries, orders: Orders, draws: Draws) -> Requests:
    """Sites hurt badly enough that a guard was asked for, and not covered by one already."""
    kind_of = np.full(len(AREAS), -1, dtype=np.int64)
    kind_of[[AREAS.index(area) for area in BUILD["area"]]] = np.arange(len(KINDS))
    kind = kind_of[SITE_AREA[injuries.site]]
    wanted = (kind >= 0) & (injuries.lost >= 2)
    wanted &= draws.chance(len(injuries), truth().return_guard_share)
    summer = day_number(dt.date(2026, 7, 6)) * DAY
    lag = (1 + draws.below(len(injuries), 6)) * DAY + 9 * 60 + draws.below(len(injuries), 480)
    asked = np.where(injuries.row < 0, summer, injuries.day * DAY) + lag
    alive = orders.keep(orders.cancelled == NEVER)
    owned = (alive.athlete * len(KINDS) + alive.kind) * len(SIDES)
    pairs = owned[alive.side == BOTH]
    site = (injuries.athlete * len(KINDS) + kind) * len(SIDES) + SITE_SIDE[injuries.site]
    wanted &= ~np.isin(site, np.r_[owned + alive.side, pairs, pairs + 1])
    requests = Requests(injuries.athlete, kind, SITE_SIDE[injuries.site], asked)
    rows = np.flatnonzero(wanted)
    rows = rows[np.argsort(asked[rows], kind="stable")]
    return requests.keep(rows[np.sort(np.unique(site[rows], return_index=True)[1])])


def guard_was_on(
    injuries: Injuries, orders: Orders, held: Wear, worn: Wear, draws: Draws
) -> pl.Series:
    """Whether a guard was on at the injured site: asked of most whose guard covers it.

    Args:
        injuries: The injuries.
        orders: The guards.
        held: The guards in hand, by attendance row.
        worn: Those that were worn.
        draws: Who is asked.
    """
    place = injuries.row * len(SITE_AREA) + injuries.site
    asked = draws.chance(len(injuries), truth().was_on_share) & (injuries.row >= 0)
    is_on = np.isin(place, _places(worn, orders))
    said = np.where(is_on, 0, np.where(np.isin(place, _places(held, orders)), 1, 2))
    return pl.Series(["yes", "no", None]).gather(np.where(asked, said, 2))


def _places(wear: Wear, orders: Orders) -> Ints:
    """Return attendance row x number of sites + site, of all sites that these guards cover."""
    site = first_site(orders.kind, orders.side)[wear.order]
    other = site[both := (orders.side == BOTH)[wear.order]] + 1
    places: Ints = np.r_[wear.row * len(SITE_AREA) + site, wear.row[both] * len(SITE_AREA) + other]
    return places


def injuries_frame(
    injuries: Injuries, was_on: pl.Series, session_of_row: pl.Series, people: People, draws: Draws
) -> pl.DataFrame:
    """The injuries table, oldest first; a few have no session, open ones no return."""
    count, planted = len(injuries), truth()
    diagnosis = DIAGNOSES[injuries.diagnosis]
    gradual = (diagnosis["onset"] == GRADUAL).to_numpy()
    share = np.where(gradual, planted.no_session_share_gradual, planted.outside_sport_share)
    hidden = draws.chance(count, share)
    swapped = draws.chance(count, 0.1) & ~gradual
    other = np.array(_MECHANISMS)[draws.below(count, len(_MECHANISMS))]
    reported = injuries.day + draws.pick(count, (0.75, 0.16, 0.05, 0.02, 0.01, 0.01))
    columns = {
        "athlete": people.keys.gather(injuries.athlete),
        "occurred_on": injuries.day,
        "session": session_of_row.gather(np.maximum(injuries.row, 0)),
        "area": pl.Series(AREAS).gather(SITE_AREA[injuries.site]),
        "side": pl.Series(SIDES).gather(SITE_SIDE[injuries.site]),
        "tissue": diagnosis["tissue"],
        "pathology": diagnosis["pathology"],
        "onset": diagnosis["onset"],
        "mechanism": np.where(swapped, other, diagnosis["mechanism"]),
        "reported_on": np.minimum(np.minimum(reported, injuries.back), LAST),
        "returned_on": injuries.back,
        "starts": injuries.starts,
        "with_session": (injuries.row >= 0) & ~hidden,
        "outside": hidden & ~gradual,
        "before": injuries.row < 0,
        "was_on": was_on,
    }
    return _with_history(pl.DataFrame(columns).sort("starts", "athlete", "area", "side"))


def _with_history(frame: pl.DataFrame) -> pl.DataFrame:
    """New, local, re-injury or exacerbation, from the athlete's last injury to the same site."""
    site = ("athlete", "area", "side")
    last_tissue = pl.col("tissue").shift(1).over(*site)
    last_return = pl.col("returned_on").shift(1).over(*site)
    history = (
        pl.when(last_tissue.is_null())
        .then(pl.lit("new"))
        .when(last_tissue != pl.col("tissue"))
        .then(pl.lit("local"))
        .when(pl.col("occurred_on") <= last_return)
        .then(pl.lit("exacerbation"))
        .otherwise(pl.lit("reinjury"))
    )
    note = (
        pl.when("before")
        .then(pl.lit("from the year before"))
        .when("outside")
        .then(pl.lit("outside sport"))
    )
    return frame.select(
        numbered("I", 5).alias("injury"),
        "athlete",
        as_date(pl.col("occurred_on")),
        pl.when("with_session").then("session").alias("session"),
        pl.col("area", "side", "tissue", "pathology", "onset", "mechanism"),
        history.alias("history"),
        as_date(pl.col("reported_on")),
        as_date(pl.when(pl.col("returned_on") <= LAST).then("returned_on")),
        note.alias("note"),
        pl.when("with_session").then("was_on").alias("was_on"),
    )
