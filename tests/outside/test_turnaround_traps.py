"""Small tables on which tallies of turnaround are known to go wrong: the right figure.

Every input is invented; the links lead to where that kind of trouble is described. `ordered` is
the stage requested, `delivered` the stage fitted; the tempting wrong figure is worked out as well.
"""

import statistics
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from pytest import approx

from seasonboard.answers.orders.order_times import Unit
from seasonboard.answers.scope_values import read_known
from seasonboard.answers.turnaround.answer import turnaround
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.report import REPORT
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import stamp


def instant(day, hour=9):
    if isinstance(day, datetime):
        return day
    return datetime.combine(date.fromisoformat(day), time(hour), tzinfo=UTC)


def season(orders, zone="UTC"):
    """Return a season of orders: (key, athlete, {stage: day or instant})."""
    plain = build.Season(departments=[build.department("D", time_zone=zone)])
    plain.roster = [build.member(who) for who in dict.fromkeys(who for _, who, _ in orders)]
    plain.guards = [build.guard(key, who) for key, who, _ in orders]
    stamps = [stamp(key, s, instant(day)) for key, _, made in orders for s, day in made.items()]
    plain.stages = stamps
    return plain


def single(*rows):
    """Return orders of an athlete each: (key, ordered, delivered or None)."""
    return [
        (key, f"A-{key}", {"requested": asked} | ({"fitted": done} if done else {}))
        for key, asked, done in rows
    ]


def open_orders(answer):
    """Return the open orders as JSON has them."""
    return REPORT.as_object(answer, "turnaround")["open_orders"]


@pytest.fixture
def ask(tmp_path):
    stores = []

    def ask_it(orders, through, zone="UTC", **options):
        stores.append(season(orders, zone).load(tmp_path / str(len(stores))))
        known = read_known(stores[-1])
        scope = read_scope({"through": through}, known)
        return turnaround(stores[-1], scope, known, TurnaroundOptions(**options))

    yield ask_it
    for store in stores:
        store.close()


def times(answer):
    return [p.time for p in answer.whole.curve.points for _ in range(p.finished)]


WEEKENDS = single(
    ("O1", "2026-11-20", "2026-11-23"),
    ("O2", "2026-11-24", "2026-11-30"),
    ("O3", "2026-11-25", "2026-12-02"),
    ("O4", "2026-12-24", "2027-01-04"),
)
HOLIDAYS = (date(2026, 11, 26), date(2026, 11, 27), date(2026, 12, 25), date(2027, 1, 1))


def test_weekends_and_holidays_in_working_days(ask):
    """Each figure with its unit; the order's day is day 0.

    https://github.com/numpy/numpy/issues/29410
    """
    calendar = ask(WEEKENDS, "2027-01-10")
    assert times(calendar) == [3, 6, 7, 11]
    assert calendar.whole.median.value == 6.5
    assert "6.5 days" in calendar.summary.answer
    worked = ask(
        WEEKENDS, "2027-01-10", unit=Unit.WORKING_DAYS, holidays=HOLIDAYS, holidays_of="the maker"
    )
    assert times(worked) == [1, 2, 3, 5]
    assert worked.whole.median.value == 2.5
    assert "2.5 working days" in worked.summary.answer
    assert any("without the 4 holidays of the maker" in c for c in worked.summary.caveats)
    without = ask(WEEKENDS, "2027-01-10", unit=Unit.WORKING_DAYS)
    assert times(without) == [1, 4, 5, 7]
    assert any("public holidays are counted as working days" in c for c in without.summary.caveats)


STILL_OPEN = single(
    ("O1", "2026-10-01", "2026-10-08"), ("O2", "2026-10-03", "2026-10-12"),
    ("O3", "2026-10-05", None), ("O4", "2026-10-20", "2026-11-02"), ("O5", "2026-10-22", None),
    ("O6", "2026-11-10", "2026-11-16"), ("O7", "2026-11-28", None),
    ("O8", "2026-10-06", "2026-10-21"), ("O9", "2026-10-07", None),
    ("O10", "2026-10-08", "2026-10-28"),
)  # fmt: skip


