"""Drawn turns are frozen: what a load may not do to them, and what a draw must be."""

import polars as pl

from seasonboard.store.intake.frozen_cells import refuse_changes
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.stored_tables import TABLES

_JUMP = ("jumped_on", "jump_reason")
_OF_DRAW = (
    *("drawn_on", "starts_on", "prints_per_week", "ready_days", "seed"),
    *("board_number", "no_board_reason"),
)
"""What all turns of one draw share."""
_HELD = "_held"


def check_turns(rows: pl.DataFrame, season: SeasonRows, findings: Findings) -> None:
    """Refuse rows that would change a draw, and draws that cannot be."""
    _frozen(rows, season.stored("turns"), findings)
    _contradictory(rows, findings)
    now = season.now("turns")
    shared = now.group_by("draw").agg(pl.col(name).n_unique() for name in _OF_DRAW)
    apart = rows.select("file_no", "file_row", "draw", *_OF_DRAW).join(
        shared, on="draw", how="left", suffix=_HELD, maintain_order="left"
    )
    for name in _OF_DRAW:
        said = "differs within draw {draw}; all turns of a draw share it."
        findings.reject(apart, pl.col(name + _HELD) > 1, name, said)
    _twice(rows, now, findings)


def _frozen(rows: pl.DataFrame, stored: pl.DataFrame, findings: Findings) -> None:
    """Refuse other cells in a frozen turn, and turns beside those of a frozen draw."""
    if stored.is_empty():
        return
    table = TABLES["turns"]
    said = "is frozen: draw {draw} has {held}. Only jumped_on and jump_reason of a turn may be "
    said += "changed; undo takes a whole draw back."
    refuse_changes(table, rows, stored, findings, said, free=_JUMP)
    fresh = rows.join(stored, on=list(table.key), how="anti", maintain_order="left")
    is_known = pl.col("draw").is_in(stored["draw"].unique().implode())
    said = "has no turn for this guard in draw {draw}, which is frozen. Draw anew under another key"
    findings.reject(fresh, is_known, "athlete", f"{said} those who wait by now.")


def _contradictory(rows: pl.DataFrame, findings: Findings) -> None:
    """Refuse turns that contradict themselves."""
    board, reason = pl.col("board_number").is_not_null(), pl.col("no_board_reason").is_not_null()
    said = "is needed, or no_board_reason: drawing turns is research in many places."
    findings.reject(rows, ~board & ~reason, "board_number", said)
    findings.reject(
        rows, board & reason, "no_board_reason", "stands beside a board_number; give one of both."
    )
    jumped, why = pl.col("jumped_on").is_not_null(), pl.col("jump_reason").is_not_null()
    findings.reject(rows, jumped & ~why, "jump_reason", "is needed: why was it out of turn?")
    findings.reject(rows, why & ~jumped, "jumped_on", "is needed where a jump_reason is given.")
    for late in ("jumped_on", "starts_on"):
        said = "lies before the day of the draw, {drawn_on}."
        findings.reject(rows, pl.col(late) < pl.col("drawn_on"), late, said)
    prints, turn = pl.col("prints_per_week"), pl.col("turn")
    findings.reject(rows, prints < 1, "prints_per_week", "is 1 or more: nobody's turn ever comes.")
    findings.reject(rows, turn < 1, "turn", "is 1 or more.")
    week = (turn - 1) // pl.max_horizontal(prints, 1) + 1
    said = "is not the week of turn {turn} at {prints_per_week} a week."
    findings.reject(rows, (turn >= 1) & (prints >= 1) & (pl.col("week") != week), "week", said)


def _twice(rows: pl.DataFrame, now: pl.DataFrame, findings: Findings) -> None:
    """Refuse one turn given to two, and one athlete drawn twice for a guard."""
    taken = now.group_by("draw", "turn").agg(_count=pl.len())
    counted = rows.join(taken, on=["draw", "turn"], how="left", maintain_order="left")
    findings.reject(counted, pl.col("_count") > 1, "turn", "is given twice in draw {draw}.")
    other = now.select("athlete", "kind", _side="side", _draw="draw")
    meets = rows.join(other, on=["athlete", "kind"], how="inner", maintain_order="left")
    is_other = (pl.col("_draw") != pl.col("draw")) | (pl.col("_side") != pl.col("side"))
    overlaps = (pl.col("_side") == pl.col("side")) | pl.any_horizontal(
        pl.col("side", "_side") == "both"
    )
    said = "has a turn for a {kind} guard already, in draw {_draw}; nobody is drawn twice for one."
    again = meets.filter(is_other & overlaps).unique(
        ["file_no", "file_row"], keep="first", maintain_order=True
    )
    findings.reject(again, pl.lit(value=True), "athlete", said)
