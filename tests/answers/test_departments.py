"""Departments side by side: their numbers are those of the other answers, one by one."""

import pytest

from seasonboard.answers.allotment.answer import allotment
from seasonboard.answers.departments.answer import departments
from seasonboard.answers.orders.answer import orders
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.roster.answer import roster
from seasonboard.answers.take_up.answer import take_up
from seasonboard.answers.turnaround.answer import turnaround
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import (
    Season,
    at,
    day,
    decision,
    drawn,
    guard,
    member,
    order,
    session,
    team,
)

HEADS = " ".join(f"A{n:02}" for n in range(40))
LINES = "\n".join(f"G{n} " + ". g . o l " * 8 for n in range(1, 41))


@pytest.fixture(scope="module")
def season():
    """Two departments with forty athletes each: D is quick, H slow, with a late one and remakes."""
    working = drawn(f"{HEADS}\n{LINES}")
    working.departments.append(
        build.department(
            "H", plan="weekly allotment", prints_per_week=3, time_zone="America/Denver"
        )
    )
    working.teams.append(team("U", department="H", sport="hockey"))
    working.guards, working.wear = [], []
    working.attendance = [
        row | {"reason": "illness" if row["part"] == "out" else None} for row in working.attendance
    ]
    for n in range(40):
        working.roster.append(member(f"B{n:02}", team="U"))
        _orders(working, n)
    for n in range(1, 41):
        key = f"H{n}"
        working.sessions.append(session(key, day(n), team="U", setting="game"))
        working.attendance += [
            {"session": key, "athlete": f"B{m:02}", "part": "full", "reason": None}
            for m in range(40)
        ]
        working.wear += [{"session": f"G{n}", "guard": f"d{m}"} for m in range(n % 8, 40, 3)]
        working.wear += [{"session": key, "guard": f"h{m}"} for m in range(1 + n % 8, 40, 9)]
    working.decisions = [
        decision("old", day(1), department="H", due_on=day(20)),
        decision("all", day(1), due_on=day(20)),
        decision("done", day(1), department="D", due_on=day(20), done_on=day(30)),
    ]
    return working


def _orders(working, n):
    first = 1 + n % 10
    working.guards += [guard(f"d{n}", f"A{n:02}"), guard(f"h{n}", f"B{n:02}")]
    working.stages += order(f"d{n}", "", {"requested": at(first), "fitted": at(first + 3)})[1]
    quick = {"requested": at(first), "printed": at(first + 5), "fitted": at(first + 9 + n % 6)}
    stages = quick if n else {"requested": at(1)}
    working.stages += order(f"h{n}", "", stages)[1]
    if n % 3 == 1:
        working.guards.append(guard(f"r{n}", f"B{n:02}", remake_of=f"h{n}", remake_reason="fit"))
        working.stages += order(f"r{n}", "", {"requested": at(30 + n % 5)})[1]


@pytest.fixture(scope="module")
def inputs(season, tmp_path_factory):
    """Return the store, its scope and what the store knows, through day 40."""
    from seasonboard.answers.scope_values import read_known

    with season.load(tmp_path_factory.mktemp("departments")) as store:
        values = read_known(store)
        yield store, read_scope({"kind": "chest", "through": "2026-10-10"}, values), values


@pytest.fixture(scope="module")
def by_key(inputs):
    return {row.department: row for row in departments(*inputs).departments}


def test_turnaround_is_that_of_turnaround(inputs, by_key):
    store, scope, values = inputs
    other = turnaround(store, scope, values, TurnaroundOptions(by=OrdersBy.DEPARTMENT))
    assert {g.key: (g.median, g.ready.share) for g in other.groups} == {
        name: (row.turnaround, row.ready) for name, row in by_key.items()
    }
    assert by_key["D"].turnaround.value == 3


def test_open_and_late_orders_are_those_of_orders(inputs, by_key):
    other = orders(*inputs)
    for name, row in by_key.items():
        mine = [order for order in other.orders if order.department == name]
        assert (row.open, row.late) == (len(mine), sum(order.is_late for order in mine))
    assert by_key["H"].late >= 1


def test_remakes_are_those_of_remakes(inputs, by_key):
    store, scope, values = inputs
    other = remakes(store, scope, values, RemakesOptions(by=RemakesBy.DEPARTMENT))
    assert {group.group: group.share for group in other.groups} == {
        row.name: row.remakes for row in by_key.values()
    }
    assert by_key["H"].remakes.successes > 0
    assert sum(by_key["H"].trends.remakes) == by_key["H"].remakes.successes


def test_prints_are_those_of_the_allotment(inputs, by_key):
    for other in allotment(*inputs).departments:
        mine = by_key[other.department].allotment
        assert (mine.used, mine.weeks_over, mine.queue) == (
            other.used,
            other.weeks_over,
            other.queue,
        )
    whole_weeks = [w for w in allotment(*inputs).departments[1].weeks if w.is_whole]
    assert by_key["H"].allotment.week_prints == whole_weeks[-1].prints


def test_worn_share_and_its_weeks_are_those_of_take_up(inputs, by_key):
    store, scope, values = inputs
    for group in take_up(store, scope, values).groups:
        row = by_key[{"T": "D", "U": "H"}[group.group]]
        assert row.worn == group.worn
        weeks = {week.week: week.worn.value for week in group.weeks}
        assert row.trends.worn == tuple(weeks.get(week) for week in row.trends.weeks)
    assert by_key["D"].worn.trials > 0


def test_availability_is_that_of_roster_over_the_last_four_weeks(inputs, by_key):
    sessions = [
        s
        for s in roster(*inputs).availability.sessions
        if s.team == "T" and s.played_on > day(40 - 28)
    ]
    assert len(sessions) == by_key["D"].available.sessions == 28
    assert by_key["D"].available.available == sum(s.available for s in sessions)
    assert by_key["D"].available.recorded == sum(s.recorded for s in sessions)
    assert by_key["D"].available.share < 1


def test_attention_is_given_in_sentences_by_fixed_rules(by_key):
    sentences = " ".join(by_key["H"].attention)
    assert sentences.startswith(f"{by_key['H'].late} order")
    assert "1 decision overdue." in sentences, "the one of every department is nobody's alone"
    assert "Slower: half its orders take up to" in sentences
    assert "More remakes: " in sentences
    assert "Worn less: " in sentences
    assert by_key["D"].attention == ()


def test_those_that_need_attention_come_first(inputs):
    assert [row.department for row in departments(*inputs).departments] == ["H", "D"]


def test_a_single_department_stands_out_from_nobody(inputs):
    store, scope, values = inputs
    from dataclasses import replace

    (row,) = departments(store, replace(scope, departments=("H",)), values).departments
    assert not any(word in " ".join(row.attention) for word in ("Slower", "More", "Fewer", "less"))


def test_each_has_twelve_weeks_the_last_with_the_last_day(inputs, by_key):
    weeks = by_key["D"].trends.weeks
    assert len(weeks) == 12
    assert weeks[-1] <= inputs[1].through < weeks[-1].fromordinal(weeks[-1].toordinal() + 7)
    for numbers in (by_key["D"].trends.turnaround, by_key["D"].trends.availability):
        assert len(numbers) == 12


def test_without_any_department_that_is_said(board):
    empty = Season(departments=[], teams=[])
    this = board(empty)
    answer = departments(this._reader, read_scope({}, this.scope_values), this.scope_values)
    assert answer.summary.answer == "No department is recorded yet."
