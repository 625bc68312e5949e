"""What an answer is told with: its figures and tables, each described once for every reader.

A `Field` is one figure or word, a `Group` several that belong together, a `Table` rows of them.
From these, and only from these, come JSON, CSV, text, the rows of a page, the rows behind a number,
the tables of documents, and the list of fields in `--help`.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from enum import Enum, StrEnum
from functools import partial
from operator import attrgetter
from typing import Any

from seasonboard.answers import words

Single = str | int | float | bool | date | datetime | None
Value = Single | Sequence[Single] | Mapping[str, int] | Mapping[str, str]
"""A figure or word as the answer holds it, or several: unrounded; None where it cannot be told."""


class Kind(StrEnum):
    """What a field holds, which says how people read it and at which side it stands."""

    TEXT = "text"
    COUNT = "count"
    SHARE = "share"
    WHOLE = "whole"
    TENTHS = "tenths"
    HUNDREDTHS = "hundredths"
    THOUSANDTHS = "thousandths"
    RATIO = "ratio"
    DURATION = "duration"
    DAY = "day"
    INSTANT = "instant"
    FLAG = "flag"

    @property
    def is_number(self) -> bool:
        """Say whether it stands at the right."""
        return self not in {Kind.TEXT, Kind.DAY, Kind.INSTANT, Kind.FLAG}


class Privacy(Enum):
    """What a field may give away of a person."""

    PLAIN = "nothing"
    KEY = "a key of a person or of what belongs to one"
    NAME = "a name"
    FREE_TEXT = "text that was typed freely"


def of(path: str) -> Callable[[Any], Any]:
    """Return what takes an attribute from a row, `a.b` by way of another; None is passed on.

    Of a row of a frame, which is a dictionary, it takes the cell of that name.
    """
    names = path.split(".")

    def get(row: object) -> Any:  # noqa: ANN401 - whatever the attribute holds
        for name in names:
            if row is None:
                return None
            row = row[name] if isinstance(row, dict) else getattr(row, name)
        return row

    return get


def of_its_name(_row: object) -> None:
    """Stand for what takes the attribute that is called as the field."""


@dataclass(frozen=True, slots=True)
class Field:
    """One figure or word of a row.

    Attributes:
        name: JSON key, CSV column, heading of a machine's table.
        meaning: One line: what it is, and its unit; printed by `--help`.
        kind: What it holds.
        get: Takes it from the row, unrounded; None where it cannot be told. Without one it is the
            attribute called as the field.
        heading: Where people read it, or what makes the heading from the answer; None: nowhere.
        show: How people read it; without one, by its kind.
        privacy: What it may give away.
        optional: Whether it may be empty with no reason beside it, since nothing was recorded.
        in_json: Whether JSON has it.
        in_csv: Whether CSV has it.
        when: Whether people read it in this answer; always, without one.
    """

    name: str
    meaning: str
    kind: Kind = Kind.TEXT
    get: Callable[[Any], Value] = of_its_name
    heading: str | Callable[[Any], str] | None = None
    show: Callable[[Any], str] | None = None
    privacy: Privacy = Privacy.PLAIN
    optional: bool = False
    in_json: bool = True
    in_csv: bool = True
    when: Callable[[Any], bool] | None = None

    def __post_init__(self) -> None:
        """Take the attribute called as the field where nothing else is said."""
        if self.get is of_its_name:
            object.__setattr__(self, "get", of(self.name))

    def read(self, row: object) -> str:
        """Return the field of a row as people read it."""
        return self.show(row) if self.show is not None else read_value(self.get(row), self.kind)

    def heading_of(self, answer: object) -> str:
        """Return its heading in an answer."""
        heading = self.name if self.heading is None else self.heading
        return heading(answer) if callable(heading) else heading


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that belong together: an object in JSON, columns with its name before them in CSV.

    Attributes:
        name: Its JSON key; empty: its fields stand among those around it.
        of: Takes from the row what the fields are taken from; None: there is nothing.
        elements: Its fields, and groups and tables within it.
        meaning: One line.
        in_json: Whether JSON has it.
        in_csv: Whether CSV has it.
        json_name: Makes its JSON key from what its fields are taken from; without it, `name`.
        optional: Whether JSON leaves it out where it was not asked for: where `of` gives None.
    """

    name: str
    of: Callable[[Any], Any]
    elements: "tuple[Element, ...]"
    meaning: str = ""
    in_json: bool = True
    in_csv: bool = True
    json_name: Callable[[Any], str] | None = None
    optional: bool = False

    @classmethod
    def described(
        cls, name: str, get: Callable[[Any], Any], meaning: str, *elements: "Element"
    ) -> "Group":
        """Return a group of elements."""
        return cls(name, get, elements, meaning)


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of fields: an array in JSON, a table for people, and the CSV of its question.

    Attributes:
        name: Its JSON key.
        rows: Takes the rows from the answer, or from the row it belongs to; None: not known.
        elements: The fields of a row, in the order of the file.
        meaning: One line: what a row is.
        reading: Names of fields in the order in which people read them; empty: that of the file.
        optional: Whether JSON leaves it out where it was not asked for: where `rows` gives None,
            which is null otherwise.
    """

    name: str
    rows: Callable[[Any], Iterable[Any] | None]
    elements: "tuple[Element, ...]"
    meaning: str = ""
    reading: tuple[str, ...] = ()
    optional: bool = False
    _by_name: "dict[str, Field]" = field(default_factory=dict, init=False, repr=False)

    @classmethod
    def described(
        cls,
        name: str,
        meaning: str,
        *elements: "Element",
        rows: Callable[[Any], Iterable[Any] | None] | None = None,
        reading: tuple[str, ...] = (),
    ) -> "Table":
        """Return a table of elements; without `rows` these are the attribute called as it."""
        return cls(name, rows or of(name), elements, meaning, reading)

    def __post_init__(self) -> None:
        """Find its fields by their names; fields of a group carry the group's before their own."""
        for name, one in _flat(self.elements):
            if name in self._by_name:
                raise ValueError(f"{self.name}: two fields are called {name}")
            self._by_name[name] = one
        if unknown := set(self.reading) - self._by_name.keys():
            raise ValueError(f"{self.name}: no field is called {', '.join(sorted(unknown))}")

    def field(self, name: str) -> Field:
        """Return the field called `name`; one within a group as `group.name`."""
        return self._by_name[name]

    def only(self, *names: str) -> "tuple[Element, ...]":
        """Return the elements of these names, in the order of the table."""
        return tuple(one for one in self.elements if one.name in names)

    def read_fields(self, answer: object = None) -> tuple[Field, ...]:
        """Return the fields that people read in an answer, in the order of reading."""
        names = self.reading or tuple(
            name for name, one in self._by_name.items() if one.heading is not None
        )
        fields = (self._by_name[name] for name in names)
        return tuple(one for one in fields if one.when is None or one.when(answer))


