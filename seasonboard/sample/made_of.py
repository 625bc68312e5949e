"""What the sample's guards were made of, and what departments found the rules to say.

Drawn after the season, in a stream of its own: nothing else hangs on it.
"""

import numpy as np
import polars as pl

from seasonboard.sample.clubs import Clubs
from seasonboard.sample.data_files import csv_file
from seasonboard.sample.draws import Draws, ranks_within
from seasonboard.sample.guards import BUILD
from seasonboard.sample.people import People
from seasonboard.sample.schedule import DAY, as_date
from seasonboard.sample.truth import SPORTS, truth
from seasonboard.sample.turnaround import FINISHED, MODELLED, NEVER, PRINTED, SCANNED, Orders

PRINTS_OF_A_LOT = 14
SOFT = "TPU"
"""What guards of hands are printed of where a player may meet basketball: nothing hard."""
_OF_THE_HAND = ("hand", "wrist", "forearm", "elbow")
_OPERATORS = ("operator A", "operator B", "operator C")
_VERSIONS = ("v1", "v2", "v3")
_VERSION_DAYS = np.array([20_715, 20_805])  # 2026-09-19 and 2026-12-18, days since 1970


def with_build(
    guards: pl.DataFrame, orders: Orders, keys: pl.Series, of: tuple[Clubs, People], draws: Draws
) -> pl.DataFrame:
    """Add lot, profile, operator, scan, version, infill and inspection to the guards table.

    `keys` are those of the guards, in the order of `orders`; `of` are clubs and people.
    """
    count, planted = len(orders), truth()
    fault = np.zeros(count, dtype=bool)
    again = orders.before >= 0
    names = np.array(tuple(planted.remake_reason_shares))
    is_fault = np.isin(names[np.maximum(orders.reason, 0)], ("damage", "print fault")) & again
    fault[orders.before[is_fault]] = True
    fast = draws.chance(
        count, np.where(fault, planted.fast_profile_share_of_faulty, planted.fast_profile_share)
    )
    quality = draws.pick(count, (0.7, 0.25, 0.05)) * np.where(orders.phone, 1, 0)
    modelled, finished = orders.times[:, MODELLED], orders.times[:, FINISHED]
    build = pl.DataFrame(
        {
            "guard": keys,
            "is_soft": _may_meet_basketball(orders, *of),
            "print_at": orders.times[:, PRINTED],
            "profile": np.where(fast, "fast 0.28", "standard 0.20"),
            "operator": pl.Series(_OPERATORS).gather(draws.pick(count, (0.5, 0.3, 0.2))),
            "scan_id": "S" + keys.str.slice(1),
            "scan_quality": pl.Series(["good", "usable", "rescan"]).gather(quality),
            "model_version": pl.Series(_VERSIONS).gather(
                np.searchsorted(_VERSION_DAYS, np.where(modelled < NEVER, modelled, 0) // DAY)
            ),
            "infill_pct": pl.Series([20.0, 30.0, 40.0]).gather(draws.pick(count, (0.2, 0.6, 0.2))),
            "day": np.where(finished < NEVER, finished, 0) // DAY,
            "inspected_by": pl.Series(_OPERATORS).gather(draws.pick(count, (0.3, 0.5, 0.2))),
            "is_looked_at": draws.chance(count, 0.9) & (finished < NEVER),
            "is_scanned": orders.times[:, SCANNED] < NEVER,
            "is_modelled": modelled < NEVER,
        }
    )
    whole = guards.join(build, on="guard", maintain_order="left").with_columns(
        material=pl.when("is_soft").then(pl.lit(SOFT)).otherwise("material")
    )
    whole = whole.with_columns(lot=_lots(whole))
    is_printed, is_looked_at = pl.col("print_at") < NEVER, pl.col("is_looked_at")
    whole = whole.with_columns(
        pl.when(is_printed).then(pl.col("lot", "profile", "operator", "infill_pct")),
        pl.when("is_scanned").then(pl.col("scan_id", "scan_quality")),
        pl.when("is_modelled").then("model_version").alias("model_version"),
        inspected_on=pl.when(is_looked_at).then(as_date(pl.col("day"))),
        inspected_by=pl.when(is_looked_at).then("inspected_by"),
        inspection=pl.when(is_looked_at).then(pl.lit("passed")),
    )
    made_of = ("lot", "profile", "operator", "scan_id", "scan_quality", "model_version")
    seen = ("infill_pct", "inspected_on", "inspected_by", "inspection")
    return whole.select(*guards.columns, *made_of, *seen)


def rules_frame(clubs: Clubs) -> pl.DataFrame:
    """The rules table; those of departments that are not there are left out."""
    keys = clubs.departments["department"]
    rows = csv_file("rules").filter(pl.col("department") < len(keys))
    return rows.with_columns(department=keys.gather(rows["department"]))


def _may_meet_basketball(orders: Orders, clubs: Clubs, people: People) -> pl.Series:
    plays = np.zeros(len(people.keys), dtype=bool)
    team = clubs.squad_team[people.row_squad]
    plays[people.row_athlete[clubs.team_sport[team] == SPORTS.index("basketball")]] = True
    area = BUILD["area"].is_in(_OF_THE_HAND).to_numpy()[orders.kind]
    return pl.Series(plays[orders.athlete] & area)


def _lots(guards: pl.DataFrame) -> pl.Series:
    """Return the lot each guard was printed of: so many prints of a material, one after another."""
    material = guards["material"].to_numpy()
    group = np.unique(material, return_inverse=True)[1].astype(np.int64)
    number = ranks_within(group, guards["print_at"].to_numpy().astype(np.float64))
    lot = pl.Series(number // PRINTS_OF_A_LOT + 1).cast(pl.String).str.zfill(2)
    return guards["material"] + "-" + lot
