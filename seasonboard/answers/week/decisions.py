"""Decisions: those made or done between two days, and those still to be done."""

from datetime import date, timedelta

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.week.item_tables import DECIDED, DECISIONS
from seasonboard.answers.week.parts import DAYS_AHEAD, WeekItem, counted, rows_of

EVERY_DEPARTMENT = "every department"


def decided(decisions: pl.DataFrame, since: date) -> WeekItem:
    """Return the decisions made or done after a day; rows are those of `week/decisions`."""
    is_new, is_done = pl.col("decided_on") > since, pl.col("done_on") > since
    now = _named(decisions).filter(is_new | is_done.fill_null(value=False))
    now = now.with_columns(
        what=pl.when(is_new & pl.col("done_on").is_not_null())
        .then(pl.lit("made and done"))
        .when(is_new)
        .then(pl.lit("made"))
        .otherwise(pl.lit("done"))
    )
    kinds = ("made", "made and done", "done")
    counts = counted((what, int((now["what"] == what).sum())) for what in kinds)
    sentence = f"{counts or 'None was made or done'}."
    return WeekItem(DECIDED, "Decisions made or done", sentence, rows_of(now))


def decisions_due(decisions: pl.DataFrame, through: date) -> WeekItem:
    """Return what is still to be done, the overdue first; rows are those of `week/decisions`."""
    days = (pl.col("due_on") - pl.lit(through)).dt.total_days()
    open_ = (
        _named(decisions)
        .filter(pl.col("done_on").is_null())
        .with_columns(
            state=pl.when(days < 0)
            .then(pl.format("overdue by {} d", -days))
            .when(days == 0)
            .then(pl.lit("due today"))
            .when(days > 0)
            .then(pl.format("due in {} d", days))
            .otherwise(pl.lit("no day set"))
        )
        .with_columns(state=pl.col("state") + _guards_done())
        .sort("due_on", "decided_on", "decision", nulls_last=True)
    )
    overdue = int((open_["due_on"] < through).sum())
    soon = open_.filter(pl.col("due_on").is_between(through, through + timedelta(days=DAYS_AHEAD)))
    sentence = "No decision is waiting to be done."
    if len(open_):
        count, late = words.plural(len(open_), "decision"), words.whole(overdue)
        due = f"{words.whole(len(soon))} due within {DAYS_AHEAD} days"
        sentence = f"{count} to be done: {late} overdue, {due}."
    return WeekItem(DECISIONS, "Decisions due", sentence, rows_of(open_), is_ahead=True, summary=5)


def _guards_done() -> pl.Expr:
    """Return how many of the guards that a decision marks are done; nothing where it marks none."""
    told = pl.format(", {} of {} guards done", "marked_done", "marked")
    return pl.when(pl.col("marked") > 0).then(told).otherwise(pl.lit(""))


def _named(decisions: pl.DataFrame) -> pl.DataFrame:
    name = pl.coalesce("department_name", "department", pl.lit(EVERY_DEPARTMENT))
    return decisions.with_columns(department_name=name)
