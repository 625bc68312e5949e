"""What cannot be: keys that point nowhere, rows that contradict themselves or each other."""

from collections.abc import Callable
from functools import partial

import polars as pl

from seasonboard.store.intake.frozen_cells import refuse_changes
from seasonboard.store.intake.frozen_releases import NAMES, check_release
from seasonboard.store.intake.frozen_turns import check_turns
from seasonboard.store.intake.keys import offered_keys
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.seasons import check_season_days
from seasonboard.store.intake.text_columns import mapped
from seasonboard.stored_column import StoredTable
from seasonboard.stored_tables import TABLES
from seasonboard.terms import MIDLINE_AREAS, SIDELESS_AREAS, Side

_ON_MIDLINE = pl.col("area").is_in(sorted(MIDLINE_AREAS))
_ON_ONE_SIDE = ~pl.col("area").is_in(sorted(MIDLINE_AREAS | SIDELESS_AREAS))


def check_references(table: StoredTable, rows: pl.DataFrame, context: LoadContext) -> None:
    """Refuse every key that stands neither in the store nor in what is being loaded.

    `rows` are the incoming ones, already part of the season of the load. The nearest known key is
    told with each.
    """
    for column in table.columns:
        if column.refers is None or column.refers[0] in context.season.unread:
            continue
        target, key = column.refers
        name, there = column.name, context.season.keys(target, key)
        written = rows[name].drop_nulls().unique()
        lost = written.filter(~written.is_in(there.implode()))
        if lost.is_empty():
            continue
        near = offered_keys(lost, there)
        offered = rows.with_columns(_near=mapped(name, near))
        said = f"is not a known {key}, but “{{_near}}” is: they match without leading zeros. Write "
        said += "it so, or take all such with --accept-likely."
        context.findings.reject(offered, pl.col("_near").is_not_null(), name, said)
        wrong = pl.col(name).is_in(lost.implode()) & ~pl.col(name).is_in(list(near))
        said = f"is not a known {key}: it stands neither in {target} of this load nor in the store."
        context.findings.reject(rows, wrong, name, said, choices=there.to_list())


def check_sense(name: str, rows: pl.DataFrame, context: LoadContext) -> None:
    """Refuse what is impossible in the incoming rows, complete, of one table."""
    if name in _CHECKS:
        _CHECKS[name](rows, context.season, context.findings)


def _roster(rows: pl.DataFrame, _: SeasonRows, findings: Findings) -> None:
    _after(rows, findings, early="joined_on", late="left_on")


def _after(rows: pl.DataFrame, findings: Findings, *, early: str, late: str) -> None:
    said = f"lies before {early}, {{{early}}}."
    findings.reject(rows, pl.col(late) < pl.col(early), late, said)


def _guards(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    itself = pl.col("remake_of") == pl.col("guard")
    findings.reject(rows, itself, "remake_of", "is the guard itself; name the guard it replaces.")
    circling = season.now("guards").filter(~itself).select("guard", "remake_of").drop_nulls()
    circle = _in_a_circle(circling)
    said = "leads back to guard {guard} through its own remakes; one of them is wrong."
    findings.reject(rows, pl.col("guard").is_in(circle.implode()), "remake_of", said)
    _guard_sides(rows, season, findings)


def _guard_sides(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    kinds = season.now("kinds").group_by("kind").agg(
        areas=pl.col("area").sort().str.join(", "),
        only_midline=_ON_MIDLINE.all(),
        only_sides=_ON_ONE_SIDE.all(),
    )  # fmt: skip
    sided = rows.join(kinds, on="kind", how="left", maintain_order="left")
    _sides(sided, findings, said_of="a {kind} guard covers the {areas}")


def _in_a_circle(links: pl.DataFrame) -> pl.Series:
    """Follow all chains at once, twice as far each time; what is left goes round for ever."""
    links = links.unique("guard")
    steps = 1
    ahead = links
    while steps <= links.height and not ahead.is_empty():
        further = ahead.rename({"guard": "remake_of", "remake_of": "older"})
        ahead = ahead.join(further, on="remake_of").select("guard", remake_of="older")
        steps *= 2
    if ahead.is_empty():
        return ahead["guard"]
    entered = links.filter(pl.col("guard").is_in(ahead["remake_of"].implode()))
    return entered["guard"]


def _sides(rows: pl.DataFrame, findings: Findings, *, said_of: str) -> None:
    midline = pl.col("side") == Side.MIDLINE
    said = f"does not fit: {said_of}, whose side is midline."
    findings.reject(rows, pl.col("only_midline") & ~midline, "side", said)
    said = f"does not fit: {said_of}, whose side is left, right or both."
    findings.reject(rows, pl.col("only_sides") & midline, "side", said)


def _injuries(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    _after(rows, findings, early="occurred_on", late="reported_on")
    _after(rows, findings, early="occurred_on", late="returned_on")
    sided = rows.with_columns(only_midline=_ON_MIDLINE, only_sides=_ON_ONE_SIDE)
    _sides(sided, findings, said_of="this injury is of the {area}")
    dated = season.with_days(rows)
    apart = (pl.col("occurred_on") - pl.col("played_on")).dt.total_days().abs() > 1
    said = "is more than a day away from its session {session}, which was on {played_on}."
    findings.reject(dated, apart, "occurred_on", said)


def _sessions(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    dated = season.with_days(rows).with_columns(starts_at="played_on")
    check_season_days(dated, "starts_at", findings)


def _turns(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    check_turns(rows, season, findings)
    _guard_sides(rows, season, findings)


def _questions(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    said = "would change the question on {kind} guards fixed on {asked_on}, whose COLUMN is {held}."
    said += " A fixed question never changes: give a new one the day on which it is asked."
    refuse_changes(TABLES["questions"], rows, season.stored("questions"), findings, said)


_CHECKS: dict[str, Callable[[pl.DataFrame, SeasonRows, Findings], None]] = {
    "roster": _roster,
    "sessions": _sessions,
    "guards": _guards,
    "injuries": _injuries,
    "turns": _turns,
    "questions": _questions,
    **{name: partial(check_release, name) for name in NAMES},
}
