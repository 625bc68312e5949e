"""What may be but hardly is: kept, and told with its count; and rows gone from their files."""

from collections.abc import Callable, Sequence

import polars as pl

from seasonboard.store.intake.keys import offered_keys
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings, first_few
from seasonboard.store.intake.row_keys import PLACE, row_key
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.seasons import note_season_days
from seasonboard.store.intake.sources import TableSource
from seasonboard.store.intake.text_columns import folded_names, mapped
from seasonboard.stored_tables import TABLES
from seasonboard.terms import Part, Stage


def note_doubts(name: str, rows: pl.DataFrame, context: LoadContext) -> None:
    """Note what is doubtful in the incoming rows, complete, of one table."""
    if name in _CHECKS:
        _CHECKS[name](rows, context.season, context.findings)


def _roster(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    key = ["athlete", "team", "season"]
    before = season.stored("roster").select(*key, _before="name")
    renamed = rows.join(before, on=key, how="left", maintain_order="left")
    other = folded_names(renamed["_before"]) != folded_names(renamed["name"])
    findings.doubt(renamed, other, "name", "was {_before} under the key {athlete}; is it one?")
    is_made = pl.col("athlete").str.starts_with(pl.col("team") + " " + pl.col("name"))
    teams = season.now("roster").group_by("name").agg(_all=pl.col("team").unique().sort())
    said = "is a name on more than one team ({_all}); the people of each are kept apart."
    findings.doubt(*_several(rows.filter(is_made), teams, ["name"]), "name", said)
    squad = season.now("roster")
    identity = ["team", "season", "_name", "jersey"]
    people = squad.with_columns(_name=folded_names(squad["name"])).group_by(identity)
    same = people.agg(_all=pl.col("athlete").unique().sort())
    named = rows.with_columns(_name=folded_names(rows["name"]))
    said = "has the name and jersey of another athlete of the team ({_all}); are they one?"
    findings.doubt(*_several(named, same, identity), "name", said)
    near = offered_keys(rows["athlete"].unique(), season.stored("roster")["athlete"].unique())
    said = "is new, but {_near} is there already: they differ in leading zeros. Are they one?"
    close = rows.with_columns(_near=mapped("athlete", near))
    findings.doubt(close, pl.col("_near").is_not_null(), "athlete", said)


def _several(
    rows: pl.DataFrame, known: pl.DataFrame, on: list[str]
) -> tuple[pl.DataFrame, pl.Expr]:
    """Join to rows the list `_all` of what agrees with each, in words, where there is more."""
    several = known.filter(pl.col("_all").list.len() > 1)
    several = several.with_columns(_all=pl.col("_all").list.join(", "))
    return rows.join(several, on=on, maintain_order="left"), pl.lit(True)


def _sessions(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    at_once = season.now("sessions").group_by("team", "starts_at").agg(_rows=pl.len())
    counted = rows.join(at_once, on=["team", "starts_at"], how="left", maintain_order="left")
    said = "starts at the same instant as another session of its team."
    findings.doubt(counted, pl.col("_rows") > 1, "session", said)
    dated = season.with_days(rows).with_columns(starts_at="played_on")
    note_season_days(dated, "starts_at", findings)


def _attendance(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    squad = season.now("roster").select("athlete", "team", "season")
    playing = season.now("sessions").select("session", "team", "season")
    played = (
        rows.lazy()
        .select("session", "athlete", *PLACE)
        .join(playing.lazy(), on="session", how="left")
    )
    strays = played.join(squad.lazy(), on=squad.columns, how="anti").collect()
    said = "took part in a session of a team whose roster of that season does not list the athlete."
    findings.doubt(strays, pl.lit(True), "athlete", said)


def _wear(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    ready = pl.col("stage").is_in([Stage.DELIVERED, Stage.FITTED])
    times = season.now("stages").group_by("guard").agg(
        ready_at=pl.col("reached_at").filter(ready).min(), staged=pl.len()
    )  # fmt: skip
    worn = (
        rows.filter(pl.col("worn").ne_missing("no"))
        .join(season.now("guards").select("guard", "athlete"), on="guard", how="left")
        .join(season.now("sessions").select("session", "starts_at"), on="session", how="left")
        .join(_parts(season), on=["session", "athlete"], how="left")
        .join(times, on="guard", how="left")
    )
    part, ready_at = pl.col("part"), pl.col("ready_at")
    for odd, said in (
        (part == Part.OUT, "was worn in a session its athlete was out of."),
        (part.is_null(), "was worn in a session without an attendance row of its athlete."),
        (pl.col("starts_at") < ready_at, "was worn before it was delivered or fitted."),
        (
            ready_at.is_null() & (pl.col("staged") > 0),
            "was worn, but its stages do not say that it was delivered or fitted.",
        ),
    ):
        findings.doubt(worn, odd, "guard", said)


def _parts(season: SeasonRows) -> pl.DataFrame:
    return season.now("attendance").select("session", "athlete", "part")


def _stages(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    usual = {str(stage): nth for nth, stage in enumerate(Stage)}
    mine = season.now("stages").join(rows.select("guard").unique(), on="guard", how="semi")
    first = mine.group_by("guard", "stage").agg(pl.col("reached_at").min())
    first = first.with_columns(_nth=mapped("stage", usual, pl.Int32)).sort("guard", "_nth")
    so_far = pl.col("reached_at").cum_max().shift(1).over("guard")
    early = first.filter(pl.col("reached_at") < so_far).select("guard").unique()
    shown = rows.join(early, on="guard", how="semi").sort(*PLACE).unique("guard", keep="first")
    findings.doubt(shown, pl.lit(True), "guard", "reached its stages out of their usual order.")


def _injuries(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    record = ["athlete", "occurred_on", "area", "side"]
    alike = season.now("injuries").group_by(record).agg(_all=pl.col("injury").sort())
    said = "has the athlete, day, area and side of another injury ({_all}); are they one?"
    findings.doubt(*_several(rows, alike, record), "injury", said)
    joined_on = pl.col("joined_on")
    joined = season.now("roster").group_by("athlete").agg(
        pl.when(~joined_on.is_null().any()).then(joined_on.min())
    )  # fmt: skip
    dated = rows.join(joined, on="athlete", how="left", maintain_order="left")
    said = "lies before the athlete joined, on {joined_on}."
    findings.doubt(dated, pl.col("occurred_on") < joined_on, "occurred_on", said)
    met = rows.join(_parts(season), on=["session", "athlete"], how="left", maintain_order="left")
    absent = pl.col("part").is_null() | (pl.col("part") == Part.OUT)
    said = "is a session the injured athlete is not recorded as taking part in."
    findings.doubt(met, pl.col("session").is_not_null() & absent, "session", said)


_CHECKS: dict[str, Callable[[pl.DataFrame, SeasonRows, Findings], None]] = {
    "roster": _roster,
    "sessions": _sessions,
    "attendance": _attendance,
    "wear": _wear,
    "stages": _stages,
    "injuries": _injuries,
}


def tell_rows_gone(sources: Sequence[TableSource], context: LoadContext) -> int:
    """Tell, for every file that was loaded before, which of its rows are not in it now.

    A file counts as corrected when it still holds at least half of the rows it brought before.

    Returns:
        How many rows are gone from their files; all of them stay in the store.
    """
    files = [source for source in sources if source.sha256]  # rows typed in come from none
    loads = context.season.store.read("store/file_loads") if files else pl.DataFrame()
    gone = 0
    for source in files:
        before = loads.filter(file=source.label, table_name=source.table)
        if before.is_empty() or source.sha256 in before["sha256"]:
            continue
        lost = _lost(source.table, before["load_no"], context)
        if lost.is_empty():
            continue
        gone += lost.height
        shown = first_few(lost.select(row_key(TABLES[source.table], lost)).to_series())
        said = f"{lost.height:,} rows that it brought before are not in it any more and stay as "
        if lost.height == 1:
            said = "1 row that it brought before is not in it any more and stays as "
        context.findings.tell(source.label, f"{said}stored: {shown}.")
    return gone


def _lost(table: str, loads: pl.Series, context: LoadContext) -> pl.DataFrame:
    key, types = list(TABLES[table].key), TABLES[table].frame_types
    brought = context.season.store.read(f"brought/{table}")
    mine = brought.filter(pl.col("load_no").is_in(loads.implode())).select(
        pl.col(name).cast(types[name]) for name in key
    )
    lost = mine.join(context.season.incoming[table].select(key), on=key, how="anti")
    is_corrected = lost.height * 2 <= mine.height  # else it is another file of the same name
    return lost if is_corrected else lost.clear()
