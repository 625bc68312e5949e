"""From a grid with a day in each column or row to rows of sessions, attendance and wear."""

from collections import Counter

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.date_grid import ACROSS, DateGrid, GridDay
from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.legends import NO_ROW, WEAR, usual_meaning
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.problems import Findings, counted, first_few
from seasonboard.store.intake.seasons import SeasonYears, years_in
from seasonboard.store.intake.sessions_by_day import TIME_IS_PUT
from seasonboard.store.intake.sources import OpenSheet, TableSource
from seasonboard.store.intake.text_columns import joined_cells
from seasonboard.store.intake.written_times import HALF_TIMES, NOON, day_in

_SHOWN = 6


def years_of(sheet: OpenSheet, season: str | None) -> SeasonYears | None:
    """Return the years of a sheet's dates: of its titles, its name, its file's, or the season."""
    return years_in([*sheet.titles, season or ""])


def meaning_of(mark: str, part: SheetMapping) -> str | None:
    """Return what a mark means by its mapping, or usually."""
    return part.values.get("mark", {}).get(mark) or usual_meaning(mark, part.table)


def sources_of_grid(sheet: OpenSheet, part: SheetMapping, findings: Findings) -> list[TableSource]:
    """Return the sources that a grid makes, read as its mapping says.

    What is left out, and what was put for what is not there, is noted.
    """
    grid = sheet.date_grid
    if grid is None:
        return []
    days = _days(grid, part, sheet, findings)
    rows = {} if part.table == WEAR else {"sessions": _sessions(days, part)}
    rows[part.table] = _records(grid, days, part)
    sources = [_source(table, sheet, part, one, findings) for table, one in rows.items()]
    _tell_left_out(grid, sheet, findings)
    _tell_marks(grid, part, sheet, findings)
    return sources


def _source(
    table: str, sheet: OpenSheet, part: SheetMapping, rows: pl.DataFrame, findings: Findings
) -> TableSource:
    """Return rows as the source of a table; every row knows the cell it was read from."""
    label = sheet.label if table == part.table else f"{sheet.label} › {table}"
    if label not in findings.labels:
        findings.labels.append(label)
    findings.grouped.add(findings.labels.index(label))
    body, origins = numbered_by_cell(rows)
    columns = tuple(name for name in body.columns if name != "file_row")
    grid = Grid(columns, columns, 1, body, origins=origins)
    own = {name: (name,) for name in columns}
    mapping = SheetMapping(table, columns, own, part.file, dates="ymd", time_zone=part.time_zone)
    return TableSource(table, label, sheet.sha256, grid, mapping)


def _days(grid: DateGrid, part: SheetMapping, sheet: OpenSheet, findings: Findings) -> pl.DataFrame:
    """Return the sessions of a grid: `day`, `played_on`, `time`, `is_put`, `setting`, `label`."""
    years = years_of(sheet, part.constants.get("season")) or SeasonYears(0, 0)
    rows = []
    put_times = Counter[str]()
    for one in grid.days:
        day = day_in(one.day, one.day.year or years.of_month(one.day.month))
        if day is None:
            said = "is no day of the calendar in that year; its column was left out."
            findings.refuse(Problem(sheet.label, None, None, one.heading, said))
            continue
        time = one.time or _put_time(one, part)
        if not one.time:
            what = f"{one.half} sessions" if one.half else "sessions without a time"
            put_times[f"{time} for {what}"] += 1
        setting = one.setting or part.constants.get("setting", "")
        played = (day.isoformat(), time, one.half, not one.time)
        rows.append((one.place, one.heading, *played, setting, one.label))
    if put_times and part.table != WEAR:
        shown = ", ".join(f"{what} ({many})" for what, many in put_times.items())
        said = f"gives no time of day for some sessions; put were: {shown}. Times of sessions that "
        said += "are known already stay. Say another with --value time=16:00, am=… or pm=…."
        findings.tell(sheet.label, said)
    names = ("day", "heading", "played_on", "time", "half", "is_put", "setting", "label")
    kinds = dict.fromkeys(names, pl.String) | {"day": pl.UInt32, "is_put": pl.Boolean}
    return pl.DataFrame(rows, schema=kinds, orient="row")


