"""Guards made alike: what became of each, what a decision wants done, when to look at one."""

from tests.queries.asking import put
from tests.queries.build import day, department, drawn, stamp

GRID = """
    A B C
G1  g g .
G2  g . .
G3  g g .
"""


def season():
    """A and B wear theirs, C's is on its way; A's is remade on day 9, fitted on day 12."""
    made = drawn(GRID)
    made.departments = [department("D", look_after_sessions=2, look_after_weeks=4)]
    base = made.guards[0]
    made.guards.append(base | {"guard": "c", "athlete": "C"})
    made.guards.append(
        base | {"guard": "a2", "remake_of": "g-A", "remake_reason": "damage", "lot": "8"}
    )
    for guard in made.guards[:3]:
        guard["lot"] = "7"
    made.stages = [
        *(stamp(guard, "fitted", 1, 0) for guard in ("g-A", "g-B")),
        stamp("c", "requested", 2),
        *(stamp("a2", stage, at) for stage, at in (("requested", 9), ("fitted", 12))),
    ]
    return made


def told(store, through, *columns, **parts):
    rows = put(store, "recall/guards", day(through), **parts)
    return {row["guard"]: tuple(row[name] for name in columns) for row in rows.to_dicts()}


def test_what_became_of_each_is_told_as_of_the_day(load):
    store = load(season())
    assert told(store, 8, "state") == {"g-A": ("in use",), "g-B": ("in use",), "c": ("on its way",)}
    later = told(store, 12, "state", "sessions_worn", made_of=["lot 7"])
    assert later == {"g-A": ("replaced", 3), "g-B": ("in use", 2), "c": ("on its way", 0)}


def test_guards_outside_the_scope_are_counted(load):
    store = load(season())
    assert put(store, "recall/outside", day(12), made_of=["lot 7"]).item() == 0
    assert put(store, "recall/outside", day(12), made_of=["lot 7"], teams=["X"]).item() == 3
    assert put(store, "recall/outside", day(12)).item() == 0


def test_parts_count_guards_those_fitted_and_those_made_again(load):
    rows = put(load(season()), "recall/parts", day(12)).filter(part="lot")
    assert rows.select("made_of", "guards", "fitted", "remade").rows() == [
        ("lot 7", 3, 2, 1),
        ("lot 8", 1, 1, 0),
    ]


def test_a_mark_is_open_until_its_day_and_an_inspection_begins_the_count_anew(load):
    """G1 to G3 are on days 1 to 3; the decision is made on day 1, g-B inspected on day 2."""
    made = season()
    made.decisions = [
        {"decision": "X1", "decided_on": day(1), "text": "look", "due_on": day(9)},
    ]
    made.marked_guards = [
        {"decision": "X1", "guard": "g-B", "to_do": "inspect", "done_on": day(2)},
        {"decision": "X1", "guard": "g-A", "to_do": "inspect"},
    ]
    store = load(made)
    columns = ("to_do", "done_on", "worn_since", "weeks_since")
    assert told(store, 1, *columns)["g-B"] == ("inspect", None, 1, 0.0)
    after = told(store, 4, *columns, "due_on")
    assert after["g-B"] == ("inspect", day(2), 1, 2 / 7, day(9))
    assert after["g-A"] == ("inspect", None, 3, 3 / 7, day(9))
    assert after["c"] == (None, None, 0, None, None)
    week = put(store, "week/decisions", day(4), since=day(0))
    assert week.select("marked", "marked_done", "done_on").rows() == [(2, 1, None)]


def test_a_decision_that_marks_guards_is_done_with_the_last_of_them(load):
    made = season()
    made.decisions = [{"decision": "X1", "decided_on": day(1), "text": "swap"}]
    made.marked_guards = [
        {"decision": "X1", "guard": guard, "to_do": "replace", "done_on": day(at)}
        for guard, at in (("g-A", 3), ("g-B", 5))
    ]
    store = load(made)
    done = [put(store, "week/decisions", day(at), since=day(0))["done_on"].item() for at in (4, 5)]
    assert done == [None, day(5)]
    assert put(store, "log_forms/open_decisions").height == 0
