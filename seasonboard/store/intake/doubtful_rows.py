"""What may be but hardly is: kept, and told with its count."""

from collections.abc import Callable

import polars as pl

from seasonboard.store.intake.folding import folded_name
from seasonboard.store.intake.keys import offered_keys
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.row_keys import PLACE
from seasonboard.store.intake.season_dates import note_season_days
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.terms import Part, Stage


def note_doubts(name: str, rows: pl.DataFrame, context: LoadContext) -> None:
    """Note what is doubtful in the incoming rows of one table.

    Args:
        name: The table.
        rows: Its incoming rows, complete, of a load without problems.
        context: The load, whose findings take one note a kind and file.
    """
    check = _CHECKS.get(name)
    if check is not None:
        check(rows, context.season, context.findings)


def _roster(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    before = season.stored("roster").select("athlete", "team", "season", _before="name")
    renamed = rows.join(before, on=["athlete", "team", "season"], how="left", maintain_order="left")
    written = [*renamed["_before"].drop_nulls(), *renamed["name"].drop_nulls()]
    names = {one: folded_name(one) for one in written}
    other = pl.col("_before").replace(names) != pl.col("name").replace(names)
    findings.doubt(renamed, other, "name", "was {_before} under the key {athlete}; is it one?")
    made = pl.col("athlete").str.starts_with(pl.col("team") + " " + pl.col("name"))
    teams = season.now("roster").group_by("name").agg(_teams=pl.col("team").unique().sort())
    shared = rows.filter(made).join(teams, on="name", maintain_order="left")
    shared = shared.with_columns(_all=pl.col("_teams").list.join(", "))
    said = "is a name on more than one team ({_all}); the people of each are kept apart."
    findings.doubt(shared, pl.col("_teams").list.len() > 1, "name", said)
    squad = season.now("roster").select("athlete", "team", "season", "name", "jersey")
    names = {one: folded_name(one) for one in squad["name"].unique().drop_nulls()}
    fold = pl.col("name").replace_strict(names, default=None, return_dtype=pl.String)
    place = ["team", "season", "_name", "jersey"]
    shared = (
        squad.with_columns(_name=fold)
        .group_by(place)
        .agg(pl.col("athlete").unique().sort().alias("_all"))
    )
    shared = shared.filter(pl.col("_all").list.len() > 1)
    if not shared.is_empty():
        several = shared.with_columns(_all=pl.col("_all").list.join(", "))
        twice = rows.with_columns(_name=fold).join(several, on=place, maintain_order="left")
        said = "has the name and jersey of another athlete of the team ({_all}); are they one?"
        findings.doubt(twice, pl.lit(True), "name", said)
    _nearly_stored(rows, season, findings, "roster", "athlete")


def _nearly_stored(
    rows: pl.DataFrame, season: SeasonRows, findings: Findings, table: str, key: str
) -> None:
    """Note new keys that differ from stored ones only in their leading zeros."""
    stored = season.stored(table)[key].unique()
    written = rows[key].unique()
    near = offered_keys(written.filter(~written.is_in(stored.implode())), stored)
    if near:
        taken = pl.col(key).replace_strict(near, default=None, return_dtype=pl.String)
        said = "is new, but {_near} is there already: they differ in leading zeros. Are they one?"
        findings.doubt(rows.with_columns(_near=taken), pl.col("_near").is_not_null(), key, said)


def _sessions(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    at_once = season.now("sessions").group_by("team", "starts_at").agg(held=pl.len())
    counted = rows.join(at_once, on=["team", "starts_at"], how="left", maintain_order="left")
    said = "starts at the same instant as another session of its team."
    findings.doubt(counted, pl.col("held") > 1, "session", said)
    days = season.days_of_sessions().select("session", "played_on").unique("session")
    dated = rows.join(days, on="session", how="left", maintain_order="left")
    note_season_days(dated.with_columns(starts_at=pl.col("played_on")), "starts_at", findings)


def _attendance(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    squad = season.now("roster").select("athlete", "team", "season").with_columns(listed=True)
    playing = season.now("sessions").select("session", "team", "season")
    pairs = rows.lazy().select("session", "athlete", *PLACE)
    placed = pairs.join(playing.lazy(), on="session", how="left")
    strays = placed.join(squad.lazy(), on=["athlete", "team", "season"], how="anti").collect()
    said = "took part in a session of a team whose roster of that season does not list the athlete."
    findings.doubt(strays, pl.lit(True), "athlete", said)


def _wear(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    owners = season.now("guards").select("guard", "athlete")
    starts = season.now("sessions").select("session", "starts_at")
    parts = season.now("attendance").select("session", "athlete", "part")
    worn = rows.filter(pl.col("worn").is_null() | (pl.col("worn") != "no"))
    worn = worn.join(owners, on="guard", how="left").join(starts, on="session", how="left")
    worn = worn.join(parts, on=["session", "athlete"], how="left")
    said = "was worn in a session its athlete was out of."
    findings.doubt(worn, pl.col("part") == Part.OUT, "guard", said)
    said = "was worn in a session without an attendance row of its athlete."
    findings.doubt(worn, pl.col("part").is_null(), "guard", said)
    ready = pl.col("stage").is_in([Stage.DELIVERED, Stage.FITTED])
    times = (
        season.now("stages")
        .group_by("guard")
        .agg(ready_at=pl.col("reached_at").filter(ready).min(), staged=pl.len())
    )
    worn = worn.join(times, on="guard", how="left")
    said = "was worn before it was delivered or fitted."
    findings.doubt(worn, pl.col("starts_at") < pl.col("ready_at"), "guard", said)
    said = "was worn, but its stages do not say that it was delivered or fitted."
    findings.doubt(worn, pl.col("ready_at").is_null() & (pl.col("staged") > 0), "guard", said)


def _stages(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    usual = {str(stage): place for place, stage in enumerate(Stage)}
    mine = season.now("stages").join(rows.select("guard").unique(), on="guard", how="semi")
    first = mine.group_by("guard", "stage").agg(pl.col("reached_at").min())
    first = first.with_columns(
        place=pl.col("stage").replace_strict(usual, return_dtype=pl.Int32)
    ).sort("guard", "place")
    so_far = pl.col("reached_at").cum_max().shift(1).over("guard")
    early = first.filter(pl.col("reached_at") < so_far).select("guard").unique()
    shown = rows.join(early, on="guard", how="semi").sort(*PLACE).unique("guard", keep="first")
    said = "reached its stages out of their usual order."
    findings.doubt(shown, pl.lit(True), "guard", said)


def _injuries(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    unknown = pl.col("joined_on").is_null().any()
    record = ["athlete", "occurred_on", "area", "side"]
    alike = season.now("injuries").group_by(record).agg(_all=pl.col("injury").sort())
    alike = alike.filter(pl.col("_all").list.len() > 1).with_columns(
        _all=pl.col("_all").list.join(", ")
    )
    twice = rows.join(alike, on=record, maintain_order="left")
    said = "has the athlete, day, area and side of another injury ({_all}); are they one?"
    findings.doubt(twice, pl.lit(True), "injury", said)
    joined = (
        season.now("roster")
        .group_by("athlete")
        .agg(joined_on=pl.when(~unknown).then(pl.col("joined_on").min()))
    )
    dated = rows.join(joined, on="athlete", how="left", maintain_order="left")
    said = "lies before the athlete joined, on {joined_on}."
    findings.doubt(dated, pl.col("occurred_on") < pl.col("joined_on"), "occurred_on", said)
    parts = season.now("attendance").select("session", "athlete", "part")
    met = rows.join(parts, on=["session", "athlete"], how="left", maintain_order="left")
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
