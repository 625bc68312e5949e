"""Who wears what was made alike? Guards of a lot or printer, and what is done with them."""

from dataclasses import replace
from datetime import date

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.questions import RECALL
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.answers.recall.parts import DONE, TO_BE_DONE, RecallAnswer, RecallOptions
from seasonboard.scope import Scope, ScopeValues, with_values
from seasonboard.sentence import join

_STATES = ("in use", "on its way", "replaced", "retired", "cancelled", "not recorded")


def recall(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: RecallOptions | None = None
) -> RecallAnswer:
    """List the guards made of what the scope asks for, or those to be looked at where it asks none.

    Raises:
        ScopeError: No guard is of the lot.
    """
    if options is not None and options.lot:
        others = [one for one in scope.made_of or () if not one.startswith("lot ")]
        scope = with_values(scope, "made of", [*others, f"lot {options.lot}"], scope_values)
    frames = read_frames(reader, scope, "recall/guards", "recall/outside", "recall/parts")
    guards, parts = _with_progress(frames["recall/guards"]), frames["recall/parts"]
    due = _due(guards)
    if scope.made_of:
        parts = parts.clear()
    else:
        guards = guards.filter((pl.col("attention") != "") | pl.col("progress").eq(TO_BE_DONE))
    caveats = tuple(_caveats(scope, frames["recall/outside"].item()))
    summary = Summary(RECALL.asks, _sentence(guards, parts, scope, due), caveats, (), scope)
    return RecallAnswer(summary, guards, parts)


def _with_progress(guards: pl.DataFrame) -> pl.DataFrame:
    """Add why a guard in use is to be looked at, by its department's rule, and what is done."""
    sessions = pl.col("worn_since") >= pl.col("look_after_sessions")
    weeks = pl.col("weeks_since") >= pl.col("look_after_weeks")
    in_use = pl.col("state") == "in use"
    return guards.with_columns(
        attention=pl.when(in_use & sessions)
        .then(pl.format("{} sessions worn", "worn_since"))
        .when(in_use & weeks)
        .then(pl.format("{} weeks in use", pl.col("weeks_since").floor().cast(pl.Int64)))
        .otherwise(pl.lit("")),
        progress=pl.when(pl.col("decision").is_null())
        .then(pl.lit(""))
        .when(pl.col("done_on").is_null())
        .then(pl.lit(TO_BE_DONE))
        .otherwise(pl.lit(DONE)),
    )


def _due(guards: pl.DataFrame) -> str:
    """Return how many are to be looked at; without a department's rule nothing can be due."""
    rules = guards.select("look_after_sessions", "look_after_weeks")
    if all(rules[name].null_count() == len(guards) for name in rules.columns):
        return "No department has a rule for looking at guards in use."
    due = int((guards["attention"] != "").sum())
    return f"{words.plural(due, 'guard')} to be looked at by the department's own rule."


def _sentence(guards: pl.DataFrame, parts: pl.DataFrame, scope: Scope, due: str) -> str:
    marked = guards.filter(pl.col("progress") != "")
    done = int((marked["progress"] == DONE).sum())
    if not scope.made_of:
        lots = words.plural(int((parts["part"] == "lot").sum()), "lot")
        text = f"{lots} on record: choose one, or anything else guards are made of."
        if parts.is_empty():
            text = "Nothing is on record of what guards are made of."
        text = f"{text} {due}"
        open_ones = words.plural(len(marked), "guard", "guards")
        return f"{text} {open_ones} marked by a decision still to be done." if len(marked) else text
    counts = [(state, int((guards["state"] == state).sum())) for state in _STATES]
    told = ", ".join(f"{words.whole(count)} {state}" for state, count in counts if count)
    made = f"made of {join(scope.made_of)}"
    text = f"{words.plural(len(guards), 'guard')} {made}: {told}." if told else f"No guard {made}."
    in_use = guards.filter(pl.col("state") == "in use")
    first = in_use["next_game_on"].min()
    if isinstance(first, date):
        text += f" The next game of who wears one: {first:%a} {first.day} {first:%b}."
    if len(marked):
        text += f" Of {words.whole(len(marked))} that a decision marks {words.whole(done)} done."
    return text


def _caveats(scope: Scope, outside: int) -> list[str]:
    caveats = [CAUTION]
    if scope.made_of:
        caveats.append(
            "A guard whose build was not recorded is in no lot: it may be made of the same."
        )
    if scope.made_of and outside:
        are = "lies" if outside == 1 else "lie"
        caveats.insert(
            0,
            f"{words.plural(outside, 'guard')} made of the same {are} outside the scope: widen "
            "it before anybody is told who is concerned.",
        )
    return caveats


def of_everything(scope: Scope, made_of: str, known: ScopeValues) -> Scope:
    """Return the scope of all guards of the store made of one thing, on the same last day."""
    from seasonboard.answers.finder import everything

    return replace(everything(scope, known), made_of=(made_of,))
