"""One sheet's part of a proposed mapping, while it grows, and what it may go by."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from seasonboard.errors import OpenQuestion, Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.header import own_columns, stands_in
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import first_few
from seasonboard.store.intake.seasons import SeasonYears
from seasonboard.store.intake.sources import OpenSheet, TableSource
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.teams_by_name import known_teams
from seasonboard.store.intake.text_columns import distinct, folded_names
from seasonboard.stored_column import StoredTable

SAMPLE = 200
"""Rows that a proposal looks at."""
_EXAMPLES, _LONGEST_EXAMPLE = 3, 24


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


@dataclass(slots=True)
class MappingDraft:
    """How one sheet is read, as far as it can be told by what is `known`.

    `stages` is heading → stage of dates side by side, `sites` heading → kind and side of ticks,
    `worn` the heading that says whether a guard was worn; columns in `without` have no heading,
    headings in `left_out` no column; `years` are those of dates without one, `proof` says what
    settles their order.
    """

    sheet: OpenSheet
    table: StoredTable
    known: DraftKnowledge
    columns: dict[str, tuple[str, ...]] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    dates: str | None = None
    proof: str = ""
    without: set[str] = field(default_factory=set)
    left_out: set[str] = field(default_factory=set)
    stages: dict[str, str] = field(default_factory=dict)
    sites: dict[str, str] = field(default_factory=dict)
    worn: str = ""
    years: SeasonYears | None = None
    questions: list[Problem] = field(default_factory=list)

    @property
    def synonyms(self) -> Synonyms:
        """Return what headings and values may be called."""
        return self.known.synonyms

    @property
    def own(self) -> list[str]:
        """Return the columns that its table may have in a file."""
        return own_columns(self.table)

    def ask(
        self,
        column: str | None,
        said: str,
        value: str | None = None,
        choices: Sequence[str] | None = None,
        *,
        wish: str = "column",
    ) -> None:
        """Add an open question; without choices, any heading that has no column may answer it."""
        row, label = self.sheet.grid.header_row, self.sheet.label
        is_column = wish in {"column", "time"} and column is not None
        is_needed = column in self.table.required or not is_column
        may_fill = is_column or wish == "value"
        question = OpenQuestion(label, row, column, value, said, None, wish, self.table.name,
                            tuple(self.free() if choices is None else choices),
                            may_skip=not is_needed, may_fill=may_fill)  # fmt: skip
        self.questions.append(question)

    def free(self) -> list[str]:
        """Return the headings that no column has yet."""
        used = {heading for many in self.columns.values() for heading in many}
        used |= self.left_out | self.stages.keys() | self.sites.keys() | {self.worn}
        return [one for one in self.sheet.grid.headings if one not in used]

    def lacks(self, column: str) -> bool:
        """Say whether a column has neither a heading nor a value, and may get one."""
        named = {*self.columns, *self.constants, *self.without}
        return column not in named and not stands_in(self.table, column, self.columns)

    def cells(self, heading: str) -> pl.Series:
        """Return the first cells under a heading that hold something."""
        return cells_of(self.sheet.grid, heading).head(SAMPLE)

    def examples(self, heading: str) -> str:
        """Return a few values under a heading, as a proposal shows them."""
        return examples(self.sheet.grid, heading)


def share_of(holds: pl.Series) -> float:
    """Return the share of a boolean column that is true; 0 of none."""
    return int(holds.sum()) / max(1, len(holds))


def cells_of(grid: Grid, heading: str) -> pl.Series:
    """Return the cells of a column that hold something."""
    return grid.body[grid.places[heading]].drop_nulls()


def examples(grid: Grid, heading: str) -> str:
    """Return a few values of a column, as a proposal shows them."""
    return few_of(cells_of(grid, heading)) if heading in grid.places else ""


def few_of(cells: pl.Series) -> str:
    """Return a few values of cells that hold something."""
    most = _LONGEST_EXAMPLE
    words = [clean_word(one) for one in cells.head(SAMPLE).unique(maintain_order=True)]
    shown = [one if len(one) <= most else one[: most - 1] + "…" for one in words]
    return first_few(shown, _EXAMPLES) or "nothing"


def draft_knowledge(sources: Sequence[TableSource], context: LoadContext) -> DraftKnowledge:
    """Return what the store and the sheets in the tables' own words, `sources`, hold."""
    season = context.season

    def values(table: str, column: str) -> set[str]:
        frames = [season.stored(table), *_own_rows(table, (column,), sources)]
        return {value for rows in frames for value in distinct(rows[column])}

    stored = known_teams(season).cast(pl.String)
    teams = pl.concat([stored, _own_teams(sources, stored)], how="diagonal").drop_nulls("team")
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
