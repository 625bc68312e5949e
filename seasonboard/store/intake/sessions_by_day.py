"""Sessions by team and day where a key is missing, and by time, half day or setting where two."""

import polars as pl

from seasonboard.store.intake.column_text import WrittenAs
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.season_rows import SeasonRows, with_local_time
from seasonboard.store.intake.text_columns import distinct, mapped, with_text
from seasonboard.store.intake.values import read_values
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.store.intake.written_times import half_of, time_of
from seasonboard.stored_column import CellType, StoredColumn, StoredTable
from seasonboard.terms import Setting

DAY, TIME, TEAM, SETTING = "session_on", "session_time", "session_team", "session_setting"
TIME_IS_PUT = "time_is_put"
"""A text column of sessions: not null where the file gives no time of day and one was put."""

SOFT = "worn_beside"
"""A text column of rows that a list of something else holds beside: told all together, later."""
_ASKED = (TEAM, "_day", "_time", "_half", "_setting")
_DAY_COLUMN = StoredTable("sessions", "", (), (StoredColumn(DAY, CellType.DATE, "day"),))


def with_sessions(
    table: StoredTable, text: pl.DataFrame, context: LoadContext, written: WrittenAs
) -> pl.DataFrame:
    """Fill the key `session` of rows that only name the day of the session.

    They may name its time (or AM or PM), its team (else the athlete's) and its setting. A row whose
    day has no session, or several that nothing tells apart, is a problem; where the key may be
    missing, several are noted.
    """
    if DAY not in text.columns or "session" not in table.names:
        return text
    text = _with_columns(text, context)
    rows = _asked(text, context, written)
    queries = rows.select(_ASKED).unique(maintain_order=True).with_row_index("_asked")
    matched = _matched(queries, _played(context.season))
    matched = queries.join(matched, on="_asked", how="left", maintain_order="left")
    joined = pl.concat([text, rows.drop(TEAM)], how="horizontal")
    joined = joined.join(matched, on=_ASKED, how="left", maintain_order="left", nulls_equal=True)
    open_ = pl.col("session").is_null() & pl.col("_day").is_not_null()
    _tell(table, joined, open_, context)
    key = pl.coalesce("session", pl.when(open_).then(pl.col("_session")))
    return joined.with_columns(session=key).select(text.columns)


