"""How sheets are read, line by line, and the wishes that read a heading or a sheet otherwise."""

from collections.abc import Sequence
from dataclasses import replace

from seasonboard.load_dialog import PlanSummary
from seasonboard.load_options import OF_SHEET, LoadOptions
from seasonboard.sheet_readings import HeadingReading, SettledValue, SheetReading
from seasonboard.ui.loading.load_answer import LoadAnswer

LEFT_OUT = "left out"
TYPE_IT = "type it …"
AS_NOW = "as it is read now"


def reading_lines(sheets: Sequence[SheetReading], options: LoadOptions) -> tuple[LoadAnswer, ...]:
    """Return a line for every sheet and heading; `options` were wished when they were read."""
    return tuple(line for sheet in sheets for line in _sheet_lines(sheet, sheets, options))


def plan_lines(plan: PlanSummary, options: LoadOptions) -> tuple[tuple[LoadAnswer, ...], int]:
    """Return the lines under a plan, and the one the cursor begins on: to write a plain one."""
    shown, beside = "write it", ""
    if plan.is_empty:
        shown, beside = "write files of the rows left behind", "the store stays as it is"
    write = LoadAnswer(shown, beside, options, action="write")
    back = LoadAnswer("do not write it", "go back", options, action="back")
    only = LoadAnswer("go back", "", options, action="back")
    first = (write, back) if plan.is_worth_writing else (only,)
    is_preset = plan.is_plain or len(first) == 1
    lines = (*first, *_complete_line(plan, options), *reading_lines(plan.sheets, options))
    return lines, 0 if is_preset else 1


def _complete_line(plan: PlanSummary, options: LoadOptions) -> list[LoadAnswer]:
    """Return the line that marks sessions as recorded for everybody, where a load has any wear."""
    if plan.sentences or not {"attendance", "wear"} & {one.table for one in plan.tables}:
        return []  # a bundle says it for itself
    is_complete = options.wear_complete
    shown, beside = "wear is complete: no", "where nothing is recorded, it is not known"
    if is_complete:
        shown, beside = "wear is complete: yes", "where nothing is recorded, no guard was worn"
    turned = replace(options, wear_complete=not is_complete)
    return [LoadAnswer(shown, beside, turned, without=turned if is_complete else None)]


def without_sheet(
    sheet: SheetReading, sheets: Sequence[SheetReading], options: LoadOptions
) -> LoadOptions | None:
    """Return the wish to leave a sheet out, or to read it after all; None of the only one."""
    is_read = sum(bool(one.tables) for one in sheets)
    if sheet.name in options.leave_out or (sheet.tables and is_read > 1):
        return _turned(options, sheet.name)
    return None


def _sheet_lines(
    sheet: SheetReading, sheets: Sequence[SheetReading], options: LoadOptions
) -> list[LoadAnswer]:
    without = without_sheet(sheet, sheets, options)
    beside = ", ".join(sheet.tables) or LEFT_OUT
    line = LoadAnswer(sheet.label, f"→ {beside}", options, without=without)
    settled = [_settled_line(sheet, one, sheets, options) for one in sheet.settled]
    return [line, *settled, *(_heading_line(sheet, one, options) for one in sheet.headings)]


def _settled_line(
    sheet: SheetReading, one: SettledValue, sheets: Sequence[SheetReading], options: LoadOptions
) -> LoadAnswer:
    """Return the line of a value of all rows; it changes those of the sheets that agree on it."""
    held = {each.value for other in sheets for each in other.settled if each.name == one.name}
    name = one.name if len(held) == 1 else f"{sheet.name}{OF_SHEET}{one.name}"
    rest = {key: value for key, value in options.constants.items() if key != name}
    if len(held) == 1:
        rest = {key: value for key, value in rest.items() if not key.endswith(OF_SHEET + name)}
    other = LoadAnswer(
        TYPE_IT, f"such as {one.example}" if one.example else "", replace(options, constants=rest),
        fills=name, example=one.example,
    )  # fmt: skip
    meanings = [
        LoadAnswer(value, AS_NOW if value == one.value else "",
            replace(options, constants={**rest, name: value}))
        for value in dict.fromkeys((one.value, *one.choices))
    ]  # fmt: skip
    return LoadAnswer(
        f"  {one.name} is {one.value} in all rows",
        "",
        options,
        meanings=(*meanings, other),
        asks=f"{one.name} of {sheet.label} is",
    )


def _heading_line(sheet: SheetReading, heading: HeadingReading, options: LoadOptions) -> LoadAnswer:
    held = {name: one.heading for one in sheet.headings for name in one.meaning.split(", ") if name}
    meanings = [
        LoadAnswer(
            column,
            _now(held.get(column), heading.heading),
            _with_meaning(options, f"{sheet.tables[0]}.{column}", heading.heading),
        )
        for column in sheet.columns
    ]
    without = _turned(options, heading.heading) if sheet.may_skip else None
    if without is not None and heading.meaning:
        meanings.insert(0, LoadAnswer(LEFT_OUT, "nothing is read from it", without))
    is_free = not heading.meaning and heading.heading not in options.leave_out
    return LoadAnswer(
        f"  “{heading.heading}” → {heading.meaning or LEFT_OUT}",
        heading.examples,
        options,
        without=None if is_free else without,
        meanings=tuple(meanings),
        asks=f"“{heading.heading}” ({heading.examples}) is",
    )


def _now(held_by: str | None, heading: str) -> str:
    if held_by is None:
        return ""
    return AS_NOW if held_by == heading else f"now “{held_by}”"


def _with_meaning(options: LoadOptions, column: str, heading: str) -> LoadOptions:
    columns = _columns_without(options, heading) | {column: heading}
    return replace(options, columns=columns, leave_out=_without(options, heading))


def _turned(options: LoadOptions, name: str) -> LoadOptions:
    """Leave a sheet or heading out that is read, and the other way round."""
    if name in options.leave_out:
        return replace(options, leave_out=_without(options, name))
    columns = _columns_without(options, name)
    return replace(options, columns=columns, leave_out=(*options.leave_out, name))


def _columns_without(options: LoadOptions, heading: str) -> dict[str, str]:
    """Return the answers that do not give this heading, alone or joined, to a column."""
    return {
        column: given
        for column, given in options.columns.items()
        if heading not in {given, *map(str.strip, given.split("+"))}
    }


def _without(options: LoadOptions, name: str) -> tuple[str, ...]:
    return tuple(one for one in options.leave_out if one != name)
