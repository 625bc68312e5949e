"""What a stored table and its columns are described by; the description is `stored_tables`."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import polars as pl


class CellType(Enum):
    """What the cells of a column hold."""

    KEY = "a key"
    TEXT = "text"
    LINES = "text of one or more lines"
    TIME_ZONE = "a time zone of the IANA list"
    WORD = "one word of a closed list"
    INTEGER = "a whole number"
    NUMBER = "a number"
    DATE = "a date"
    INSTANT = "a date with a time"


_SQL_TYPES: Mapping[CellType, str] = {
    CellType.INTEGER: "INTEGER",
    CellType.NUMBER: "DOUBLE",
    CellType.DATE: "DATE",
    CellType.INSTANT: "TIMESTAMPTZ",
}
"""DuckDB types of what is not text; a closed list is stored as an ENUM and read as text."""


class Cover(IntEnum):
    """What the curtain does with a column; of one name in several tables the largest counts."""

    SHOWN = 0
    SEARCHED = 1
    """Shown where it holds no athlete's name or key."""
    CODED = 2
    """A key of a person, or of what belongs to one: a code stands for it."""
    LEFT_OUT = 3
    COVERED = 4


@dataclass(frozen=True, slots=True)
class StoredColumn:
    """One column; its name is its heading in files, and in the store if it is not `numbered_in`.

    Attributes:
        holds: What its cells hold.
        meaning: What it says, in a few words.
        words: The closed list.
        unit: Of a number; spellings of units are in store/intake/synonyms.toml.
        refers: The table and column in which its keys must stand.
        numbered_in: The table whose small numbers stand for its keys in the store.
        high: The largest number there can be.
        plausible: The smallest and largest size that a record can have.
        cover: What the curtain does with it; None: text and keys are covered, all else is shown.
        headings: What else files call it, with commas between; names that columns have in every
            table are in store/intake/synonyms.toml.
        label: How a form calls it, where its name does not say it.
    """

    name: str
    holds: CellType
    meaning: str
    required: bool = False
    words: tuple[str, ...] = ()
    unit: str = ""
    refers: tuple[str, str] | None = None
    numbered_in: str = ""
    high: float | None = None
    plausible: tuple[float, float] | None = None
    cover: Cover | None = None
    headings: str = ""
    label: str = ""

    @property
    def frame_type(self) -> "pl.DataType":
        """The polars type of its cells, once they are read."""
        import polars as pl

        types = {
            CellType.INTEGER: pl.Int64(),
            CellType.NUMBER: pl.Float64(),
            CellType.DATE: pl.Date(),
            CellType.INSTANT: pl.Datetime("us", "UTC"),
        }
        return types.get(self.holds, pl.String())

    @property
    def sql_type(self) -> str:
        """The DuckDB type of its cells, as they are read."""
        return _SQL_TYPES.get(self.holds, "VARCHAR")

    @property
    def curtain(self) -> Cover:
        """What the curtain does with it."""
        is_free = self.is_free and self.holds is not CellType.TIME_ZONE
        usual = Cover.COVERED if is_free else Cover.SHOWN
        return usual if self.cover is None else self.cover

    @property
    def is_free(self) -> bool:
        """Whether any text may stand in it."""
        return self.holds in {CellType.KEY, CellType.TEXT, CellType.LINES, CellType.TIME_ZONE}

    @property
    def stored_name(self) -> str:
        """Its name in the store."""
        return f"{self.name}_no" if self.numbered_in else self.name

    @property
    def form_label(self) -> str:
        """How a form calls it: “reported” for `reported_on`."""
        plain = self.name.removesuffix("_on").removesuffix("_at").replace("_", " ")
        return self.label or plain


@dataclass(frozen=True, slots=True)
class StoredTable:
    """One table: its columns in their written order, and those of its `key`, which name a row.

    `meaning` is what a row is; `other_names` what else files and sheets are called, with commas
    between; `number` the store's own small number of a row; `derived` further columns of the store,
    worked out when a row is written. Where a file has no keys, the cells `key_made_of` make one;
    `first_key` is what a form proposes where they do not.
    """

    name: str
    meaning: str
    key: tuple[str, ...]
    columns: tuple[StoredColumn, ...]
    other_names: str = ""
    number: str = ""
    derived: tuple[str, ...] = ()
    key_made_of: tuple[str, ...] = ()
    first_key: str = ""

    @property
    def names(self) -> list[str]:
        """The column names, in order."""
        return [column.name for column in self.columns]

    @property
    def required(self) -> list[str]:
        """The columns no file may lack and no row may leave empty."""
        return [column.name for column in self.columns if column.required]

    def column(self, name: str) -> StoredColumn:
        """Return the column called `name`."""
        return next(column for column in self.columns if column.name == name)

    @property
    def key_columns(self) -> list[StoredColumn]:
        """The columns of the key, in its order."""
        return [self.column(name) for name in self.key]

    @property
    def frame_types(self) -> "dict[str, pl.DataType]":
        """The polars schema of the table."""
        return {column.name: column.frame_type for column in self.columns}