def _with_columns(text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    text = with_text(text, ("session", TIME, TEAM, SETTING))
    if "athlete" not in text.columns or not text[TEAM].has_nulls():
        return text
    roster = context.season.now("roster").select("athlete", "team").unique()
    alone = roster.filter(pl.len().over("athlete") == 1).rename({"team": "_own"})
    joined = text.join(alone, on="athlete", how="left", maintain_order="left")
    return joined.with_columns(pl.coalesce(TEAM, "_own").alias(TEAM)).drop("_own")


def _asked(text: pl.DataFrame, context: LoadContext, written: WrittenAs) -> pl.DataFrame:
    """Return, for every row, the day as a date, and time, half day and setting as words."""
    cells = text.select("file_no", "file_row", DAY)
    days = read_values(_DAY_COLUMN, cells, context.findings, written)
    times = distinct(text[TIME])
    settings = meanings(distinct(text[SETTING]), "setting", tuple(Setting), context.synonyms)
    return text.select(
        TEAM,
        _day=days[DAY],
        _time=mapped(TIME, {one: time_of(one) or None for one in times}),
        _half=mapped(TIME, {one: half_of(one) or None for one in times}),
        _setting=mapped(SETTING, settings),
    )


def _played(season: SeasonRows) -> pl.DataFrame:
    """Return every session with its day, time and half day where its team plays."""
    local = season.days_of_sessions().rename({"team": TEAM, "played_on": "_day"})
    settings = season.now("sessions").select("session", "setting", "label", "season_part")
    return local.join(settings.unique("session"), on="session").with_columns(
        _starts=pl.col("local_time").dt.strftime("%H:%M"),
        _is_am=pl.col("local_time").dt.hour() < 12,
    )


def _matched(queries: pl.DataFrame, played: pl.DataFrame) -> pl.DataFrame:
    """Return `_asked` → `_session` where one session fits best, and `_several` that fit alike."""
    at_time = (pl.col("_time") == pl.col("_starts")).fill_null(False).cast(pl.Int8)
    in_half = ((pl.col("_half") == "AM") == pl.col("_is_am")).fill_null(False).cast(pl.Int8)
    pairs = (
        queries.join(played, on=[TEAM, "_day"], how="inner")
        .filter(pl.col("_setting").is_null() | (pl.col("_setting") == pl.col("setting")))
        .with_columns(fit=2 * at_time + in_half)
    )
    best = pairs.filter(pl.col("fit") == pl.col("fit").max().over("_asked"))
    return best.group_by("_asked").agg(
        _session=pl.when(pl.len() == 1).then(pl.col("session").first()),
        _several=pl.when(pl.len() > 1).then(pl.col("session").sort().str.join(", ")),
    )


def _tell(table: StoredTable, joined: pl.DataFrame, open_: pl.Expr, context: LoadContext) -> None:
    if SOFT in joined.columns:
        return
    findings = context.findings
    several = open_ & pl.col("_several").is_not_null()
    nothing = open_ & pl.col("_session").is_null() & pl.col("_several").is_null()
    if not table.column("session").required:
        said = "is the day of more than one session ({_several}); none of them was taken."
        findings.doubt(joined, several, DAY, said)
        return
    said = "is the day of more than one session ({_several}); write the key, or the time."
    findings.reject(joined, several, DAY, said)
    said = "is the day of no session of the team; load the schedule first, or with it."
    findings.reject(joined, nothing, DAY, said)


def with_session_keys(rows: pl.DataFrame, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Give sessions without a key, their instants settled, the key of the stored session they are.

    A session is a stored one when it has its team and instant, or when each of the two is the only
    one of its setting (of its half day, where both have two) on the team's day. A time that was
    only put for want of one, as `text` says, does not replace a stored time.
    """
    if "session" in rows.columns or not {"team", "starts_at", "setting"} <= set(rows.columns):
        return rows
    if rows.is_empty():
        return rows
    zones = context.season.zones_of_teams().select("team", "time_zone")
    is_put = with_text(text, [TIME_IS_PUT])[TIME_IS_PUT].is_not_null()
    placed = rows.with_columns(is_put.alias("_put")).with_row_index("_nth")
    placed = placed.join(zones, on="team", how="left", maintain_order="left")
    placed = with_local_time(placed.with_columns(pl.col("time_zone").fill_null("UTC"))).sort("_nth")
    local = pl.col("local_time").dt
    joined = _joined_to_stored(
        placed.with_columns(_day=local.date(), _is_am=local.hour() < 12),
        _played(context.season).rename({TEAM: "team"}),
    )
    is_known = pl.col("_put") & pl.col("_session").is_not_null()
    columns = [name for name in ("season", "label", "season_part") if name in rows.columns]
    merged = joined.with_columns(
        *(pl.coalesce(name, f"_stored_{name}").alias(name) for name in columns),
        starts_at=pl.when(is_known).then("_stored_starts_at").otherwise("starts_at"),
        session="_session",
    )
    come = context.season.incoming.get("sessions")
    if come is not None:  # a day without a time says nothing new of a session of this load
        merged = merged.filter(~(is_known & pl.col("_session").is_in(come["session"].implode())))
    return merged.select(*rows.columns, "session")


def _joined_to_stored(days: pl.DataFrame, stored: pl.DataFrame) -> pl.DataFrame:
    """Find the stored session of each row: at its instant, else alone on its day, else its half."""
    exact = ["team", "setting", "starts_at"]
    first = stored.unique(exact, keep="first").select(*exact, _exact="session")
    days = days.join(first, on=exact, how="left", maintain_order="left")
    for name, half in (("_alone", ()), ("_halved", ("_is_am",))):
        on = ["team", "_day", "setting", *half]
        single = stored.filter(pl.len().over(on) == 1).select(*on, pl.col("session").alias(name))
        days = days.join(single, on=on, how="left", maintain_order="left")
        days = days.with_columns(pl.when(pl.len().over(on) == 1).then(pl.col(name)).alias(name))
    beside = stored.select(
        pl.col("session").alias("_session"),
        pl.col("starts_at", "season", "label", "season_part").name.prefix("_stored_"),
    ).unique("_session")
    days = days.with_columns(_session=pl.coalesce("_exact", "_alone", "_halved"))
    return days.join(beside, on="_session", how="left", maintain_order="left")
