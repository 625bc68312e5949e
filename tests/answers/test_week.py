"""The week: what changed, what is ahead, read aloud in five minutes; the same as elsewhere."""

import pytest

from seasonboard.answers.field_output import as_json
from seasonboard.answers.orders.answer import orders
from seasonboard.answers.questions import WEEK
from seasonboard.answers.roster.answer import roster
from seasonboard.answers.roster.availability import with_availability
from seasonboard.answers.week.answer import week
from seasonboard.answers.week.parts import WeekOptions
from seasonboard.answers.week.report import REPORT
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope
from seasonboard.store.catalogue import catalogue
from tests.queries.build import Season, at, day, decision, drawn, guard, offer, order

CHANGED = ["played", "injuries", "returns", "orders", "remakes", "offers", "decided", "loads"]
QUESTION, SCOPE = WEEK, {"kind": "chest"}
AHEAD = ["change", "games", "guards", "out", "late", "decisions"]


@pytest.fixture
def season():
    """Two weeks: A is hurt on day 8 and back on 11, B's guard came back, C's is not there yet."""
    season = drawn("""
              A   B   C
      G1      .   .   .
      P8@8    ?   g   .
      G9@9    o   .   -
      G10@16  -   -   -
      G11@30  -   -   -
    """)
    season.injuries[0] |= {"returned_on": day(11)}
    season.guards += [guard("n-B", "B", remake_of="g-B", remake_reason="fit"), guard("g-C", "C")]
    season.stages = [
        *order("g-B", "B", {"requested": at(1), "fitted": at(7)})[1],
        *order("n-B", "B", {"requested": at(9), "scanned": at(10)})[1],
        *order("g-C", "C", {"requested": at(2)})[1],
    ]
    season.offers = [offer("O1", "A", day(8), "declined"), offer("O2", "C", day(1), "accepted")]
    season.decisions = [
        decision("late", day(1), due_on=day(5)),
        decision("today", day(8), due_on=day(12)),
        decision("open", day(2)),
        decision("done", day(2), due_on=day(9), done_on=day(9)),
    ]
    return season


def rows(answer, key):
    item = answer.item(key)
    return [as_json(item.table.elements, row) for row in item.rows]


def test_what_changed_after_a_day_up_to_another(ask, season):
    answer = ask(season, through="2026-09-12")
    assert [(item.key, item.is_ahead) for item in answer.items] == [
        *((key, False) for key in CHANGED), *((key, True) for key in AHEAD),
    ]  # fmt: skip
    assert (answer.since, answer.through) == (day(5), day(12))
    assert [r["injury"] for r in rows(answer, "injuries")] == ["A-P8?"]
    assert [(r["returned_on"], r["days_lost"]) for r in rows(answer, "returns")] == [
        ("2026-09-11", 2)
    ]
    stages = [(r["guard"], r["stage"], r["on"]) for r in rows(answer, "orders")]
    assert stages == [
        ("g-B", "fitted", "2026-09-07"),
        ("n-B", "requested", "2026-09-09"),
        ("n-B", "scanned", "2026-09-10"),
    ]
    (remake,) = rows(answer, "remakes")
    assert (remake["remake_of"], remake["reason"], remake["counts_as"]) == ("g-B", "fit", "remake")
    assert [r["offer"] for r in rows(answer, "offers")] == ["O1"]
    decided = [(r["decision"], r["what"]) for r in rows(answer, "decided")]
    assert decided == [("done", "done"), ("today", "made")]


def test_what_is_ahead(ask, season):
    answer = ask(season, through="2026-09-12")
    (game,) = rows(answer, "games")
    assert (game["session"], game["guards"]) == ("G10", 2)
    assert {(r["guard"], r["stage"], r["age_days"]) for r in rows(answer, "guards")} == {
        ("n-B", "scanned", 3),
        ("g-C", "requested", 10),
    }
    assert [(r["decision"], r["state"]) for r in rows(answer, "decisions")] == [
        ("late", "overdue by 7 d"),
        ("today", "due today"),
        ("open", "no day set"),
    ]
    assert {r["department_name"] for r in rows(answer, "decisions")} == {"every department"}


