"""Orders in the order that was drawn, and the sentences of draws."""

import re
from dataclasses import replace
from datetime import date

import polars as pl
import pytest

from seasonboard.answers.compare.drawn_turns import shown_by_turns, turns_sentences
from seasonboard.answers.orders.turns import in_turn
from tests.answers.worked.orders import AWAITED
from tests.answers.worked.turns import JUMPED, WAITS
from tests.ui.counted import attendance_recorded, draws
from tests.ui.counted import drawn_turns as counted_turns

ATTENDANCE = {"compare/drawn_attendance": attendance_recorded()}


def order(guard, stage="requested", department="north"):
    return replace(AWAITED, guard=guard, stage=stage, department=department, draw=None, turn=None)


def drawn(*rows):
    schema = {"guard": pl.String, "draw": pl.String, "turn": pl.Int64, "turn_on": pl.Date}
    return pl.DataFrame(rows, schema=schema, orient="row")


def test_only_drawn_orders_before_the_print_change_places_and_only_within_their_department():
    """C has turn 1 and A turn 3; D is printed, B was never drawn, E waits in another department."""
    waiting = [
        order("A"),
        order("B"),
        order("C"),
        order("D", "printed"),
        order("E", "scanned", "south"),
    ]
    first, later = date(2026, 9, 7), date(2026, 9, 14)
    turns = drawn(("A", "T01", 3, later), ("C", "T01", 1, first), ("D", "T01", 2, first),
                  ("E", "T02", 1, first))  # fmt: skip
    found = in_turn(waiting, turns)
    assert [one.guard for one in found] == ["C", "B", "A", "D", "E"]
    assert [one.turn for one in found] == [1, None, 3, 2, 1]
    assert in_turn(waiting, drawn()) == tuple(waiting)


@pytest.mark.parametrize(
    ("turn", "through", "state"),
    [
        (JUMPED, date(2026, 9, 1), "jumped, 20 Aug"),
        (replace(JUMPED, jumped_on=None), date(2026, 9, 1), "made early: say why"),
        (replace(JUMPED, jumped_on=None, turn_on=date(2026, 8, 21)), date(2026, 9, 1), "fitted"),
        (WAITS, date(2026, 9, 20), "left the team"),
        (
            replace(WAITS, left_on=None, stage="delivered", made_on=date(2026, 9, 29)),
            *(date(2026, 9, 30), "delivered"),
        ),
        (replace(WAITS, left_on=None), date(2026, 9, 27), "waits"),
        (replace(WAITS, left_on=None), date(2026, 9, 28), "its turn"),
    ],
)
def test_a_turn_says_what_became_of_it(turn, through, state):
    assert turn.state(through) == state


@pytest.mark.parametrize("cells", [None, "nobody hurt", "none waiting"])
def test_drawn_turns_are_told_in_short_sentences_what_is_missing_first(cells):
    rows = counted_turns()
    if cells == "nobody hurt":
        rows = rows.filter(pl.col("stratum").is_null())
    elif cells == "none waiting":
        rows = rows.filter(pl.col("waiting_bare") == 0)
    found = shown_by_turns(
        {"compare/draws": draws(2), "compare/drawn_turns": rows, **ATTENDANCE}, 0.95
    )
    told = turns_sentences(found)
    assert told[0].startswith("Drawn turns: about ")
    assert told[1] == "Whose guard came first was drawn at random."
    for sentence in told:
        assert len(sentence.split()) <= 30
        assert len(re.findall(r"\([^)]*\)", sentence)) <= 1
    if cells is None:
        ratio = found.comparison.ratio
        assert (ratio.injuries_guarded, ratio.injuries_unguarded) == (7, 6)
        assert f"{ratio.value:.2f} times as often as those still waiting" in told[2]
        assert found.needed.injuries - found.needed.more == 13
        assert found.needed.weeks == (8 * 14 + 10 * 20) / 34
    else:
        assert "cannot be told" in told[2]
    assert (
        shown_by_turns({"compare/draws": draws(0), "compare/drawn_turns": rows, **ATTENDANCE}, 0.95)
        is None
    )