def test_open_orders_left_out_make_turnaround_look_short(ask):
    """Kaplan-Meier (lifelines 0.30.3) says 15; the median of the delivered, 11, is labelled so.

    https://github.com/CamDavidsonPilon/lifelines/pull/1305
    """
    answer = ask(STILL_OPEN, "2026-12-01")
    whole, alone = answer.whole, answer.whole.finished_only
    assert (whole.curve.finished, whole.curve.open) == (6, 4)
    assert whole.median.value == 15
    after_14 = [p for p in whole.curve.points if p.time <= 14][-1]
    assert after_14.waiting == approx(0.5555556, abs=1e-7)
    assert (alone.median, alone.mean) == (11, approx(11.6666667))
    assert (alone.open_left_out, alone.longest_open) == (4, 57)
    told = next(c for c in answer.summary.caveats if "finished alone" in c)
    assert "leaves out 4 open orders, the oldest open for 57 days" in told
    assert "within 15 days" in answer.summary.answer
    assert len(answer.open_orders) == 4


def test_the_closed_ones_alone_are_not_the_turnaround(ask):
    """Days 3 5 5 6 8+ 9 12+ 14 15+ 16: median 9, 16 for nine in ten; the closed ones say 6."""
    days = [(3, 1), (5, 1), (5, 1), (6, 1), (8, 0), (9, 1), (12, 0), (14, 1), (15, 0), (16, 1)]
    asked = [date(2026, 9, 30).toordinal() - lasted for lasted, _ in days]
    rows = [
        (f"O{n}", date.fromordinal(on).isoformat(), "2026-09-30" if done else None)
        for n, (on, (_, done)) in enumerate(zip(asked, days, strict=True))
    ]
    answer = ask(single(*rows), "2026-09-30")
    assert answer.whole.median.value == 9
    assert answer.whole.finished_only.median == 6
    assert "within 9 days" in answer.summary.answer


def test_delivered_before_it_was_ordered_is_set_aside(ask):
    """Never averaged, never turned around: 3 of 5 are timed, two are told.

    https://github.com/CamDavidsonPilon/lifelines/issues/159
    """
    rows = single(
        ("O1", "2026-03-02", "2026-03-09"),
        ("O2", "2026-03-04", "2026-03-12"),
        ("O3", "2026-03-20", "2026-02-24"),
        ("O4", "2026-03-10", "2025-03-19"),
        ("O5", "2026-03-15", "2026-03-25"),
    )
    answer = ask(rows, "2026-04-30")
    assert times(answer) == [7, 8, 10]
    assert answer.whole.median.value == 8
    assert answer.whole.finished_only.mean == approx(25 / 3)
    assert {(left.what, left.why): left.count for left in answer.summary.left_out} == {
        ("orders", "fitted before it was requested: an error of entry"): 2,
        ("times in a stage", "the next stage is stamped before the stage itself"): 2,
    }
    wrong = [7, 8, -24, -356, 10]
    assert (statistics.mean(wrong), statistics.median(wrong)) == (-71, 7)


@pytest.mark.parametrize(
    ("asked", "done", "zone", "hours", "days"),
    [
        ("2026-03-07T15:00-06:00", "2026-03-08T15:00-05:00", "America/Chicago", 23, 1),
        ("2026-03-07T22:00-08:00", "2026-03-08T06:00-04:00", "America/New_York", 4, 0),
        ("2026-03-06T09:00-07:00", "2026-03-09T09:00-07:00", "America/Phoenix", 72, 3),
    ],
)
def test_hours_are_elapsed_over_a_change_of_the_clock(ask, asked, done, zone, hours, days):
    """Instants are subtracted, not what the clocks showed; days are those of the department.

    https://github.com/python/cpython/issues/116111
    """
    first, last = datetime.fromisoformat(asked), datetime.fromisoformat(done)
    rows = [("O1", "A", {"requested": first, "fitted": last})]
    assert times(ask(rows, "2026-03-20", zone=zone, unit=Unit.HOURS)) == [hours]
    assert times(ask(rows, "2026-03-20", zone=zone)) == [days]


