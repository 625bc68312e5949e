"""From a grid with a day in each column or row to rows of sessions, attendance and wear."""

import datetime as dt

import polars as pl

from seasonboard.errors import Problem
from seasonboard.store.intake.date_grid import DateGrid, GridDay
from seasonboard.store.intake.grid import Grid, numbered_by_cell
from seasonboard.store.intake.heading_days import is_day
from seasonboard.store.intake.legends import NO_ROW, WEAR, usual_meaning
from seasonboard.store.intake.mapping import SheetMapping
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_years import SeasonYears, years_in
from seasonboard.store.intake.sessions_by_day import TIME_IS_PUT
from seasonboard.store.intake.sources import OpenSheet
from seasonboard.store.intake.table_source import TableSource
from seasonboard.store.intake.time_words import HALF_TIMES, NOON

_SHOWN = 6


def years_of(sheet: OpenSheet, season: str | None) -> SeasonYears | None:
    """Return the years of a sheet's dates: of its titles, its name, its file's, or the season."""
    grid = sheet.date_grid
    titles = grid.titles if grid else ()
    return years_in([*titles, sheet.name, sheet.path.stem, season or ""])


def sources_of_grid(sheet: OpenSheet, part: SheetMapping, findings: Findings) -> list[TableSource]:
    """Return the sources that a grid makes, read as its mapping says.

    Args:
        sheet: A sheet with a grid.
        part: How it is read: team and season among its constants, the meaning of marks and blanks.
        findings: Takes notes on what is left out and what was put for what is not there.
    """
    grid = sheet.date_grid
    if grid is None:
        return []
    years = years_of(sheet, part.constants.get("season")) or SeasonYears(0, 0)
    days = _days(grid, part, years, sheet, findings)
    sources = []
    if part.table != WEAR:
        sources.append(_source("sessions", sheet, part, _sessions(days, part), findings))
    rows = _records(grid, days, part)
    sources.append(_source(part.table, sheet, part, rows, findings))
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
    plain = SheetMapping(
        table, columns, {name: (name,) for name in columns}, part.file, dates="ymd",
        time_zone=part.time_zone,
    )  # fmt: skip
    return TableSource(table, label, sheet.sha256, grid, plain)


def _days(
    grid: DateGrid, part: SheetMapping, years: SeasonYears, sheet: OpenSheet, findings: Findings
) -> pl.DataFrame:
    """Return the sessions of a grid: `day`, `played_on`, `time`, `is_put`, `setting`, `label`."""
    rows = []
    put: dict[str, int] = {}
    for one in grid.days:
        year = one.day.year or years.of_month(one.day.month)
        if not is_day(one.day, year):
            said = "is no day of the calendar in that year; its column was left out."
            findings.refuse(Problem(sheet.label, None, None, one.heading, said))
            continue
        time = one.time or _put_time(one, part)
        if not one.time:
            what = f"{one.half} sessions" if one.half else "sessions without a time"
            put[f"{time} for {what}"] = put.get(f"{time} for {what}", 0) + 1
        day = dt.date(year, one.day.month, one.day.day).isoformat()
        setting = one.setting or part.constants.get("setting", "")
        rows.append((one.place, one.heading, day, time, one.half, not one.time, setting, one.label))
    if put and part.table != WEAR:
        shown = ", ".join(f"{what} ({many})" for what, many in put.items())
        said = f"gives no time of day for some sessions; put were: {shown}. Times of sessions that "
        said += "are known already stay. Say another with --value time=16:00, am=… or pm=…."
        findings.note(Problem(sheet.label, None, None, None, said))
    names = ("day", "heading", "played_on", "time", "half", "is_put", "setting", "label")
    kinds = dict.fromkeys(names, pl.String) | {"day": pl.UInt32, "is_put": pl.Boolean}
    return pl.DataFrame(rows, schema=kinds, orient="row")


def _put_time(one: GridDay, part: SheetMapping) -> str:
    chosen = {"AM": part.am, "PM": part.pm}.get(one.half) or part.time
    return chosen or HALF_TIMES.get(one.half, NOON)


def _sessions(days: pl.DataFrame, part: SheetMapping) -> pl.DataFrame:
    given = {name: part.constants.get(name) for name in ("team", "season")}
    return days.select(
        *(pl.lit(value, pl.String).alias(name) for name, value in given.items()),
        starts_at=pl.col("played_on") + "T" + pl.col("time"),
        setting=_or_null("setting"),
        label=_or_null("label"),
        **{TIME_IS_PUT: pl.when("is_put").then(pl.lit("put"))},
        row=pl.col("day"),
        cell=pl.col("heading"),
    )


