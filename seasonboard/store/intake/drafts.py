"""One sheet's part of a proposed mapping, while it grows: table, columns, answers, questions."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.cleaning import clean_word
from seasonboard.store.intake.dates import order_of
from seasonboard.store.intake.findings import Findings
from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.grid import Grid
from seasonboard.store.intake.header import own_columns
from seasonboard.store.intake.keys import MADE_OF
from seasonboard.store.intake.options import ORDERS, LoadOptions
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.tables import TABLES, Column, Holds, Table
from seasonboard.store.intake.values import read_values
from seasonboard.store.intake.written import WrittenAs
from seasonboard.terms import nearest

_SAMPLE = 200
_READABLE = 0.5
_TIMES = ("time", "start", "start time", "at")
_EXAMPLES = 3
_DATED = (Holds.DATE, Holds.INSTANT)


@dataclass(slots=True)
class Draft:
    """How one sheet is read, as far as it can be told."""

    sheet: OpenSheet
    table: Table
    columns: dict[str, tuple[str, ...]] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    dates: str | None = None
    proof: str = ""
    without: set[str] = field(default_factory=set)
    questions: list[Problem] = field(default_factory=list)

    def ask(self, column: str | None, said: str, value: str | None = None) -> None:
        """Add an open question."""
        row = self.sheet.grid.header_row
        self.questions.append(Problem(self.sheet.label, row, column, value, said))

    def free(self) -> list[str]:
        """Return the headings that no column has yet."""
        used = {heading for many in self.columns.values() for heading in many}
        return [one for one in self.sheet.grid.headings if one not in used]


def draft_of(
    sheet: OpenSheet, options: LoadOptions, synonyms: Synonyms, only: Mapping[str, str]
) -> Draft:
    """Draft how one sheet is read; what cannot be told from it is a question of the draft."""
    draft = Draft(sheet, TABLES[_table_for(sheet, synonyms)])
    _take_answers(draft, options)
    _match(draft, synonyms)
    _ask_doubled(draft)
    _check_values(draft, synonyms)
    _add_time(draft)
    _fill_required(draft, only)
    _ask_near(draft)
    _settle_dates(draft, options, synonyms)
    return draft


def _table_for(sheet: OpenSheet, synonyms: Synonyms) -> str:
    """Return the table whose columns and name fit best."""
    if sheet.table is not None:
        return sheet.table

    def weight(name: str) -> float:
        table = TABLES[name]
        known = {
            column
            for heading in sheet.grid.headings
            for column in synonyms.columns_called(name, _bare(heading, synonyms)[0])[:1]
        }
        needed = [one for one in table.required if one in known]
        called = {_table_called(one, synonyms) for one in (sheet.name, sheet.path.stem)}
        return len(known) + 2 * len(needed) / len(table.required) + 3 * (name in called)

    return max(TABLES, key=weight)


def _table_called(name: str, synonyms: Synonyms) -> str | None:
    """Return the table a file or sheet is called after, also within a longer name."""
    words = re.sub(r"[0-9]+", " ", folded(name))
    known = {folded(table): table for table in TABLES} | dict(synonyms.tables)
    fitting = [one for one in known if f" {one} " in f" {' '.join(words.split())} "]
    return known[max(fitting, key=len)] if fitting else None


def _take_answers(draft: Draft, options: LoadOptions) -> None:
    name = draft.table.name
    known = own_columns(draft.table)
    headings = list(draft.sheet.grid.headings)
    for given, heading in options.columns.items():
        table, _, column = given.rpartition(".")
        if table in {"", name} and column in known and not heading.strip():
            draft.without.add(column)
        elif table in {"", name} and column in known:
            wanted = [one.strip() for one in heading.split("+")]
            close = {one.casefold(): one for one in headings}
            missing = [one for one in wanted if one.casefold() not in close]
            if missing:
                near = nearest(missing[0], headings)
                said = f"is no heading of this sheet; there are: {', '.join(headings)}."
                said += f" Did you mean “{near}”?" if near else ""
                draft.ask(column, said, missing[0])
            else:
                draft.columns[column] = tuple(close[one.casefold()] for one in wanted)
    for given, value in options.constants.items():
        table, _, column = given.rpartition(".")
        if table in {"", name} and column in [*known, "time"]:
            draft.constants[column] = value


def _match(draft: Draft, synonyms: Synonyms) -> None:
    known = own_columns(draft.table)
    for place in (0, 1):  # first the likeliest meaning of every heading, then the second
        for heading in draft.free():
            bare, unit = _bare(heading, synonyms)
            meant = [one for one in synonyms.columns_called(draft.table.name, bare) if one in known]
            column = meant[place] if place < len(meant) else None
            taken = {*draft.columns, *draft.constants, *draft.without}
            if column and column not in taken:
                draft.columns[column] = (heading,)
                if unit:
                    draft.units[column] = unit


def _bare(heading: str, synonyms: Synonyms) -> tuple[str, str | None]:
    """Part a heading from its unit: “Shell (in)” → “Shell”, “in”."""
    units = {unit for many in synonyms.units.values() for unit in many}
    found = re.match(r"^(.*?)[\s_]*[(\[]\s*([^)\]]+?)\.?\s*[)\]]$", heading)
    if found and found[2].casefold() in units:
        return found[1], found[2].casefold()
    parts = re.split(r"[\s_]+", heading)
    if len(parts) > 1 and parts[-1].casefold() in units - {"mm", "g", "m", "h"}:
        return " ".join(parts[:-1]), parts[-1].casefold()
    return heading, None


def _ask_doubled(draft: Draft) -> None:
    grid = draft.sheet.grid
    for heading in draft.free():
        base = re.sub(r" \([0-9]+\)$", "", heading)
        twin = next((c for c, many in draft.columns.items() if many == (base,)), None)
        if base == heading or twin is None:
            continue
        cells = [f"“{one}” holds {examples(grid, one)}" for one in (base, heading)]
        said = f"two columns are called “{base}”: {'; '.join(cells)}. Say which one it is, with "
        said += f"--column {twin}='{base}' or --column {twin}='{heading}'."
        if not _answered(draft, twin):
            draft.ask(twin, said)


def _answered(draft: Draft, column: str) -> bool:
    """Say whether another column than `column` has already been given the doubled heading."""
    many = draft.columns[column]
    return any(
        re.sub(r" \([0-9]+\)$", "", one) == many[0] and one != many[0]
        for name, others in draft.columns.items()
        if name != column
        for one in others
    )


def _check_values(draft: Draft, synonyms: Synonyms) -> None:
    """Ask about columns whose values are mostly not what the column holds."""
    for name, headings in draft.columns.items():
        if name not in draft.table.names or len(headings) > 1:
            continue
        column = replace(draft.table.column(name), required=False, refers=None)
        if column.holds in {Holds.KEY, Holds.TEXT}:
            continue
        cells = _cells(draft.sheet.grid, headings[0]).head(_SAMPLE)
        if len(cells) and _readable(column, cells, synonyms) < _READABLE:
            said = f"“{headings[0]}” holds {examples(draft.sheet.grid, headings[0])}, which is not "
            said += f"{column.holds.value} of {name}"
            said += f" ({', '.join(column.words)})" if column.words else ""
            said += f". Name another column with --column {name}=…, or translate the values in the "
            said += "mapping."
            draft.ask(name, said)


def _readable(column: Column, cells: pl.Series, synonyms: Synonyms) -> float:
    text = pl.DataFrame({"file_no": 0, "file_row": 0, column.name: cells})
    table = Table("sample", (), (column,))
    shares = []
    for order in ("dmy", "mdy"):
        how = WrittenAs(synonyms, dates=order, time="12:00")
        read = read_values(table, text, Findings(["sample"]), how)
        missing = cells.str.to_lowercase().is_in(list(synonyms.missing))
        shares.append((read[column.name].is_not_null() | missing).mean())
    return max(float(str(share)) for share in shares)


def _add_time(draft: Draft) -> None:
    """Join a column of times to the one of days."""
    for column in draft.table.columns:
        if column.holds is not Holds.INSTANT or column.name not in draft.columns:
            continue
        (day, *rest) = draft.columns[column.name]
        cells = _cells(draft.sheet.grid, day).head(_SAMPLE)
        if rest or bool(cells.str.contains(":").all()) or "time" in draft.constants:
            continue
        times = [
            one
            for one in draft.free()
            if folded(one) in _TIMES and _cells(draft.sheet.grid, one).str.contains(":").any()
        ]
        if times:
            draft.columns[column.name] = (day, times[0])
        elif not bool(cells.str.contains(r":|^[0-9]{5}\.").any()):
            said = f"“{day}” has no time of day. Name its column with --column {column.name}="
            said += f"'{day} + TIME', or say one for all with --value time=12:00."
            draft.ask(column.name, said)


def _fill_required(draft: Draft, only: Mapping[str, str]) -> None:
    for name in draft.table.required:
        if name in draft.columns or name in draft.constants:
            continue
        if name == "athlete" and "athlete_name" in draft.columns and draft.table.name != "roster":
            continue
        if draft.table.key == (name,) and draft.table.name in MADE_OF:
            continue
        if name in only:
            draft.constants[name] = only[name]
            continue
        free = draft.free()
        near = nearest(name.replace("_", " "), free)
        said = (
            f"no column could be told to be {name}, which every row of {draft.table.name} needs. "
        )
        said += f"Name it with --column {name}=HEADING ({', '.join(free) or 'none is left'})"
        said += f", or one value for all rows with --value {name}=VALUE."
        said += f" Is it “{near}”?" if near else ""
        draft.ask(name, said)


def _ask_near(draft: Draft) -> None:
    """Ask about headings that are nearly those of columns still missing."""
    for heading in draft.free():
        lacking = [one for one in draft.table.names if one not in draft.columns]
        close = get_close_matches(
            folded(heading), [one.replace("_", " ") for one in lacking], 1, 0.8
        )
        near = close[0].replace(" ", "_") if close else ""
        if near and near not in {*draft.constants, *draft.without, *draft.table.required}:
            said = (
                f"may be {near}. Say so with --column {near}='{heading}', or that it is left out "
            )
            said += f"with --column {near}=."
            if not any(one.column == near for one in draft.questions):
                draft.ask(near, said, heading)


def _settle_dates(draft: Draft, options: LoadOptions, synonyms: Synonyms) -> None:
    """Take the order of day and month from any column that settles it."""
    if options.dates is not None:
        draft.dates = options.dates
        return
    orders, open_ = set(), []
    for name, headings in draft.columns.items():
        if name in draft.table.names and draft.table.column(name).holds in _DATED:
            cells = _cells(draft.sheet.grid, headings[0])
            order, proof = order_of(cells, synonyms.months) or (None, "")
            if order in ORDERS:
                orders.add(order)
                draft.proof = draft.proof or f", as “{proof}” under “{headings[0]}” shows"
            elif order is not None:
                open_.append((name, headings[0]))
    if len(orders) == 1:
        (draft.dates,) = orders
    elif open_ or orders:
        for name, heading in open_ or [("dates", "")]:
            said = f"“{heading}” can be read day/month or month/day "
            said += f"({examples(draft.sheet.grid, heading)}). Say which with --dates dmy or "
            said += "--dates mdy."
            draft.ask(name, said)


def _cells(grid: Grid, heading: str) -> pl.Series:
    return grid.body[grid.places[heading]].drop_nulls()


def examples(grid: Grid, heading: str) -> str:
    """Return a few values of a column, as a proposal shows them."""
    if heading not in grid.places:
        return ""
    cells = _cells(grid, heading).head(_SAMPLE).unique(maintain_order=True)
    cells = pl.Series(clean_word(one) for one in cells)
    shown = [one if len(one) <= 24 else one[:23] + "…" for one in cells.head(_EXAMPLES)]
    return ", ".join(shown) + (", …" if len(cells) > _EXAMPLES else "") or "nothing"