def test_an_open_order_ages_in_real_hours(ask):
    """Asked at noon of the Saturday before the clock changes: 35 hours to the end of Sunday."""
    noon = datetime(2026, 3, 7, 12, tzinfo=ZoneInfo("America/Chicago"))
    rows = [("O1", "A", {"requested": noon})]
    asked = {"zone": "America/Chicago", "through": "2026-03-08"}
    hours = ask(rows, unit=Unit.HOURS, **asked)
    assert [p.time for p in hours.whole.curve.points] == [35]
    assert open_orders(hours)[0]["age_hours"] == 35
    assert open_orders(ask(rows, **asked))[0]["age_days"] == 1


def test_cancelled_orders_are_neither_finished_nor_open(ask):
    """The day of a cancellation is no delivery; cancelled ones are counted apart.

    https://pmc.ncbi.nlm.nih.gov/articles/PMC5096945
    """
    rows = single(
        ("O1", "2026-10-01", "2026-10-09"),
        ("O4", "2026-10-05", "2026-10-16"),
        ("O6", "2026-10-10", None),
        ("O7", "2026-10-12", "2026-10-19"),
        ("O8", "2026-10-13", None),
    )
    off = {"O2": ("02", "11"), "O3": ("03", "03"), "O5": ("06", "09")}
    rows += [
        (key, key, {"requested": f"2026-10-{asked}", "cancelled": f"2026-10-{called_off}"})
        for key, (asked, called_off) in off.items()
    ]
    answer = ask(rows, "2026-11-01")
    whole = answer.whole
    assert (whole.curve.finished, whole.curve.open, whole.curve.cancelled) == (3, 2, 3)
    assert (whole.finished_only.median, whole.finished_only.mean) == (8, approx(26 / 3))
    assert {o.guard for o in answer.open_orders} == {"O6", "O8"}
    last = whole.shares[-1]
    assert last.finished + last.cancelled + last.open == approx(1)
    assert last.finished < 1 - whole.curve.points[-1].waiting, "of all begun, fewer"
    wrong = (8 + 0 + 11 + 7) / 4
    assert wrong == 6.5


def test_two_guards_of_one_request_are_done_when_the_last_one_is(ask):
    """Three requests of five guards: 14 and 7 days, one half done and open.

    https://github.com/pandas-dev/pandas/issues/16270
    """
    rows = [
        ("knee L", "O1", {"requested": "2026-10-01", "fitted": "2026-10-08"}),
        ("knee R", "O1", {"requested": "2026-10-01", "fitted": "2026-10-15"}),
        ("wrist L", "O2", {"requested": "2026-10-02", "fitted": "2026-10-09"}),
        ("ankle L", "O3", {"requested": "2026-10-03", "fitted": "2026-10-12"}),
        ("ankle R", "O3", {"requested": "2026-10-03"}),
    ]
    answer = ask(rows, "2026-10-20")
    assert times(answer) == [7, 7, 9, 14], "guard by guard"
    assert answer.whole.orders == 5
    both = answer.whole.together
    assert (both.requests, both.complete, both.open) == (3, 2, 1)
    assert both.complete_only.median == 10.5
    assert both.median.value == 14, "with the open one counted up to its 17 days"
    (still,) = answer.open_orders
    assert (still.guard, still.age_days) == ("ankle R", 17)
    assert "3 requests, 1 open" in " ".join(REPORT.as_text(answer).split())


def test_a_remake_has_its_own_turnaround_and_names_what_it_replaces(ask):
    """Two lines of one chain are two orders here; the chain is a question for remakes.

    http://businessdocbox.com/Marketing/110465476-A-review-on-warranty-data-quality-and-analysis.html
    """
    rows = single(
        ("O1", "2026-08-03", "2026-08-10"),
        ("O2", "2026-08-17", "2026-08-24"),
        ("O3", "2026-08-31", "2026-09-04"),
        ("O4", "2026-08-05", "2026-08-14"),
        ("O5", "2026-08-06", "2026-08-13"),
        ("O6", "2026-08-20", "2026-08-26"),
        ("O7", "2026-08-07", "2026-08-18"),
    )
    answer = ask(rows, "2026-09-30")
    assert answer.whole.finished_only.mean == approx(7.285714, abs=1e-6)
