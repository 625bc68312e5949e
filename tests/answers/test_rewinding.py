"""Asked as of an earlier day, every answer is the one that was given that day.

Two stores: one with everything, one with only what is dated up to a day. The schedule and the
places on a roster stay, since they are known ahead; a guard is there from its first stage or the
first session it was worn in. Asked through that day, both give the same answers.
"""

import tempfile
from copy import deepcopy
from datetime import date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.allotment.answer import allotment
from seasonboard.answers.compare.answer import compare
from seasonboard.answers.departments.answer import departments
from seasonboard.answers.games.answer import games
from seasonboard.answers.orders.answer import orders
from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.roster.answer import roster
from seasonboard.answers.scope_values import read_known
from seasonboard.answers.take_up.answer import take_up
from seasonboard.answers.turnaround.answer import turnaround
from seasonboard.answers.week.answer import week
from seasonboard.scope import read_scope
from tests.deep import tries
from tests.queries.build import Season, at, day, drawn, offer, order
from tests.queries.slow_take_up import working_seasons
from tests.queries.test_queries_against_loops import MODEST

ANSWERS = {
    "week": week, "take-up": take_up, "departments": departments, "orders": orders,
    "turnaround": turnaround, "roster": roster, "remakes": remakes, "allotment": allotment,
    "compare": compare, "games": games,
}  # fmt: skip
FEW = settings(MODEST, max_examples=tries(2))


def known_by(season: Season, until: date) -> Season:
    """Return what is dated before a day, in the time zone of each department."""
    held = {s["session"] for s in season.sessions if season.played_on(s["session"]) < until}
    cut = deepcopy(season)
    cut.attendance = [row for row in cut.attendance if row["session"] in held]
    cut.wear = [row for row in cut.wear if row["session"] in held]
    cut.stages = [row for row in cut.stages if _day_of(season, row) < until]
    cut.injuries = [
        row | {"returned_on": _if_before(row["returned_on"], until)}
        for row in cut.injuries
        if (row.get("reported_on") or row["occurred_on"]) < until
    ]
    cut.offers = [row for row in cut.offers if row["offered_on"] < until]
    cut.decisions = [
        row | {"done_on": _if_before(row["done_on"], until)}
        for row in cut.decisions
        if row["decided_on"] < until
    ]
    cut.roster = [row | {"left_on": _if_before(row.get("left_on"), until)} for row in cut.roster]
    cut.guards = _heard_of(season, cut)
    return cut


def _heard_of(season: Season, cut: Season) -> list[dict[str, object]]:
    """Return the guards that have a stage or were worn by then, and those that never do."""
    then = {row["guard"] for row in (*cut.stages, *cut.wear)}
    ever = {row["guard"] for row in (*season.stages, *season.wear)}
    return [row for row in cut.guards if row["guard"] in then or row["guard"] not in ever]


def _day_of(season: Season, stage: dict[str, object]) -> date:
    """Return the day of a stamp; of an athlete at two departments, at the later of the two."""
    guard = next(g for g in season.guards if g["guard"] == stage["guard"])
    teams = {row["team"] for row in season.roster if row["athlete"] == guard["athlete"]}
    homes = {t["department"] for t in season.teams if t["team"] in teams}
    zones = [ZoneInfo(d["time_zone"]) for d in season.departments if d["department"] in homes]
    assert len(zones) == 1, "the day of a stamp is told by one department"
    return stage["reached_at"].astimezone(zones[0]).date()


def _if_before(on: date | None, until: date) -> date | None:
    return on if on is not None and on < until else None


def asked(season, kinds, through, known=None, names=tuple(ANSWERS)):
    """Return the answers of a season as of one day, and what the store knows for its scope.

    Which kinds, teams and seasons there are is no fact of a day: the scope is the same for both.
    """
    with tempfile.TemporaryDirectory() as folder, season.load(Path(folder)) as store:
        known = known or read_known(store)
        scope = read_scope({"through": through.isoformat(), "kind": kinds}, known)
        answers = {name: ANSWERS[name](store, scope, known) for name in names}
        return answers, known


def one(season, kinds, through, name):
    """Return one answer of a season as of one day."""
    return asked(season, kinds, through, names=(name,))[0][name]


def check(season, kinds, through):
    whole, known = asked(season, kinds, through)
    then, _ = asked(known_by(season, through + timedelta(days=1)), kinds, through, known)
    for name in ANSWERS:
        assert whole[name] == then[name], f"{name} knows something that was not known by {through}"


def one_department(season: Season) -> Season:
    """Return the season with both teams in one department, in Denver."""
    season.departments = [row for row in season.departments if row["department"] == "H"]
    season.teams = [row | {"department": "H"} for row in season.teams]
    season.decisions = [row | {"department": row["department"] and "H"} for row in season.decisions]
    return season


@pytest.mark.long
@FEW
@given(season=working_seasons(), kinds=st.sampled_from(["shin", "shin,chest", "vest"]), n=st.data())
def test_any_answer_rewound_to_a_day_is_the_one_of_that_day(season, kinds, n):
    season = one_department(season)
    days = [season.played_on(s["session"]) for s in season.sessions]
    days += [_day_of(season, row) for row in season.stages]
    through = n.draw(st.sampled_from(sorted(days))) + timedelta(days=n.draw(st.integers(-1, 1)))
    check(season, kinds, through)


@pytest.fixture
def evening():
    """A guard fitted at 23:30 in Denver on day 4, which is 05:30 on day 5 in UTC."""
    season = drawn("""
          A  B  C
      G1  .  .  .
      P2  .  .! .
      G5  g  .  .
      G9  -  -  -
    """)
    season.departments[0]["time_zone"] = "America/Denver"
    season.stages = order("g-A", "A", {"requested": at(1), "fitted": at(5, 5, 30)})[1]
    season.offers = [offer("O1", "A", day(1), "accepted"), offer("O2", "B", day(5), "declined")]
    return season


@pytest.mark.long
@pytest.mark.parametrize("number", range(8))
def test_an_evening_that_is_the_next_day_in_utc_belongs_to_its_own_day(evening, number):
    check(evening, "chest", day(number))


def test_the_evening_counts_on_its_own_day(evening):
    fitted = [one(evening, "chest", day(n), "take-up").whole.step("fitted").count for n in (3, 4)]
    assert fitted == [0, 1]


def test_a_row_counts_from_its_own_day_and_not_from_the_day_it_was_loaded(evening):
    """All of it was loaded today, long after; the answers of those days are there all the same."""
    found = one(evening, "chest", day(2), "week")
    assert found.item("injuries").rows
    assert found.item("loads").rows == ()
    assert "not from the day it was loaded" in " ".join(found.summary.caveats)


def test_what_cannot_be_rewound_is_said(evening):
    """The answer to an offer has no day of its own: it is known with the offer."""
    found = one(evening, "chest", day(1), "take-up")
    assert found.whole.step("accepted").count == 1
    assert "the answer has no day of its own" in " ".join(found.summary.caveats)


@pytest.mark.long
def test_a_stamp_at_the_last_minute_and_one_at_midnight_are_apart(evening):
    """23:59 counts for the day, 00:00 for the next."""
    zone = ZoneInfo("America/Denver")
    for clock, first in ((time(23, 59), 4), (time(0, 0), 5)):
        on = day(4) if clock.hour else day(5)
        evening.stages[1]["reached_at"] = datetime.combine(on, clock, zone)
        check(evening, "chest", day(4))
        counts = [
            one(evening, "chest", day(n), "take-up").whole.step("fitted").count for n in (3, 4, 5)
        ]
        assert counts == [n >= first for n in (3, 4, 5)]