def _or_null(name: str) -> pl.Expr:
    return pl.when(pl.col(name) != "").then(pl.col(name))


def _records(grid: DateGrid, days: pl.DataFrame, part: SheetMapping) -> pl.DataFrame:
    """Return one row for every cell that says something: who, which day, and what it means."""
    people = grid.people.select(
        pl.col("place").alias("person"),
        *(
            pl.concat_str(list(headings), separator=" ", ignore_nulls=True).alias(name)
            for name, headings in part.columns.items()
        ),
    )
    meant = part.values.get("mark", {})
    known = {
        mark: word
        for mark in grid.marks
        if (word := meant.get(mark) or usual_meaning(mark, part.table)) is not None
    }
    blank = part.blank or NO_ROW
    meaning = (
        pl.when(pl.col("mark").is_null())
        .then(pl.lit(blank))
        .otherwise(
            pl.col("mark")
            .str.to_lowercase()
            .replace_strict(known, default=pl.col("mark"), return_dtype=pl.String)
        )
    )
    rows = (
        grid.cells.with_columns(meaning=meaning)
        .filter(pl.col("meaning") != NO_ROW)
        .join(days, on="day", how="inner", maintain_order="left")
        .join(people, on="person", how="inner", maintain_order="left")
    )
    first = pl.col("meaning").str.extract(r"^(\S+)")
    second = pl.col("meaning").str.extract(r"^\S+ (\S+)")
    said = (
        {"worn": first, "kept_on": second}
        if part.table == WEAR
        else {"part": first, "reason": second}
    )
    team = pl.lit(part.constants.get("team"), pl.String)
    row = "person" if grid.layout == "dates across" else "day"
    named = {
        "session_on": pl.col("played_on"),
        "session_time": pl.when("is_put").then(_or_null("half")).otherwise(_or_null("time")),
        "session_team": team,
        "session_setting": _or_null("setting"),
        "athlete_team": team,
        **{name: pl.col(name) for name in part.columns},
        **said,
        "row": pl.col(row),
        "cell": pl.col("heading"),
    }
    return rows.select(**named)


def _tell_left_out(grid: DateGrid, sheet: OpenSheet, findings: Findings) -> None:
    """Tell every row and column that was not read, by name, and what was read though hidden."""
    for row, text in grid.left_out:
        if row:
            said = "names no person and no day of the grid; the row was left out."
            findings.note(Problem(sheet.label, row, None, text[:80], said))
        else:
            said = "is no day of the grid; the column was left out."
            findings.note(Problem(sheet.label, None, f"“{text[:80]}”", None, said))
    marks = sheet.marks
    rows = (
        set(grid.people["place"]) if grid.layout == "dates across" else {d.place for d in grid.days}
    )
    hidden = sorted(rows & marks.hidden_rows)
    if hidden:
        shown = ", ".join(map(str, hidden[:_SHOWN]))
        many = "row is" if len(hidden) == 1 else "rows are"
        said = f"{len(hidden)} {many} hidden in the sheet ({shown}); read all the same."
        findings.note(Problem(sheet.label, hidden[0], None, None, said))


def _tell_marks(grid: DateGrid, part: SheetMapping, sheet: OpenSheet, findings: Findings) -> None:
    """Tell what each mark was read as, with its count."""
    counts = grid.cells["mark"].str.to_lowercase().value_counts(sort=True)
    meant = part.values.get("mark", {})
    shown = [
        f"“{mark}” as {meant.get(mark) or usual_meaning(mark, part.table) or mark} ({many:,})"
        for mark, many in counts.drop_nulls("mark").iter_rows()
    ]
    blank = counts.filter(pl.col("mark").is_null())["count"].sum()
    if blank:
        shown.append(f"a blank cell as {part.blank or NO_ROW} ({blank:,})")
    findings.note(Problem(sheet.label, None, None, None, f"marks were read: {', '.join(shown)}."))


def unknown_marks(grid: DateGrid, holds: str, legend: dict[str, str]) -> list[str]:
    """Return the marks that neither a legend nor usage explains, the most frequent first."""
    return [
        mark for mark in grid.marks if mark not in legend and usual_meaning(mark, holds) is None
    ]


def has_blanks(grid: DateGrid) -> bool:
    """Say whether any cell of a grid is blank."""
    return grid.cells["mark"].has_nulls()
