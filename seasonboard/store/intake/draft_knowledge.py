"""What a proposal may go by beside a sheet itself: what the store and the other files hold."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.sources import TableSource
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.teams_by_name import known_teams
from seasonboard.store.intake.text_columns import distinct, folded_names


@dataclass(slots=True)
class DraftKnowledge:
    """What is known when mappings are drafted.

    Attributes:
        options: Answers given with the command.
        synonyms: What headings and values may be called.
        teams: `team`, `department`, `department_name`, `sport`, `sex`.
        seasons: The seasons.
        only: Column → value of which there is one alone.
        athletes: Keys of athletes.
        people: `team` and `name` (folded) of the rosters.
        kinds: Kinds of guards.
        has_guards: Whether any guard is known.
    """

    options: LoadOptions
    synonyms: Synonyms
    teams: pl.DataFrame
    seasons: list[str] = field(default_factory=list)
    only: dict[str, str] = field(default_factory=dict)
    athletes: frozenset[str] = frozenset()
    people: pl.DataFrame = field(default_factory=pl.DataFrame)
    kinds: tuple[str, ...] = ()
    has_guards: bool = False

    def learn(self, column: str, value: str) -> None:
        """Keep what one sheet said, for those that are drafted after it."""
        if column == "season" and value not in self.seasons:
            self.seasons.append(value)
        if self.only.setdefault(column, value) != value:
            del self.only[column]


def draft_knowledge(sources: Sequence[TableSource], context: LoadContext) -> DraftKnowledge:
    """Return what the store and the sheets in the tables' own words, `sources`, hold."""
    season = context.season

    def values(table: str, column: str) -> set[str]:
        frames = [season.stored(table), *_own_rows(table, (column,), sources)]
        return {value for rows in frames for value in distinct(rows[column])}

    stored = known_teams(season).cast(pl.String)
    teams = pl.concat([stored, _own_teams(sources, stored)], how="diagonal")
    columns = {
        "team": values("teams", "team"),
        "department": values("departments", "department"),
        "season": values("sessions", "season") | values("roster", "season"),
    }
    people = pl.concat(
        [
            season.stored("roster").select("team", "name"),
            *_own_rows("roster", ("team", "name"), sources),
        ]
    )
    return DraftKnowledge(
        context.options,
        context.synonyms,
        teams.unique("team", keep="last", maintain_order=True),
        sorted(columns["season"]),
        {name: next(iter(one)) for name, one in columns.items() if len(one) == 1},
        frozenset(values("roster", "athlete")),
        people.with_columns(folded_names(people["name"])),
        tuple(sorted(values("kinds", "kind"))),
        bool(values("guards", "guard")),
    )


def _own_rows(
    table: str, columns: Sequence[str], sources: Sequence[TableSource]
) -> list[pl.DataFrame]:
    """Return columns of the sheets of one table that are in its own words."""
    rows = []
    for source in sources:
        places = {heading.casefold(): one for heading, one in source.grid.places.items()}
        if source.mapping is None and source.table == table and set(columns) <= places.keys():
            rows.append(source.grid.body.select(pl.col(places[one]).alias(one) for one in columns))
    return rows


def _own_teams(sources: Sequence[TableSource], stored: pl.DataFrame) -> pl.DataFrame:
    teams = _own_rows("teams", ("team", "department", "sport", "sex"), sources)
    if not teams:
        return stored.clear()
    rows = _own_rows("departments", ("department", "name"), sources)
    empty = pl.DataFrame(schema={"department": pl.String, "name": pl.String})
    names = pl.concat([empty, *rows]).rename({"name": "department_name"})
    return pl.concat(teams).join(names, on="department", how="left", maintain_order="left")
