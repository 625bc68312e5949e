"""Every table a season is made of: its columns, what they hold, its key, what it refers to."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum

import polars as pl

from seasonboard import terms

FIRST_YEAR, LAST_YEAR = 1990, 2100
"""Dates and instants outside these years are slips of the pen."""


class Holds(Enum):
    """What the cells of a column hold."""

    KEY = "a key"
    TEXT = "text"
    WORD = "one word of a closed list"
    INTEGER = "a whole number"
    NUMBER = "a number"
    DATE = "a date"
    INSTANT = "a date with a time"


FRAME_TYPES: Mapping[Holds, pl.DataType] = {
    Holds.KEY: pl.String(),
    Holds.TEXT: pl.String(),
    Holds.WORD: pl.String(),
    Holds.INTEGER: pl.Int64(),
    Holds.NUMBER: pl.Float64(),
    Holds.DATE: pl.Date(),
    Holds.INSTANT: pl.Datetime("us", "UTC"),
}
"""The polars type of each kind of column, once it is read."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: `refers` is the table and column its keys must stand in, `high` its largest."""

    name: str
    holds: Holds
    required: bool = False
    words: tuple[str, ...] = ()
    refers: tuple[str, str] | None = None
    high: float | None = None

    @property
    def frame_type(self) -> pl.DataType:
        """The polars type of this column."""
        return FRAME_TYPES[self.holds]


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its columns in their written order, and the columns that name a row."""

    name: str
    key: tuple[str, ...]
    columns: tuple[Column, ...]

    @property
    def names(self) -> list[str]:
        """The column names, in order."""
        return [column.name for column in self.columns]

    @property
    def required(self) -> list[str]:
        """The columns no file may lack and no row may leave empty."""
        return [column.name for column in self.columns if column.required]

    def column(self, name: str) -> Column:
        """Return the column called `name`."""
        return next(column for column in self.columns if column.name == name)

    @property
    def frame_types(self) -> dict[str, pl.DataType]:
        """The polars schema of the table."""
        return {column.name: column.frame_type for column in self.columns}


def _key(name: str, refers: str | None = None) -> Column:
    """Describe a required key; `refers` is written `table.column`."""
    return Column(name, Holds.KEY, required=True, refers=_target(refers))


def _key_if_any(name: str, refers: str) -> Column:
    return Column(name, Holds.KEY, refers=_target(refers))


def _target(refers: str | None) -> tuple[str, str] | None:
    if refers is None:
        return None
    table, _, column = refers.partition(".")
    return table, column


def _text(name: str, *, required: bool = False) -> Column:
    return Column(name, Holds.TEXT, required=required)


def _word(name: str, words: type[StrEnum], *, required: bool = False) -> Column:
    return Column(name, Holds.WORD, required=required, words=tuple(words))


def _integer(name: str) -> Column:
    return Column(name, Holds.INTEGER, high=2**31 - 1)


def _number(name: str, high: float | None = None) -> Column:
    return Column(name, Holds.NUMBER, high=high)


def _date(name: str, *, required: bool = False) -> Column:
    return Column(name, Holds.DATE, required=required)


def _instant(name: str) -> Column:
    return Column(name, Holds.INSTANT, required=True)


_ALL = (
    Table(
        "kinds",
        ("kind", "area"),
        (
            _key("kind"),
            _word("area", terms.Area, required=True),
            _word("function", terms.Function),
        ),
    ),
    Table(
        "departments",
        ("department",),
        (
            _key("department"),
            _text("name", required=True),
            _word("plan", terms.Plan, required=True),
            _integer("prints_per_week"),
            _text("time_zone", required=True),
            _date("since"),
        ),
    ),
    Table(
        "teams",
        ("team",),
        (
            _key("team"),
            _key("department", "departments.department"),
            _text("sport", required=True),
            _word("sex", terms.Sex, required=True),
        ),
    ),
    Table(
        "roster",
        ("athlete", "team", "season"),
        (
            _key("athlete"),
            _key("team", "teams.team"),
            _key("season"),
            _text("name", required=True),
            _text("jersey"),
            _text("position"),
            _text("position_group"),
            _date("joined_on"),
            _date("left_on"),
        ),
    ),
    Table(
        "sessions",
        ("session",),
        (
            _key("session"),
            _key("team", "teams.team"),
            _key("season"),
            _instant("starts_at"),
            _word("setting", terms.Setting, required=True),
            _word("season_part", terms.SeasonPart),
            _text("label"),
        ),
    ),
    Table(
        "attendance",
        ("session", "athlete"),
        (
            _key("session", "sessions.session"),
            _key("athlete", "roster.athlete"),
            _word("part", terms.Part, required=True),
            _word("reason", terms.OutReason),
            _number("minutes"),
            _integer("plays"),
        ),
    ),
    Table(
        "guards",
        ("guard",),
        (
            _key("guard"),
            _key("athlete", "roster.athlete"),
            _key("kind", "kinds.kind"),
            _word("side", terms.Side, required=True),
            _word("purpose", terms.Purpose, required=True),
            _word("function", terms.Function),
            _word("scan_method", terms.ScanMethod),
            _text("material"),
            _number("shell_mm"),
            _number("liner_mm"),
            _number("contact_pct", high=100),
            _number("mass_g"),
            _text("printer"),
            _number("print_hours"),
            _key_if_any("remake_of", "guards.guard"),
            _word("remake_reason", terms.RemakeReason),
        ),
    ),
    Table(
        "stages",
        ("guard", "stage", "reached_at"),
        (
            _key("guard", "guards.guard"),
            _word("stage", terms.Stage, required=True),
            _instant("reached_at"),
            _text("note"),
        ),
    ),
    Table(
        "wear",
        ("session", "guard"),
        (
            _key("session", "sessions.session"),
            _key("guard", "guards.guard"),
            _word("kept_on", terms.KeptOn),
        ),
    ),
    Table(
        "injuries",
        ("injury",),
        (
            _key("injury"),
            _key("athlete", "roster.athlete"),
            _date("occurred_on", required=True),
            _key_if_any("session", "sessions.session"),
            _word("area", terms.Area, required=True),
            _word("side", terms.Side, required=True),
            _word("tissue", terms.Tissue),
            _word("pathology", terms.Pathology),
            _word("onset", terms.Onset),
            _word("mechanism", terms.Mechanism),
            _word("history", terms.History),
            _date("reported_on"),
            _date("returned_on"),
            _text("note"),
        ),
    ),
    Table(
        "offers",
        ("offer",),
        (
            _key("offer"),
            _key("athlete", "roster.athlete"),
            _key("kind", "kinds.kind"),
            _date("offered_on", required=True),
            _word("answer", terms.OfferAnswer, required=True),
            _text("reason"),
        ),
    ),
    Table(
        "decisions",
        ("decision",),
        (
            _key("decision"),
            _date("decided_on", required=True),
            _key_if_any("department", "departments.department"),
            _text("text", required=True),
            _date("due_on"),
            _date("done_on"),
        ),
    ),
)

TABLES: Mapping[str, Table] = {table.name: table for table in _ALL}
"""Every table by name; a table stands after those it refers to."""
