"""How sheets of a load are read, heading by heading, as far as a mapping reads them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class HeadingReading:
    """One heading: what is read from it (empty: nothing), and a few of its values."""

    heading: str
    meaning: str
    examples: str


@dataclass(frozen=True, slots=True)
class SettledValue:
    """What all rows of a sheet have: its name, the value, others there are, an example."""

    name: str
    value: str
    choices: tuple[str, ...] = ()
    example: str = ""


@dataclass(frozen=True, slots=True)
class SheetReading:
    """One sheet that a mapping was proposed for, or is kept of.

    Attributes:
        label: How messages call it.
        name: What it is called in its file.
        tables: What it is read as; none: it is left out.
        headings: Its headings in their order; of a grid, those beside the days.
        columns: What a heading may be read as, columns of the first of `tables`.
        may_skip: Whether a heading may also be left out.
        settled: What is the same in all rows, as a title says or an answer.
    """

    label: str
    name: str
    tables: tuple[str, ...]
    headings: tuple[HeadingReading, ...] = ()
    columns: tuple[str, ...] = ()
    may_skip: bool = True
    settled: tuple[SettledValue, ...] = ()