def test_the_strip_adds_up_to_the_items(ask, season):
    answer = ask(season, through="2026-09-12")
    assert [one.day for one in answer.days] == [day(n) for n in range(6, 13)]
    by_day = {one.day: one for one in answer.days}
    assert (by_day[day(8)].practices, by_day[day(8)].injuries) == (1, 1)
    assert (by_day[day(9)].games, by_day[day(9)].asked) == (1, 1)
    assert (by_day[day(11)].returns, by_day[day(7)].fitted) == (1, 1)
    assert sum(one.injuries for one in answer.days) == len(answer.item("injuries").rows)


def test_since_may_be_named_and_must_lie_before(ask, season):
    answer = ask(season, WeekOptions(day(8)), through="2026-09-09")
    assert [one.day for one in answer.days] == [day(9)]
    assert answer.summary.answer.startswith("On Wed 9 Sep 2026: ")
    assert answer.item("injuries").rows == ()
    with pytest.raises(ScopeError, match="does not lie before"):
        ask(season, WeekOptions(day(9)), through="2026-09-09")


def test_a_game_of_today_that_nobody_recorded_is_still_ahead(ask, season):
    assert [r["session"] for r in rows(ask(season, through="2026-09-16"), "games")] == ["G10"]


def test_without_a_game_ahead_nobody_is_missed(ask, season):
    answer = ask(season, through="2026-10-05")
    assert [answer.item(key).rows for key in ("games", "guards", "out")] == [(), (), ()]
    assert "No game in the next 7 days" in REPORT.as_text(answer)


def test_late_orders_and_states_are_those_of_the_other_answers(board):
    """On the same season Orders says which are late, Roster who is out and how many could play."""
    this = board(_busy())
    scope = read_scope({"kind": "chest", "through": "2026-10-12"}, this.scope_values)
    answer = week(this._reader, scope, this.scope_values)
    other = orders(this._reader, scope, this.scope_values)
    assert len(other.late) >= 1
    assert [r["guard"] for r in rows(answer, "late")] == [order.guard for order in other.late]
    states = {
        a.athlete: a.status.value
        for a in roster(this._reader, scope, this.scope_values).athletes
        if a.status.value in {"out", "limited"}
    }
    assert states
    assert {r["athlete"]: r["status"] for r in rows(answer, "out")} == states


def test_availability_is_that_of_the_roster(board):
    this = board(_busy())
    scope = read_scope({"kind": "chest", "through": "2026-10-12"}, this.scope_values)
    params = {k: v for k, v in scope.params().items() if k in catalogue()["roster/sessions"].params}
    sessions = with_availability(this._reader.read("roster/sessions", **params))
    total = roster(this._reader, scope, this.scope_values).availability.total("all")
    assert (sessions["available"].sum(), sessions["recorded"].sum()) == (
        total.available,
        total.recorded,
    )
    assert total.recorded > 0


def _busy() -> Season:
    """A season with 30 orders, one of them forgotten, and three athletes who cannot play."""
    heads = " ".join(f"A{n:02}" for n in range(30))
    lines = "\n".join(f"G{n} " + ". o l - " * 7 + ". ." for n in range(1, 40))
    season = drawn(f"{heads}\n{lines}\nG99@45 " + "- " * 30)
    for row in season.attendance:
        row["reason"] = {"out": "illness", "limited": "injury"}.get(row["part"])
    for n in range(30):
        season.guards.append(guard(f"g{n}", f"A{n:02}"))
        stages = {"requested": at(1 + n % 5)} | ({"fitted": at(9 + n % 5)} if n else {})
        season.stages += order(f"g{n}", f"A{n:02}", stages)[1]
    return season


def test_the_whole_is_read_aloud_in_five_minutes_and_counts_what_it_does_not_read(board):
    """About 130 words a minute; every row is in the JSON."""
    this = board(_busy())
    answer = week(
        this._reader, read_scope({"through": "2026-10-12"}, this.scope_values), this.scope_values
    )
    text = REPORT.as_text(answer)
    assert len(text.split()) <= 650
    out = answer.item("out")
    assert len(out.rows) > out.summary
    assert f"and {len(out.rows) - out.summary} more" in text
    (item,) = [item for item in REPORT.as_object(answer, "week")["items"] if item["item"] == "out"]
    assert len(item["rows"]) == len(out.rows)