def _put_time(one: GridDay, part: SheetMapping) -> str:
    chosen = {"AM": part.am, "PM": part.pm}.get(one.half) or part.time
    return chosen or HALF_TIMES.get(one.half, NOON)


def _sessions(days: pl.DataFrame, part: SheetMapping) -> pl.DataFrame:
    return days.select(
        *(pl.lit(part.constants.get(one), pl.String).alias(one) for one in ("team", "season")),
        starts_at=pl.col("played_on") + "T" + pl.col("time"),
        setting=_or_null("setting"),
        label=_or_null("label"),
        **{TIME_IS_PUT: pl.when("is_put").then(pl.lit("put"))},
        row="day",
        cell="heading",
    )


def _or_null(name: str) -> pl.Expr:
    return pl.when(pl.col(name) != "").then(pl.col(name))


def _records(grid: DateGrid, days: pl.DataFrame, part: SheetMapping) -> pl.DataFrame:
    """Return one row for every cell that says something: who, which day, and what it means."""
    named = {name: joined_cells(headings) for name, headings in part.columns.items()}
    people = grid.people.select(person="place", **named)
    known = {one: word for one in grid.marks if (word := meaning_of(one, part)) is not None}
    mark = pl.col("mark")
    meant = mark.str.to_lowercase().replace_strict(known, default=mark, return_dtype=pl.String)
    meaning = pl.when(mark.is_null()).then(pl.lit(part.blank or NO_ROW)).otherwise(meant)
    rows = (
        grid.cells.with_columns(meaning=meaning)
        .filter(pl.col("meaning") != NO_ROW)
        .join(days, on="day", how="inner", maintain_order="left")
        .join(people, on="person", how="inner", maintain_order="left")
    )
    said = ("worn", "kept_on") if part.table == WEAR else ("part", "reason")
    words = {
        name: pl.col("meaning").str.extract(pattern)
        for name, pattern in zip(said, (r"^(\S+)", r"^\S+ (\S+)"), strict=True)
    }
    team = pl.lit(part.constants.get("team"), pl.String)
    return rows.select(
        session_on="played_on",
        session_time=pl.when("is_put").then(_or_null("half")).otherwise(_or_null("time")),
        session_team=team,
        session_setting=_or_null("setting"),
        **({"athlete_team": team} | {name: pl.col(name) for name in part.columns}),
        **words,
        row="person" if grid.layout == ACROSS else "day",
        cell="heading",
    )


def _tell_left_out(grid: DateGrid, sheet: OpenSheet, findings: Findings) -> None:
    """Tell every row and column that was not read, by name, and what was read though hidden."""
    for row, text in grid.left_out:
        if row:
            said = "names no person and no day of the grid; the row was left out."
            findings.tell(sheet.label, said, row, value=text[:80])
        else:
            said = "is no day of the grid; the column was left out."
            findings.tell(sheet.label, said, column=f"“{text[:80]}”")
    rows = grid.people["place"] if grid.layout == ACROSS else [day.place for day in grid.days]
    hidden = sorted(set(rows) & sheet.marks.hidden_rows)
    if hidden:
        many = counted(len(hidden), "row is", "rows are")
        said = f"{many} hidden in the sheet ({first_few(hidden, _SHOWN)}); read all the same."
        findings.tell(sheet.label, said, hidden[0])


def _tell_marks(grid: DateGrid, part: SheetMapping, sheet: OpenSheet, findings: Findings) -> None:
    """Tell what each mark was read as, with its count."""
    shown = [
        f"“{mark}” as {meaning_of(mark, part) or mark} ({many:,})"
        for mark, many in grid.marks.items()
    ]
    if blanks := grid.cells["mark"].null_count():
        shown.append(f"a blank cell as {part.blank or NO_ROW} ({blanks:,})")
    findings.tell(sheet.label, f"marks were read: {', '.join(shown)}.")
