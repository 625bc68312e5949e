"""What changed between two days: played, hurt, back, ordered, offered, decided, loaded."""

from datetime import date

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.order_times import local_days
from seasonboard.answers.week.availability import availability_words, by_team
from seasonboard.answers.week.item_tables import (
    INJURIES,
    LOADS,
    OFFERS,
    PLAYED,
    REMAKES,
    RETURNS,
    STAGES,
)
from seasonboard.answers.week.parts import WeekItem, counted, rows_of
from seasonboard.terms import Stage

_OF_ORDER = ["guard", "athlete", "name", "team", "kind", "side", "purpose", "time_zone"]


def played(sessions: pl.DataFrame) -> WeekItem:
    """Return the sessions held, with availability; rows are those of `roster/sessions`."""
    games = sessions.filter(pl.col("setting") == "game")
    practices = len(sessions) - len(games)
    empty = int((sessions["exposures"] + sessions["out"] == 0).sum())
    if sessions.is_empty():
        sentence = "No session was held."
    else:
        sentence = (
            f"{words.plural(len(games), 'game')} and {words.plural(practices, 'practice')} were "
            f"held. {availability_words(games, 'At games')}"
            f"{availability_words(sessions.filter(pl.col('setting') != 'game'), 'At practices')}"
        )
        if empty:
            nobody = f"{words.plural(empty, 'session')} without any attendance recorded."
            sentence += f" {nobody}"
    return WeekItem(
        PLAYED, "Played", sentence.replace("  ", " ").strip(), rows_of(by_team(sessions)), summary=0
    )


def injured(injuries: pl.DataFrame) -> WeekItem:
    """Return the injuries that became known; rows are those of `week/injuries`."""
    new = injuries.filter("is_new").with_columns(
        worn=pl.when(pl.col("is_guarded"))
        .then(pl.lit("guarded"))
        .when(pl.col("is_guarded").not_())
        .then(pl.lit("bare"))
        .otherwise(pl.lit("no session")),
        state=pl.when(pl.col("returned_on").is_null())
        .then(pl.lit("not yet back"))
        .otherwise(pl.format("back {}", pl.col("returned_on"))),
        is_studied=pl.when("is_studied").then(pl.lit("yes")).otherwise(pl.lit("no")),
    )
    new = new.sort(pl.col("returned_on").is_not_null(), "known_on", "injury")
    studied = new.filter(pl.col("is_studied") == "yes")
    sentence = "No injury became known."
    if len(new):
        still = int(new["returned_on"].null_count())
        sentence = (
            f"{words.plural(len(new), 'injury', 'injuries')} became known, {len(studied)} at a "
            f"site that these guards cover{_worn(studied)}; {words.whole(still)} not yet back."
        )
    return WeekItem(INJURIES, "New injuries", sentence, rows_of(new))


def _worn(studied: pl.DataFrame) -> str:
    counts = [
        (word, int((studied["worn"] == word).sum())) for word in ("guarded", "bare", "no session")
    ]
    return f" ({counted(counts)})" if len(studied) else ""


def returned(injuries: pl.DataFrame) -> WeekItem:
    """Return who is back; rows are those of `week/injuries`."""
    one = pl.duration(days=1)
    back = injuries.filter("is_return").with_columns(
        days_lost=(pl.col("returned_on") - pl.col("occurred_on") - one)
        .dt.total_days()
        .clip(lower_bound=0)
    )
    back = back.sort("returned_on", "injury")
    sentence = "Nobody returned."
    if len(back):
        longest = int(back["days_lost"].max() or 0)  # type: ignore[arg-type]
        sentence = (
            f"{words.plural(len(back), 'return')}, after at most "
            f"{words.plural(longest, 'day')} lost."
        )
    return WeekItem(RETURNS, "Returns", sentence, rows_of(back))


def stage_days(orders: pl.DataFrame, since: date) -> pl.DataFrame:
    """Return one row per order and stage reached after `since`, with its day there (`on`)."""
    reached = (
        orders.select(*_OF_ORDER, *(f"{stage}_at" for stage in Stage))
        .unpivot(index=_OF_ORDER, variable_name="stage", value_name="reached_at")
        .drop_nulls("reached_at")
        .with_columns(pl.col("stage").str.strip_suffix("_at"))
    )
    reached = reached.with_columns(on=local_days(reached, "reached_at")).filter(
        pl.col("on") > since
    )
    return reached.sort("reached_at", "guard", "stage")


def staged(days: pl.DataFrame) -> WeekItem:
    """Return the stages that orders reached; rows as `stage_days` gives them."""
    counts = {stage: int((days["stage"] == str(stage)).sum()) for stage in Stage}
    sentence = "No order moved."
    if len(days):
        requested, fitted = counts.pop(Stage.REQUESTED), counts.pop(Stage.FITTED)
        others = counted((str(stage), count) for stage, count in counts.items())
        sentence = (
            f"{words.plural(requested, 'guard')} asked for, {words.whole(fitted)} fitted"
            f"{f'; {others}' if others else ''}."
        )
    return WeekItem(STAGES, "Orders", sentence, rows_of(days), summary=0)


def remade(orders: pl.DataFrame, since: date) -> WeekItem:
    """Return what was asked for in the place of another guard, and why."""
    dated = orders.with_columns(asked_at=pl.coalesce("requested_at", "first_stage_at"))
    requests = (
        dated.with_columns(on=local_days(dated, "asked_at"))
        .filter((pl.col("on") > since) & pl.col("made_as").is_not_null())
        .rename({"remake_reason": "reason", "made_as": "counts_as"})
        .sort("on", "guard")
    )
    sentences = [
        f"{words.plural(len(rows), name)} asked for ({_reasons(rows)})"
        for name in ("remake", "replacement")
        if len(rows := requests.filter(pl.col("counts_as") == name))
    ]
    if unknown := int((requests["counts_as"] == "reason not recorded").sum()):
        sentences.append(f"{words.whole(unknown)} asked for in place of another without a reason")
    sentence = "No remake and no replacement was asked for."
    if sentences:
        sentence = f"{'; '.join(sentences)}."
    return WeekItem(REMAKES, "Remakes and replacements", sentence, rows_of(requests))


def _reasons(rows: pl.DataFrame) -> str:
    counts = (
        rows["reason"].value_counts(sort=True).sort("count", "reason", descending=[True, False])
    )
    return counted((reason, count) for reason, count in counts.iter_rows())


def offered(offers: pl.DataFrame) -> WeekItem:
    """Return the offers made and their answers; rows are those of `week/offers`."""
    sentence = "No guard was offered."
    if len(offers):
        answers = ("accepted", "declined", "undecided")
        counts = counted((answer, int((offers["answer"] == answer).sum())) for answer in answers)
        sentence = f"{words.plural(len(offers), 'offer')}: {counts}."
    return WeekItem(OFFERS, "Offers", sentence, rows_of(offers))


def loaded(loads: pl.DataFrame) -> WeekItem:
    """Return the loads into the store; rows are those of `week/loads`."""
    sentence = "Nothing was loaded on these days."
    if len(loads):
        new, changed = int(loads["new_rows"].sum()), int(loads["changed_rows"].sum())
        sentence = (
            f"{words.plural(len(loads), 'load')}: {words.plural(new, 'new row')}, "
            f"{words.whole(changed)} changed."
        )
    at = loads.with_columns(pl.col("loaded_at").dt.to_string("%Y-%m-%d %H:%M UTC"))
    return WeekItem(LOADS, "Loads", sentence, rows_of(at), summary=0)
