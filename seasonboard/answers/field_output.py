"""Described fields as machines read them: JSON, CSV, and the list of them in help."""

from collections.abc import Iterable
from typing import Any

from seasonboard.answers.fields import (
    Element,
    Field,
    Table,
    TableChoice,
    column_name,
    from_row,
    machine_value,
)


def as_json(elements: Iterable[Element], row: object) -> dict[str, Any]:
    """Return a row as a JSON object, unrounded; a `why` that has nothing to say is left out."""
    out: dict[str, Any] = {}
    for one in elements:
        if isinstance(one, Table):
            rows = one.rows(row)
            table = one.choose(row) if isinstance(one, TableChoice) else one
            if rows is not None:
                out[one.name] = [as_json(table.elements, item) for item in rows]
            elif not one.optional:
                out[one.name] = None
        elif not one.in_json:
            continue
        elif isinstance(one, Field):
            value = machine_value(one.get(row))
            if value or not one.name.endswith("why"):
                out[one.name] = value
        elif not one.name:
            out |= as_json(one.elements, one.of(row))
        else:
            inner = one.of(row)
            key = one.name if inner is None or one.json_name is None else one.json_name(inner)
            if inner is not None or not one.optional:
                out[key] = None if inner is None else as_json(one.elements, inner)
    return out


def csv_columns(elements: Iterable[Element]) -> list[tuple[str, Field]]:
    """Return the CSV columns of a row: their names, and the field that each takes from the row."""
    columns: list[tuple[str, Field]] = []
    for one in elements:
        if isinstance(one, Table) or not one.in_csv:
            continue
        if isinstance(one, Field):
            columns.append((one.name, one))
            continue
        for name, inner in csv_columns(one.elements):
            columns.append((column_name(one.name, name), from_row(inner, one)))
    return columns


def described(
    elements: Iterable[Element], groups: dict[tuple[str, ...], str] | None = None
) -> list[str]:
    """Return a line for each field of the JSON object: its name, and what it is.

    `groups` holds what was described before: what has the same fields is said to be like it.
    """
    groups = {} if groups is None else groups
    lines: list[str] = []
    for one in elements:
        if isinstance(one, Field):
            if one.in_json:
                lines.append(f"{one.name}: {one.meaning}")
        elif isinstance(one, Table):
            lines.append(f"{one.name}: {one.meaning}; of each:")
            lines += [f"  {line}" for line in described(one.elements, groups)]
        elif one.in_json:
            inner = described(one.elements, groups)
            alike = groups.setdefault(tuple(inner), one.name) if one.name else ""
            if not one.name:
                lines += inner
            elif alike == one.name:
                lines += [f"{one.name}: {one.meaning}", *(f"  {line}" for line in inner)]
            else:
                lines.append(f"{one.name}: {one.meaning}; fields as of {alike}")
    return lines
