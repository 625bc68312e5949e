"""The open table of spellings: what files from elsewhere write, and what it means here."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from seasonboard.errors import IntakeError, Problem
from seasonboard.regular_files import UnusableFileError, read_toml
from seasonboard.store.intake.text_columns import folded
from seasonboard.stored_tables import TABLES
from seasonboard.terms import Side, Stage, nearest

_SHIPPED = Path(__file__).with_name("synonyms.toml")


@dataclass(frozen=True, slots=True)
class Synonyms:
    """Spellings by what they stand for; every spelling is folded.

    `words` is column → spelling → word, `headings` is table (or `any`) → spelling → columns,
    `tables` is spelling → table, `units` is unit of a column → unit → factor, `plausible` is
    column → smallest and largest size.
    """

    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    headings: Mapping[str, Mapping[str, tuple[str, ...]]] = field(default_factory=dict)
    tables: Mapping[str, str] = field(default_factory=dict)
    missing: frozenset[str] = frozenset()
    totals: frozenset[str] = frozenset()
    months: Mapping[str, int] = field(default_factory=dict)
    units: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    plausible: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    every_heading: frozenset[str] = frozenset()

    def columns_called(self, table: str, heading: str) -> tuple[str, ...]:
        """Return the columns of a table that a heading may stand for, the likeliest first."""
        name = heading_key(heading)
        own = self.headings.get(table, {}).get(name, ())
        common = self.headings.get("any", {}).get(name, ())
        written = tuple(one for one in TABLES[table].names if folded(one) == name)
        return tuple(dict.fromkeys([*written, *own, *common]))

    def spellings_of(self, table: str, column: str) -> list[str]:
        """Return what a column of a table may be called, folded."""
        listed = [
            spelling
            for part in (table, "any")
            for spelling, columns in self.headings.get(part, {}).items()
            if column in columns
        ]
        return [*listed, folded(column)]

    def parted_from_sides(self, spelling: str) -> tuple[str, tuple[str, ...]]:
        """Part the name of a kind or an area from sides within it: “Shin (pair)”: `shin`, both."""
        sides = dict(self.words.get("side", {})) | {str(one): str(one) for one in Side}
        words = folded(spelling).split()
        bare = " ".join(word for word in words if word not in sides)
        return bare, tuple(sides[word] for word in words if word in sides)

    def is_heading(self, text: str) -> bool:
        """Say whether any table may have a column of this heading."""
        return heading_key(text) in self.every_heading


def heading_key(heading: str) -> str:
    """Return a heading as spellings of headings are compared: folded, a question without its mark.

    A heading of marks alone, as `#`, stays as it is.
    """
    return folded(heading.replace("?", " ")) or heading.strip()


@cache
def shipped_synonyms() -> Synonyms:
    """Return the table that comes with the program."""
    return _merged(_shipped(), {})


def _shipped() -> dict[str, Any]:
    """Return the shipped file, with what the description of the tables says of them."""
    content = tomllib.loads(_SHIPPED.read_text("utf-8"))
    columns = {name: table.columns for name, table in TABLES.items()}
    headings = {
        name: {one.name: _parted(one.headings) for one in many if one.headings}
        for name, many in columns.items()
    }
    return {
        **content,
        "tables": {name: _parted(table.other_names) for name, table in TABLES.items()},
        "headings": content["headings"] | headings,
        "plausible": {
            one.name: one.plausible for many in columns.values() for one in many if one.plausible
        },
    }


def synonyms_beside(store: Path | None) -> Synonyms:
    """Return the shipped table with the store's own file, `STORE.synonyms.toml`, laid over it.

    Raises:
        IntakeError: That file is not TOML, or names a section, column or word that is not known.
    """
    if store is None:
        return shipped_synonyms()
    path = store.with_name(f"{store.name}.synonyms.toml")
    if not path.exists():
        return shipped_synonyms()
    try:
        own = read_toml(path)
    except OSError as error:
        raise _wrong(path, f"cannot be read: {error.strerror}.") from error
    except UnusableFileError as error:
        raise _wrong(path, str(error)) from error
    shipped = _shipped()
    _check(path, own, shipped)
    return _merged(shipped, own)


def _parted(listed: str) -> list[str]:
    return [name.strip() for name in listed.split(",") if name.strip()]


def _check(path: Path, own: Mapping[str, Any], shipped: Mapping[str, Any]) -> None:
    for section, content in own.items():
        if section not in shipped or not isinstance(content, dict):
            said = f"there is no section “{section}”; there are {', '.join(shipped)}."
            raise _wrong(path, said, nearest(section, list(shipped)))
    if fault := shape_fault(own):
        raise _wrong(path, fault)
    columns: dict[str, tuple[str, ...]] = {}
    for one in (column for table in TABLES.values() for column in table.columns):
        columns[one.name] = columns.get(one.name) or one.words
    for column, words in own.get("words", {}).items():
        if column not in columns:
            said = f"[words.{column}]: no column is called so."
            raise _wrong(path, said, nearest(column, list(columns)))
        for word in words:
            if columns[column] and word not in columns[column]:
                said = f"[words.{column}]: “{word}” is not one of: {', '.join(columns[column])}."
                raise _wrong(path, said, nearest(word, list(columns[column])))


def _merged(shipped: Mapping[str, Any], own: Mapping[str, Any]) -> Synonyms:
    def part(name: str) -> dict[str, list[Any]]:
        both: dict[str, list[Any]] = {}
        for layer in (shipped.get(name, {}), own.get(name, {})):
            for key, value in layer.items():
                both.setdefault(key, []).append(value)
        return both

    def turned(name: str) -> dict[str, str]:
        return _turned([{key: layer} for key, many in part(name).items() for layer in many])

    headings = {table: _headings(layers) for table, layers in part("headings").items()}
    names = {folded(name) for table in TABLES.values() for name in table.names}
    names |= {*Stage, *_turned(part("words").get("stage", []))}  # a column of dates each
    units = {unit: _floats(layers) for unit, layers in part("units").items()}
    sizes = {column: layers[-1] for column, layers in part("plausible").items()}
    return Synonyms(
        words={column: _turned(layers) for column, layers in part("words").items()},
        headings=headings,
        every_heading=frozenset(names.union(*headings.values())),
        tables=turned("tables"),
        missing=frozenset(_marks(part("missing"))),
        totals=frozenset(folded(mark) for mark in _marks(part("totals"))),
        months={one: int(number) for one, number in turned("months").items()},
        units=units,
        plausible={column: (float(low), float(high)) for column, (low, high) in sizes.items()},
    )


def _turned(layers: list[Mapping[str, list[str]]]) -> dict[str, str]:
    """Turn word → spellings into spelling → word; later layers win."""
    return {
        folded(spelling): word
        for layer in layers
        for word, spellings in layer.items()
        for spelling in spellings
    }


def _headings(layers: list[Mapping[str, list[str]]]) -> dict[str, tuple[str, ...]]:
    turned: dict[str, tuple[str, ...]] = {}
    for layer in layers:
        for column, spellings in layer.items():
            for spelling in spellings:
                name = heading_key(spelling)
                turned[name] = (*turned.get(name, ()), column)
    return turned


def _floats(layers: list[Mapping[str, Any]]) -> dict[str, float]:
    return {unit.casefold(): float(size) for layer in layers for unit, size in layer.items()}


def _marks(section: Mapping[str, list[Any]]) -> list[str]:
    return [str(mark).casefold() for layer in section.get("marks", []) for mark in layer]


def _wrong(path: Path, said: str, near: str | None = None) -> IntakeError:
    problem = Problem(str(path), None, None, None, said, near)
    return IntakeError(problem.sentence(), [problem], "Correct that file, or move it away.")


_LISTS_OF_LISTS = ("words", "headings")
_MONTHS = frozenset(map(str, range(1, 13)))
_PAIR = 2


def shape_fault(own: Mapping[str, Any]) -> str:
    """Return what in a file of spellings is of another kind than is read; empty when nothing is.

    Its sections have been looked at; each is a section.
    """
    for section, content in own.items():
        for name, value in content.items():
            where = f"[{section}] {name}"
            if section in _LISTS_OF_LISTS:
                inner = _section_fault(f"[{section}.{name}]", value)
            elif section == "units":
                inner = _units_fault(f"[units.{name}]", value)
            elif section == "plausible":
                is_range = isinstance(value, list) and len(value) == _PAIR
                is_range = is_range and all(_is_number(one) for one in value)
                inner = "" if is_range else f"{where} is not a least and a most, as [20, 500]."
            else:
                inner = _list_fault(where, value)
            if section == "months" and name not in _MONTHS:
                inner = f"{where}: months are 1 to 12."
            if inner:
                return inner
    return ""


def _section_fault(where: str, content: object) -> str:
    if not isinstance(content, dict):
        return f"{where} is not a section of words, each with a list of its spellings."
    faults = (_list_fault(f"{where} {name}", value) for name, value in content.items())
    return next(filter(None, faults), "")


def _units_fault(where: str, content: object) -> str:
    if not isinstance(content, dict) or not all(_is_number(one) for one in content.values()):
        return f"{where} is not a section of units, each with a number."
    return ""


def _list_fault(where: str, content: object) -> str:
    if not isinstance(content, list) or not all(isinstance(one, str) for one in content):
        return f'{where} is not a list of words in quotes, as ["lt", "left"].'
    return ""


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
