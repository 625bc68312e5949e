"""The injuries table, and which injuries led to a return guard."""

import datetime as dt

import numpy as np
import polars as pl

from seasonboard.sample.diagnoses import DIAGNOSES, GRADUAL, MECHANISMS, ONSETS
from seasonboard.sample.draws import Draws
from seasonboard.sample.guards import AREA_OF, BOTH, KINDS, SIDES, Requests
from seasonboard.sample.injuries import SITE_AREA, SITE_SIDE, Injuries
from seasonboard.sample.people import People
from seasonboard.sample.rates import AREAS
from seasonboard.sample.schedule import DAY, LAST, day_number
from seasonboard.sample.truth import truth
from seasonboard.sample.turnaround import NEVER, Orders


def return_requests(injuries: Injuries, orders: Orders, draws: Draws) -> Requests:
    """Sites hurt badly enough that a guard was asked for, and not covered by one already."""
    kind_of = np.full(len(AREAS), -1, dtype=np.int64)
    kind_of[[AREAS.index(AREA_OF[name]) for name in KINDS]] = np.arange(len(KINDS))
    kind = kind_of[SITE_AREA[injuries.site]]
    wanted = (kind >= 0) & (injuries.lost >= 2)
    wanted &= draws.chance(len(injuries), truth().return_guard_share)
    summer = day_number(dt.date(2026, 7, 6)) * DAY
    lag = (1 + draws.below(len(injuries), 6)) * DAY + 9 * 60 + draws.below(len(injuries), 480)
    asked = np.where(injuries.row < 0, summer, injuries.day * DAY)
    asked = asked + lag
    code = (injuries.athlete * len(KINDS) + kind) * len(SIDES)
    alive = orders.cancelled == NEVER
    owned = (orders.athlete[alive] * len(KINDS) + orders.kind[alive]) * len(SIDES)
    covered = np.r_[owned + orders.side[alive], (owned + 0)[orders.side[alive] == BOTH],
                    (owned + 1)[orders.side[alive] == BOTH]]  # fmt: skip
    site = code + SITE_SIDE[injuries.site]
    wanted &= ~np.isin(site, covered)
    rows = np.flatnonzero(wanted)
    rows = rows[np.argsort(asked[rows], kind="stable")]
    rows = rows[np.sort(np.unique(site[rows], return_index=True)[1])]
    return Requests(injuries.athlete[rows], kind[rows], SITE_SIDE[injuries.site[rows]], asked[rows])


def injuries_frame(
    injuries: Injuries, session_of_row: pl.Series, people: People, draws: Draws
) -> pl.DataFrame:
    """The injuries table, oldest first; a few have no session, open ones no return."""
    count = len(injuries)
    of = injuries.diagnosis
    area = SITE_AREA[injuries.site]
    onset = np.array([diagnosis.onset for diagnosis in DIAGNOSES])[of]
    planted = truth()
    share = np.where(
        onset == GRADUAL, planted.no_session_share_gradual, planted.outside_sport_share
    )
    hidden = draws.chance(count, share)
    with_session = (injuries.row >= 0) & ~hidden
    mechanism = np.array([diagnosis.mechanism for diagnosis in DIAGNOSES])[of]
    mechanism = np.where(onset == GRADUAL, MECHANISMS.index("non-contact"), mechanism)
    swapped = draws.chance(count, 0.1) & (onset != GRADUAL)
    mechanism = np.where(swapped, draws.below(count, len(MECHANISMS)), mechanism)
    told = injuries.day + draws.pick(count, (0.75, 0.16, 0.05, 0.02, 0.01, 0.01))
    frame = pl.DataFrame(
        {
            "athlete": people.keys.gather(injuries.athlete),
            "occurred": injuries.day,
            "session": session_of_row.gather(np.maximum(injuries.row, 0)),
            "area": pl.Series(AREAS).gather(area),
            "side": pl.Series(SIDES).gather(SITE_SIDE[injuries.site]),
            "tissue": pl.Series([diagnosis.tissue for diagnosis in DIAGNOSES]).gather(of),
            "pathology": pl.Series([diagnosis.pathology for diagnosis in DIAGNOSES]).gather(of),
            "onset": pl.Series(ONSETS).gather(onset),
            "mechanism": pl.Series(MECHANISMS).gather(mechanism),
            "reported": np.minimum(np.minimum(told, injuries.back), LAST),
            "returned": injuries.back,
            "starts": injuries.starts,
            "with_session": with_session,
            "outside": hidden & (onset != GRADUAL),
            "before": injuries.row < 0,
        }
    ).sort("starts", "athlete", "area", "side")
    return _with_history(frame)


def _with_history(frame: pl.DataFrame) -> pl.DataFrame:
    """New, local, re-injury or exacerbation, from the athlete's last injury to the same site."""
    site = ("athlete", "area", "side")
    last_tissue = pl.col("tissue").shift(1).over(*site)
    last_return = pl.col("returned").shift(1).over(*site)
    history = (
        pl.when(last_tissue.is_null())
        .then(pl.lit("new"))
        .when(last_tissue != pl.col("tissue"))
        .then(pl.lit("local"))
        .when(pl.col("occurred") <= last_return)
        .then(pl.lit("exacerbation"))
        .otherwise(pl.lit("reinjury"))
    )
    note = (
        pl.when("before")
        .then(pl.lit("from the year before"))
        .when("outside")
        .then(pl.lit("outside sport"))
    )
    number = pl.int_range(1, pl.len() + 1).cast(pl.String).str.zfill(5)
    return frame.select(
        pl.concat_str(pl.lit("I"), number).alias("injury"),
        "athlete",
        _date("occurred").alias("occurred_on"),
        pl.when("with_session").then("session").alias("session"),
        "area",
        "side",
        "tissue",
        "pathology",
        "onset",
        "mechanism",
        history.alias("history"),
        _date("reported").alias("reported_on"),
        pl.when(pl.col("returned") <= LAST).then(_date("returned")).alias("returned_on"),
        note.alias("note"),
    )


def _date(column: str) -> pl.Expr:
    """Days since 1970 as a date."""
    return pl.col(column).cast(pl.Int32).cast(pl.Date)