@dataclass(frozen=True, slots=True)
class TableChoice(Table):
    """Rows that one of several tables describes: what the rows belong to names it.

    Attributes:
        tables: The tables.
        choose: Takes the one that holds from what the rows belong to.
    """

    tables: tuple[Table, ...] = ()
    choose: Callable[[Any], Table] = attrgetter("table")


Element = Field | Group | Table


def for_people(
    name: str,
    heading: str | Callable[[Any], str],
    show: Callable[[Any], str],
    kind: Kind = Kind.TEXT,
) -> Field:
    """Describe what only people read: words made of figures that stand elsewhere in the row."""
    return Field(name, "", kind, get=show, heading=heading, show=show, in_json=False, in_csv=False)


def why(get: Callable[[Any], str], name: str = "why", *, in_csv: bool = False) -> Field:
    """Describe why something beside it is null; JSON has it only where it says something."""
    return Field(name, "why something beside it is null", get=get, in_csv=in_csv)


def read_value(value: Value, kind: Kind) -> str:
    """Return a value as people read it; a dash where it cannot be told."""
    if value is None or value == "":
        return "–"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return f"{value:%Y-%m-%d %H:%M}"
    if isinstance(value, (str, date)):
        return str(value)
    if isinstance(value, (int, float)):
        as_it_is = words.whole(value) if isinstance(value, int) else f"{value:g}"
        return _READ[kind](value) if kind in _READ else as_it_is
    return joined(value) or "–"


def joined(values: Sequence[Single] | Mapping[str, int] | Mapping[str, str]) -> str:
    """Return several words as one text: sentences one after the other, others with commas."""
    if isinstance(values, Mapping):
        return ", ".join(
            f"{name} ({one})" if isinstance(one, str) else f"{words.whole(one)} {name}"
            for name, one in values.items()
        )
    texts = [str(machine_value(value)) for value in values if value is not None]
    return (" " if all(text.endswith(".") for text in texts) else ", ").join(texts)


_READ: Mapping[Kind, Callable[[float], str]] = {
    Kind.SHARE: words.percent,
    Kind.RATIO: words.ratio,
    Kind.WHOLE: lambda value: words.whole(round(value)),
    Kind.DURATION: words.duration,
    Kind.TENTHS: partial(words.number, digits=1),
    Kind.HUNDREDTHS: words.number,
    Kind.THOUSANDTHS: partial(words.number, digits=3),
}
"""How people read a number of each kind; counts and all others as they are."""


def _flat(elements: Iterable[Element]) -> Iterator[tuple[str, Field]]:
    """Yield every field with its name; within a group the field takes its value from the row."""
    for one in elements:
        if isinstance(one, Field):
            yield one.name, one
        elif isinstance(one, Group):
            for name, inner in _flat(one.elements):
                whole = f"{one.name}.{name}" if one.name else name
                yield whole, from_row(inner, one)


def from_row(one: Field, group: Group) -> Field:
    """Return a field of a group as one of the row, called as its column of a table."""

    def within(read: Callable[[Any], Any], nothing: str | None = None) -> Callable[[Any], Any]:
        def both(row: object) -> Any:  # noqa: ANN401 - whatever is read
            inner = group.of(row)
            return nothing if inner is None else read(inner)

        return both

    name = column_name(group.name, one.name)
    show = None if one.show is None else within(one.show, "–")
    return replace(one, name=name, get=within(one.get), show=show)


def machine_value(value: Value) -> Any:  # noqa: ANN401 - what JSON can hold
    """Return a value as JSON holds it: days and instants in ISO 8601, words as text."""
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    if isinstance(value, str):
        return str(value)
    if value is None or isinstance(value, (bool, int, float)):
        return value
    if isinstance(value, Mapping):
        return {str(name): count for name, count in value.items()}
    return [machine_value(item) for item in value]


def column_name(group: str, name: str) -> str:
    """Return the name of a CSV column: that of its group, then its own."""
    if not group:
        return name
    is_of_group = name == "value" or f"_{group}".endswith(f"_{name}")
    return group if is_of_group else f"{group}_{name}"
