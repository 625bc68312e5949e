"""Putting the questions to a store, with a scope of which most is left open."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import polars as pl

from seasonboard.store.catalogue import catalogue
from seasonboard.store.query_cursor import QueryCursor
from seasonboard.store.store import Store

LISTS = ("seasons", "departments", "teams", "sports", "sexes", "settings", "position_groups")
MORE = ("areas", "sides", "made_of")
OPEN: dict[str, Any] = dict.fromkeys((*LISTS, *MORE)) | {
    "kinds": ["chest"],
    "purpose": "preventive",
    "outcome": "time loss",
    "until": date(2027, 1, 1),
}


def scope(through: date | None = None, **parts: object) -> dict[str, Any]:
    """Return parameters: chest guards, preventive, time loss, all there is, but for `parts`."""
    days = {} if through is None else {"until": through + timedelta(days=1)}
    return OPEN | days | parts


def put(store: Store, name: str, through: date | None = None, **parts: object) -> pl.DataFrame:
    """Put a question with the parameters it takes of a scope, and of `parts`."""
    asked = scope(through, **parts)
    return store.read(name, **{param: asked[param] for param in catalogue()[name].params})


def strata(store: Store, **parts: object) -> dict[tuple[str, str | None], tuple[int, ...]]:
    """Return (injuries guarded, bare, exposures guarded, bare, strata) by comparison, stratum.

    The strata without an injury, one row for each body area, are put together.
    """
    found: dict[tuple[str, str | None], tuple[int, ...]] = {}
    for comparison, stratum, *counts in store.read("compare/strata", **scope(**parts)).iter_rows():
        before = found.get((comparison, stratum), (0,) * 5)
        found[comparison, stratum] = tuple(map(sum, zip(before, counts[:5], strict=True)))
    return found


def total(
    found: dict[tuple[str, str | None], tuple[int, ...]], comparison: str
) -> tuple[int, int, int, int]:
    """Return (injuries guarded, bare, exposures guarded, bare) summed over the strata."""
    cells = [counts[:4] for (name, _), counts in found.items() if name == comparison]
    a, b, t1, t0 = (sum(column) for column in zip((0, 0, 0, 0), *cells, strict=True))
    return a, b, t1, t0


def crude(store: Store, **parts: object) -> tuple[int, int, int, int]:
    """Return (injuries guarded, bare, exposures guarded, bare) in all."""
    return total(strata(store, **parts), "crude")


def left_out(store: Store, **parts: object) -> dict[tuple[str, str], int]:
    """Return how many were left out, by what and why."""
    rows = store.read("compare/left_out", **scope(**parts)).iter_rows()
    return {(what, why): number for what, why, number in rows}


def owned(store: Store, **parts: object) -> list[tuple[str, str, str]]:
    """Return (session, athlete, wear) of every exposure of a site whose athlete had a guard."""
    cursor = QueryCursor(store._connection.cursor())
    cursor.rows(catalogue()["compare/recording"], scope(**parts))  # lays the working tables ready
    rows = cursor.cursor.sql(
        "SELECT session, athlete, wear FROM owned_sites() "
        "JOIN store.sessions USING (session_no) JOIN store.athletes USING (athlete_no)"
    )
    return rows.fetchall()


def ticks(store: Store, *, clock: str = "games", **parts: object) -> list[dict[str, Any]]:
    """Return the rows of the games question; the clock ticks by games unless `settings` say."""
    asked = scope(**({"settings": ["game"]} | parts))
    return store.read("games/ticks", **asked, clock=clock).to_dicts()


def alike(
    store: Store, *, clock: str = "games", **parts: object
) -> dict[tuple[Any, ...], list[int]]:
    """Return at risk and injured, guarded then bare, by stratum and tick of `games/strata`."""
    asked = scope(**({"settings": ["game"]} | parts))
    rows = store.read("games/strata", **asked, clock=clock).iter_rows()
    return {row[:7]: list(row[7:11]) for row in rows}


def group(
    rows: Sequence[dict[str, Any]], names: str, *, guarded: bool
) -> dict[int, tuple[int, ...]]:
    """Return the named counts of one group by tick, summed over strata."""
    found: dict[int, tuple[int, ...]] = {}
    for row in rows:
        if row["guarded"] is guarded:
            counts = tuple(row[name] for name in names.split())
            so_far = found.get(row["tick"], (0,) * len(counts))
            found[row["tick"]] = tuple(map(sum, zip(so_far, counts, strict=True)))
    return found
