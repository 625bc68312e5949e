"""What a person wishes of one load."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from seasonboard.errors import IntakeError, Problem

ORDERS = {"dmy": "day/month/year", "mdy": "month/day/year", "ymd": "year/month/day"}
TEXTS = (".csv", ".tsv", ".txt")
WORKBOOKS = (".xlsx", ".xlsm", ".xls", ".ods")
BUNDLE = ".bundle"
LOADABLE = (*TEXTS, *WORKBOOKS, ".parquet", BUNDLE)
"""How the names of files end that can be loaded."""
OF_SHEET = " › "
"""What parts a sheet and a column of it."""
DECIMALS = {"comma": "a decimal comma", "point": "a decimal point"}


@dataclass(frozen=True, slots=True)
class LoadOptions:
    """The wishes behind one load.

    Attributes:
        dates: `dmy`, `mdy` or `ymd`: how dates are written that can be read in two ways.
        decimal: `comma` or `point`: what a lone comma or point before three digits is.
        mapping: The mapping to use, by name; None recognises one by the headings.
        keep_good: Write the good rows, and the others into files of rejected rows.
        accept_likely: Take what is otherwise only offered: a key that matches without its leading
            zeros, an athlete of nearly the name; each is noted.
        wear_complete: The files hold all that was worn in the sessions of their attendance and
            wear: these are marked as completely recorded.
        columns: Answers to a proposal: `table.column` or `column` → heading.
        constants: Answers to a proposal: `table.column` or `column` → one value for all rows;
            `sheet › column` for those of one sheet.
        leave_out: Sheets, by name, and headings that are not read.
        propose: Whether files in other words are given a proposed mapping.
        write: Whether a confirmed mapping and rejected rows are written; a mere plan writes none.
        store: The store's file, beside which mappings and spellings lie; None knows none.
        backup: Whether the store is backed up before the load is written.
        conflicts: `mine`, `theirs` or `newest`: which value is taken where a bundle and the store
            both changed a cell; None refuses the bundle and lists them.
        rejects: Where files of rejected rows go; None is `STORE.rejects`.
    """

    dates: str | None = None
    decimal: str | None = None
    mapping: str | None = None
    keep_good: bool = False
    accept_likely: bool = False
    wear_complete: bool = False
    columns: Mapping[str, str] = field(default_factory=dict)
    constants: Mapping[str, str] = field(default_factory=dict)
    leave_out: tuple[str, ...] = ()
    propose: bool = False
    write: bool = True
    store: Path | None = None
    rejects: Path | None = None
    backup: bool = True
    conflicts: str | None = None

    def __post_init__(self) -> None:
        """Check the words.

        Raises:
            IntakeError: An order of dates or a decimal mark is not known.
        """
        for given, words in ((self.dates, ORDERS), (self.decimal, DECIMALS)):
            if given is not None and given not in words:
                expected = f"is not one of: {', '.join(words)}."
                raise IntakeError(Problem("options", None, None, given, expected).sentence())

    def of_sheet(self, name: str) -> "LoadOptions":
        """Return the wishes of one sheet: what is said of it alone goes before what is for all."""
        start = f"{name}{OF_SHEET}"
        own = {
            key.removeprefix(start): value
            for key, value in self.constants.items()
            if key.startswith(start)
        }
        return replace(self, constants={**self.constants, **own}) if own else self

    @property
    def mappings(self) -> Path | None:
        """Return the folder of the store's mappings."""
        return self.store and self.store.with_name(f"{self.store.name}.mappings")
