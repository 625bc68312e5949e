"""What is known while a load is checked: the store's rows, with the incoming ones over them."""

import polars as pl

from seasonboard.store.intake.values import time_zones
from seasonboard.store.store import Store
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES


class SeasonRows:
    """The store's tables and the incoming ones, each read once.

    An incoming row stands in place of the stored row of the same key. Tables whose file could not
    be read are `unread`: nothing is checked against them, so that one fault is told once.
    """

    def __init__(self, store: Store) -> None:
        """Read nothing yet."""
        self.store = store
        self._stored: dict[str, pl.DataFrame] = {}
        self._now: dict[str, pl.DataFrame] = {}
        self.incoming: dict[str, pl.DataFrame] = {}
        self.unread: set[str] = set()

    def stored(self, name: str) -> pl.DataFrame:
        """Return a table as the store holds it, under its text keys."""
        if name not in self._stored:
            rows = self.store.read(f"store/{name}")
            self._stored[name] = rows.cast(pl.Schema(TABLES[name].frame_types))
        return self._stored[name]

    def take(self, name: str, rows: pl.DataFrame) -> None:
        """Lay incoming rows (the columns of the table, complete) over the stored ones."""
        self.incoming[name] = rows
        self._now.pop(name, None)

    def now(self, name: str) -> pl.DataFrame:
        """Return a table as it would be after the load."""
        if name not in self._now:
            table = TABLES[name]
            self._now[name] = _laid_over(table, self.incoming.get(name), self.stored(name))
        return self._now[name]

    def keys(self, name: str, column: str) -> pl.Series:
        """Return the distinct values a reference to this column may take."""
        return self.now(name)[column].drop_nulls().unique().sort()

    def zones_of_teams(self) -> pl.DataFrame:
        """Return team, department and time_zone, for teams whose zone is known and exists."""
        departments = self.now("departments").select("department", "time_zone")
        departments = departments.filter(pl.col("time_zone").is_in(time_zones()))
        return self.now("teams").select("team", "department").join(departments, on="department")

    def zones_of_athletes(self) -> pl.DataFrame:
        """Return athlete and time_zone: that of the athlete's first team, in team order."""
        rows = self.now("roster").select("athlete", "team").join(self.zones_of_teams(), on="team")
        first = rows.sort("athlete", "team").unique("athlete", keep="first")
        return first.select("athlete", "time_zone")

    def zones_of_guards(self) -> pl.DataFrame:
        """Return guard and time_zone: that of its athlete."""
        guards = self.now("guards").select("guard", "athlete")
        return guards.join(self.zones_of_athletes(), on="athlete").select("guard", "time_zone")

    def days_of_sessions(self) -> pl.DataFrame:
        """Return session, team, season, starts_at; local_time, played_on where the team plays."""
        sessions = self.now("sessions").select("session", "team", "season", "starts_at")
        local = with_local_time(sessions.join(self.zones_of_teams(), on="team"))
        local = local.with_columns(played_on=pl.col("local_time").dt.date())
        return local.drop("department", "time_zone")

    def with_days(self, rows: pl.DataFrame) -> pl.DataFrame:
        """Return rows with `played_on`, the day of their session where its team plays."""
        days = self.days_of_sessions().select("session", "played_on").unique("session")
        return rows.join(days, on="session", how="left", maintain_order="left")


def with_local_time(rows: pl.DataFrame) -> pl.DataFrame:
    """Return rows zone by zone, with the `local_time` of `starts_at` in their `time_zone`."""
    parts = [
        part.with_columns(
            local_time=pl.col("starts_at")
            .dt.convert_time_zone(str(zone))
            .dt.replace_time_zone(None)
        )
        for (zone,), part in rows.partition_by("time_zone", as_dict=True).items()
    ]
    empty = rows.clear().with_columns(local_time=pl.lit(None, pl.Datetime("us")))
    return pl.concat([empty, *parts])


def _laid_over(
    table: StoredTable, incoming: pl.DataFrame | None, stored: pl.DataFrame
) -> pl.DataFrame:
    if incoming is None:
        return stored
    rows = incoming.select(table.names)
    if stored.is_empty():
        return rows
    others = stored.join(rows, on=list(table.key), how="anti")
    return pl.concat([rows, others])
