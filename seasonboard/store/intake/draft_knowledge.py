"""What a proposal may go by beside a sheet itself: what the store and the other files hold."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.folding import folded_name
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.table_source import TableSource
from seasonboard.store.intake.teams_by_name import known_teams

_SEASONAL = ("sessions", "roster")


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
        if column in self.only and self.only[column] != value:
            del self.only[column]
        else:
            self.only[column] = value


def draft_knowledge(sources: Sequence[TableSource], context: LoadContext) -> DraftKnowledge:
    """Return what the store and the sheets in the tables' own words hold.

    Args:
        sources: The sheets that are assigned already.
        context: The load.
    """
    season = context.season
    teams = pl.concat(
        [known_teams(season).cast(pl.String), _own_teams(sources, known_teams(season))],
        how="diagonal",
    ).unique("team", keep="last", maintain_order=True)
    columns = {
        name: _values(name, table, sources, context)
        for name, table in (("team", "teams"), ("department", "departments"))
    }
    seasons = sorted(
        {one for table in _SEASONAL for one in _values("season", table, sources, context)}
    )
    columns["season"] = set(seasons)
    only = {name: next(iter(values)) for name, values in columns.items() if len(values) == 1}
    roster = season.stored("roster").select("team", "name")
    people = pl.concat([roster, *_own_rows("roster", ("team", "name"), sources)])
    fold = {one: folded_name(one) for one in people["name"].drop_nulls().unique()}
    return DraftKnowledge(
        context.options,
        context.synonyms,
        teams,
        seasons,
        only,
        frozenset(_values("athlete", "roster", sources, context)),
        people.with_columns(
            name=pl.col("name").replace_strict(fold, default=None, return_dtype=pl.String)
        ),
        tuple(sorted(_values("kind", "kinds", sources, context))),
        bool(_values("guard", "guards", sources, context)),
    )


def _values(
    column: str, table: str, sources: Sequence[TableSource], context: LoadContext
) -> set[str]:
    values = set(context.season.stored(table)[column].drop_nulls().unique().to_list())
    for rows in _own_rows(table, (column,), sources):
        values |= set(rows[column].drop_nulls().unique().to_list())
    return values


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


def _own_teams(sources: Sequence[TableSource], empty: pl.DataFrame) -> pl.DataFrame:
    names = pl.concat(
        [pl.DataFrame(schema={"department": pl.String, "department_name": pl.String})]
        + [
            rows.rename({"name": "department_name"})
            for rows in _own_rows("departments", ("department", "name"), sources)
        ]
    )
    teams = _own_rows("teams", ("team", "department", "sport", "sex"), sources)
    if not teams:
        return empty.clear().cast(pl.String)
    return pl.concat(teams).join(names, on="department", how="left", maintain_order="left")
