"""What changed between two days: played, hurt, back, ordered, offered, decided, loaded."""

from datetime import date

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.orders.order_times import local_days
from seasonboard.answers.week import item_tables as tables
from seasonboard.answers.week.parts import WeekItem, counted, rows_of
from seasonboard.terms import Stage

_OF_ORDER = ["guard", "athlete", "name", "team", "kind", "side", "purpose", "time_zone"]
_WORN = ("guarded", "bare", "not known", "no session")


def played(sessions: pl.DataFrame) -> WeekItem:
    """Return the sessions held, with availability; rows are those of `roster/sessions`."""
    games = sessions.filter(pl.col("setting") == "game")
    practices = sessions.filter(pl.col("setting") != "game")
    empty = int((sessions["exposures"] + sessions["out"] == 0).sum())
    sentences = ["No session was held."]
    if len(sessions):
        counts = words.plural(len(games), "game"), words.plural(len(practices), "practice")
        sentences = [
            f"{' and '.join(counts)} were held.",
            _availability_words(games, "At games"),
            _availability_words(practices, "At practices"),
        ]
    if empty:
        sentences.append(f"{words.plural(empty, 'session')} without any attendance recorded.")
    sentence = " ".join(filter(None, sentences))
    return WeekItem(tables.PLAYED, "Played", sentence, rows_of(_by_team(sessions)), summary=0)


def _by_team(sessions: pl.DataFrame) -> pl.DataFrame:
    """Return games and practices of every team, with the share of athletes available."""
    is_game, is_practice = pl.col("setting") == "game", pl.col("setting") != "game"
    available, recorded = pl.col("available"), pl.col("recorded")
    by_team = sessions.group_by("team").agg(
        games=is_game.sum(),
        practices=is_practice.sum(),
        unrecorded=(pl.col("exposures") + pl.col("out") == 0).sum(),
        game_share=available.filter(is_game).sum() / recorded.filter(is_game).sum(),
        practice_share=available.filter(is_practice).sum() / recorded.filter(is_practice).sum(),
    )
    return by_team.with_columns(pl.col("game_share", "practice_share").fill_nan(None)).sort("team")


def _availability_words(sessions: pl.DataFrame, opening: str) -> str:
    """Return the availability over some sessions as a sentence, or nothing without a session."""
    available, recorded = int(sessions["available"].sum()), int(sessions["recorded"].sum())
    if sessions.is_empty():
        return ""
    if not recorded:
        return f"{opening} nobody's attendance is recorded."
    unknown = int(sessions["unknown"].sum())
    aside = f" ({words.whole(unknown)} not known)" if unknown else ""
    return f"{opening} {words.percent(available / recorded)} were available{aside}."


def injured(injuries: pl.DataFrame) -> WeekItem:
    """Return the injuries that became known; rows are those of `week/injuries`."""
    is_guarded, back = pl.col("is_guarded"), pl.format("back {}", "returned_on")
    at_site = pl.when(is_guarded).then(pl.lit("guarded")).when(~is_guarded).then(pl.lit("bare"))
    new = injuries.filter("is_new").with_columns(
        worn=at_site.when(pl.col("setting").is_null())
        .then(pl.lit("no session"))
        .otherwise(pl.lit("not known")),
        state=pl.coalesce(back, pl.lit("not yet back")),
        is_studied=pl.when("is_studied").then(pl.lit("yes")).otherwise(pl.lit("no")),
    )
    new = new.sort(pl.col("returned_on").is_not_null(), "known_on", "injury")
    studied = new.filter(pl.col("is_studied") == "yes")
    sentence = "No injury became known."
    if len(new):
        still = new["returned_on"].null_count()
        worn = counted((word, int((studied["worn"] == word).sum())) for word in _WORN)
        worn = f" ({worn})" if len(studied) else ""
        sentence = (
            f"{words.plural(len(new), 'injury', 'injuries')} became known, {len(studied)} at a "
            f"site that these guards cover{worn}; {words.whole(still)} not yet back."
        )
    return WeekItem(tables.INJURIES, "New injuries", sentence, rows_of(new))


def returned(injuries: pl.DataFrame) -> WeekItem:
    """Return who is back; rows are those of `week/injuries`."""
    days = (pl.col("returned_on") - pl.col("occurred_on")).dt.total_days() - 1
    back = injuries.filter("is_return").with_columns(days_lost=days.clip(lower_bound=0))
    back = back.sort("returned_on", "injury")
    sentence = "Nobody returned."
    if len(back):
        longest = words.plural(max(back["days_lost"].to_list()), "day")
        sentence = f"{words.plural(len(back), 'return')}, after at most {longest} lost."
    return WeekItem(tables.RETURNS, "Returns", sentence, rows_of(back))


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
        others = f"; {others}" if others else ""
        asked = words.plural(requested, "guard")
        sentence = f"{asked} asked for, {words.whole(fitted)} fitted{others}."
    return WeekItem(tables.STAGES, "Orders", sentence, rows_of(days), summary=0)


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
    sentence = f"{'; '.join(sentences) or 'No remake and no replacement was asked for'}."
    return WeekItem(tables.REMAKES, "Remakes and replacements", sentence, rows_of(requests))


def _reasons(rows: pl.DataFrame) -> str:
    counts = rows["reason"].value_counts().sort("count", "reason", descending=[True, False])
    return counted((reason, count) for reason, count in counts.iter_rows())


def jumped(turns: pl.DataFrame | None, since: date) -> tuple[WeekItem, ...]:
    """Return the drawn turns that were jumped; nothing without a draw. Rows of `turns/turns`."""
    if turns is None or turns.is_empty():
        return ()
    rows = turns.filter(pl.col("jumped_on") > since).sort("jumped_on", "draw", "turn")
    sentence = "No drawn turn was jumped."
    if len(rows):
        sentence = f"{words.plural(len(rows), 'drawn turn')} jumped: made out of the order drawn."
    return (WeekItem(tables.JUMPED, "Jumped turns", sentence, rows_of(rows)),)


def offered(offers: pl.DataFrame) -> WeekItem:
    """Return the offers made and their answers; rows are those of `week/offers`."""
    sentence = "No guard was offered."
    if len(offers):
        answers = ("accepted", "declined", "undecided")
        counts = counted((answer, int((offers["answer"] == answer).sum())) for answer in answers)
        sentence = f"{words.plural(len(offers), 'offer')}: {counts}."
    return WeekItem(tables.OFFERS, "Offers", sentence, rows_of(offers))


def loaded(loads: pl.DataFrame) -> WeekItem:
    """Return the loads into the store; rows are those of `week/loads`."""
    sentence = "Nothing was loaded on these days."
    if len(loads):
        new, changed = int(loads["new_rows"].sum()), int(loads["changed_rows"].sum())
        count = words.plural(len(loads), "load")
        sentence = f"{count}: {words.plural(new, 'new row')}, {words.whole(changed)} changed."
    at = loads.with_columns(pl.col("loaded_at").dt.to_string("%Y-%m-%d %H:%M UTC"))
    return WeekItem(tables.LOADS, "Loads", sentence, rows_of(at), summary=0)
