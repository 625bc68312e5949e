"""A question put to the store, and the header of its SQL file, whose lists are written out.

A header is made of comment lines at the top of the file:

    -- question: what it answers, in words
    -- touches, why, mend: of a data check, the numbers it touches and what to do, if it is one
    -- works on: its working tables, if any
    -- scope: lists of parameters, as in `queries/header_lists.sql`
    -- params:
    --   name TYPE      what it is, beside those of the lists
    -- grain: one row per what
    -- columns: a list of columns, if they begin with one
    --   name TYPE      what it is, with its unit
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import takewhile

from seasonboard.errors import StoreError

_HEADED = {"scope": "params", "columns": "columns"}
"""What names lists in a header, and the block of which they are."""


@dataclass(frozen=True, slots=True)
class SqlQuestion:
    """One question of the catalogue; `params` and `columns` map names to DuckDB types.

    In `sql` the lists that the header names stand written out. `works_on` names the working tables
    that it needs, if any; `named` are the parameters that the SQL itself takes, the rest are those
    of the working tables. `header` holds whatever its header says in words.
    """

    name: str
    asks: str
    grain: str
    params: Mapping[str, str]
    columns: Mapping[str, str]
    sql: str
    works_on: str = ""
    named: frozenset[str] = frozenset()
    header: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Header:
    """A header: its one-line fields by name; names and DuckDB types of parameters and columns."""

    fields: dict[str, str] = field(default_factory=dict)
    params: dict[str, str] = field(default_factory=dict)
    columns: dict[str, str] = field(default_factory=dict)


def header_lists(text: str) -> Mapping[str, tuple[str, ...]]:
    """Return the lines of every list, for instance of `params guards`, from the text of the lists.

    Raises:
        StoreError: A list begins with one that does not stand before it.
    """
    lists: dict[str, tuple[str, ...]] = {}
    name = ""
    for line in text.splitlines():
        if start := re.fullmatch(r"-- ((params|columns) \w+):(.*)", line):
            name, block, others = start.groups()
            lists[name] = _lines_of(lists, block, others)
        elif name and line.startswith("--   "):
            lists[name] += (line,)
    return lists


def written_out(text: str, lists: Mapping[str, tuple[str, ...]]) -> str:
    """Return the text of a question in whose header each list stands line by line.

    Raises:
        StoreError: The header names a list that there is not.
    """
    lines: list[str] = []
    for line in text.splitlines():
        start = re.fullmatch(r"-- (scope|columns): (.+)", line)
        if start:
            block = _HEADED[start[1]]
            lines += [f"-- {block}:", *_lines_of(lists, block, start[2])]
        elif line != "-- params:" or line not in lines:
            lines.append(line)
    return "\n".join(lines) + "\n"


def read_header(text: str) -> Header:
    """Read a header whose lists are written out.

    Raises:
        StoreError: It describes a parameter or a column twice, or lacks a part.
    """
    header = Header()
    listed = {"params": header.params, "columns": header.columns}
    current = ""
    for written in takewhile(lambda line: line.startswith("--"), text.splitlines()):
        line = written[2:].rstrip()
        if current in listed and re.match(r"   \S", line):
            word, kind, *_ = line.split(maxsplit=2)
            if word in listed[current]:
                raise StoreError(f"{word} is described twice in {current}.")
            listed[current][word] = kind
        elif line.startswith("  ") and current in header.fields:
            header.fields[current] += " " + line.strip()
        elif not line.startswith("  "):
            current, _, rest = line.strip().partition(":")
            if current not in listed:
                header.fields[current] = rest.strip()
    if not {"question", "grain"} <= header.fields.keys() or not header.columns:
        raise StoreError("It names no question, no grain or no columns.")
    return header


def _lines_of(lists: Mapping[str, tuple[str, ...]], block: str, names: str) -> tuple[str, ...]:
    """Return the lines of the lists named, one after the other."""
    wanted = [f"{block} {name.strip()}" for name in names.split(",") if name.strip()]
    if unknown := [name for name in wanted if name not in lists]:
        raise StoreError(f"There is no list “{unknown[0]}” in queries/header_lists.sql.")
    return tuple(line for name in wanted for line in lists[name])
