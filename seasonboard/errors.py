"""What can go wrong, said so that a person can act on it."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.sheet_readings import SheetReading


class SeasonboardError(Exception):
    """A request or its data was wrong: `what` says what and where, `hint` what to do."""

    def __init__(self, what: str, hint: str = "") -> None:
        """Keep both sentences; together they are the whole message."""
        super().__init__(f"{what} {hint}".strip())
        self.what = what
        self.hint = hint


class StoreError(SeasonboardError):
    """The store could not be opened, read or written."""


class StoreLockedError(StoreError):
    """Another process holds the store."""


class ScopeError(SeasonboardError):
    """A part of the scope names something that is not known."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with one place in a file.

    `row` is the row a person sees in a spreadsheet (the header is row 1); None when the
    file as a whole is meant.
    """

    file: str
    row: int | None
    column: str | None
    value: str | None
    expected: str
    nearest: str | None = None

    def sentence(self) -> str:
        """Return the problem as one line: where, what stands there, what was expected."""
        place = self.file
        if self.row is not None:
            place += f", row {self.row}"
        if self.column is not None:
            place += f", column {self.column}"
        found = "" if self.value is None else f" “{self.value}”"
        return f"{place}:{found} {self.advice}".replace(":  ", ": ")

    @property
    def advice(self) -> str:
        """What was expected, with the nearest known word."""
        near = f" Did you mean “{self.nearest}”?" if self.nearest else ""
        return self.expected + near


@dataclass(frozen=True, slots=True)
class OpenQuestion(Problem):
    """A problem that a person settles by an answer: which column, value or order was meant.

    `wish` is what the answer is to: `dates`, `decimal`, `time` (of day), `column` (of `table`), or
    `value`: one for all files alike, under the name of the column alone.
    `choices` are answers to choose from, in the words of the file; `may_skip` says that the column
    may also be left out, `may_fill` that one value for all rows is an answer too.
    """

    wish: str = ""
    table: str = ""
    choices: tuple[str, ...] = ()
    may_skip: bool = False
    may_fill: bool = False


class IntakeError(SeasonboardError):
    """A load was refused; `problems` lists every reason, `sheets` how sheets would be read."""

    def __init__(
        self,
        what: str,
        problems: Sequence[Problem] = (),
        hint: str = "",
        sheets: Sequence[SheetReading] = (),
    ) -> None:
        """Keep the lists beside the sentence."""
        super().__init__(what, hint)
        self.problems = tuple(problems)
        self.sheets = tuple(sheets)
