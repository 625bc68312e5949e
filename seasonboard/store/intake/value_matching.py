"""What the values of a sheet say of its columns, where the headings do not or say otherwise."""

from collections.abc import Iterator
from dataclasses import replace

import polars as pl

from seasonboard.load_options import ORDERS
from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.dates import months_by_order, order_of
from seasonboard.store.intake.mapping_draft import MappingDraft, cells_of
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.seasons import months_of_season
from seasonboard.store.intake.values import read_values
from seasonboard.store.intake.written_times import NOON, UNKNOWN_TIMES, time_of
from seasonboard.stored_column import CellType, StoredTable

_READABLE = 0.5
_DATED = (CellType.DATE, CellType.INSTANT)


def match_values(draft: MappingDraft) -> None:
    """Give a required column of closed words the one heading all of whose values are such words.

    A heading that was taken for mere text may be given away; one that another column needs is not.
    """
    named = {*draft.columns, *draft.constants, *draft.without}
    for name in draft.table.required:
        if not draft.table.column(name).words or name in named:
            continue
        loose = [
            (one, many[0])
            for one, many in draft.columns.items()
            if len(many) == 1 and one in draft.table.names and _is_loose(draft, one)
        ]
        fitting = [
            (owner, heading)
            for owner, heading in [*(("", free) for free in draft.free()), *loose]
            if _readable(draft, name, heading) == 1
        ]
        if len(fitting) == 1:
            ((owner, heading),) = fitting
            draft.columns[name] = (heading,)
            draft.columns.pop(owner, None)


def _is_loose(draft: MappingDraft, name: str) -> bool:
    column = draft.table.column(name)
    return column.holds is CellType.TEXT and not column.required


def fits_column(draft: MappingDraft, name: str, heading: str) -> bool:
    """Say whether all values under a heading are what a column holds."""
    return _readable(draft, name, heading) == 1


def check_values(draft: MappingDraft) -> None:
    """Ask about columns whose values are mostly not what the column holds."""
    for name, (heading, *more) in draft.columns.items():
        if name not in draft.table.names or more or heading not in draft.sheet.grid.places:
            continue
        column = draft.table.column(name)
        if column.holds in {CellType.KEY, CellType.TEXT}:
            continue
        if 0 <= _readable(draft, name, heading) < _READABLE:
            said = f"“{heading}” holds {draft.examples(heading)}, which is not "
            said += f"{column.holds.value} of {name}"
            said += f" ({', '.join(column.words)})" if column.words else ""
            said += f". Name another column with --column {name}=…, or translate the values in the "
            draft.ask(name, said + "mapping.")


def _readable(draft: MappingDraft, name: str, heading: str) -> float:
    """Return the share of the values under a heading that a column can hold; -1 without any."""
    column = replace(draft.table.column(name), required=False, refers=None)
    cells = draft.cells(heading)
    if not len(cells):
        return -1
    text = pl.DataFrame({"file_no": 0, "file_row": 0, column.name: cells})
    table = StoredTable("sample", "", (), (column,))
    missing = cells.str.to_lowercase().is_in(list(draft.synonyms.missing))
    shares = []
    for order in ("dmy", "mdy"):
        how = WrittenAs(draft.synonyms, dates=order, time=NOON, years=draft.years)
        read = read_values(table, text, Findings(["sample"]), how)
        shares.append(int((read[column.name].is_not_null() | missing).sum()) / len(cells))
    return max(shares)


def add_time(draft: MappingDraft) -> None:
    """Join a column of times to the one of days; without one, noon is put, and told."""
    for column in draft.table.columns:
        if column.holds is not CellType.INSTANT or column.name not in draft.columns:
            continue
        (day, *rest) = draft.columns[column.name]
        cells = draft.cells(day)
        if rest or bool(cells.str.contains(":").all()) or "time" in draft.constants:
            continue
        times = [one for one in draft.free() if _are_times(draft.cells(one))]
        if len(times) == 1:
            draft.columns[column.name] = (day, times[0])
        elif not bool(cells.str.contains(r":|^[0-9]{5}\.").any()):
            draft.constants["time"] = NOON


def _are_times(cells: pl.Series) -> bool:
    """Say whether cells hold times of day: `18:30`, `6.30 pm`, `4 PM`, `TBA`."""
    times = [time_of(one) for one in cells]
    unknown = [one.casefold() in UNKNOWN_TIMES for one in cells]
    return any(times) and all(map(any, zip(times, unknown, strict=True)))


def settle_dates(draft: MappingDraft, order: str | None) -> None:
    """Take the one order of day and month: as said, as a column or the season shows, or ask."""
    if order is not None:
        draft.dates = order
        return
    orders, open_ = set(), []
    for name, heading in _dated(draft):
        cells = cells_of(draft.sheet.grid, heading)
        order, proof = order_of(cells, draft.synonyms) or (None, "")
        if order in ORDERS:
            orders.add(order)
            draft.proof = draft.proof or f", as “{proof}” under “{heading}” shows"
        elif order is not None:
            open_.append((name, heading))
    if len(orders) == 1:
        (draft.dates,) = orders
    elif open_ and not orders and (order := _of_season(draft, [one for _, one in open_])):
        draft.dates, draft.proof = order, ", as the months of the season show"
    elif open_ or orders:
        (name, heading), *others = open_ or [("dates", "")]
        also = "".join(f", “{other}” too," for _, other in others)
        said = f"“{heading}”{also} can be read day/month or month/day "
        said += f"({draft.examples(heading)}). Say which with --dates dmy or --dates mdy."
        draft.ask(name, said, None, ("dmy", "mdy"), wish="dates")


def _dated(draft: MappingDraft) -> Iterator[tuple[str, str]]:
    """Yield column and heading of all that holds dates: columns, days of sessions, stages."""
    for name, headings in draft.columns.items():
        is_dated = name in draft.table.names and draft.table.column(name).holds in _DATED
        if (is_dated or name == "session_on") and headings[0] in draft.sheet.grid.places:
            yield name, headings[0]
    for heading in draft.stages:
        yield "reached_at", heading


def _of_season(draft: MappingDraft, headings: list[str]) -> str | None:
    """Return the one order in which all days lie in the months of the season; None for neither."""
    span = months_of_season(draft.constants.get("season") or draft.known.only.get("season", ""))
    if span is None:
        return None
    cells = pl.concat([cells_of(draft.sheet.grid, heading) for heading in headings])
    months = months_by_order(cells, draft.synonyms)
    inside = months.select(pl.all().is_between(*span).fill_null(True).all()).row(0, named=True)
    fitting = [order for order, fits in inside.items() if fits]
    return fitting[0] if len(fitting) == 1 else None
