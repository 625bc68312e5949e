"""Published tables read as returns, asked through the front door.

Stanford heart transplants (Crowley & Hu 1977): a patient is an athlete hurt on the day before entry
(else the first would have lost no day), a death the return, the transplant a return guard that is
fitted that day, so that the wait for it belongs to the bare days. The Mantel-Haenszel ratio over
days is the one that Compare gives of the same table as sessions, worked out by hand there; days out
are those of R 4.2.2, survival 3.5-3: survfit(Surv(lost, event) ~ 1, conf.type = "log-log").
Serious infections in a trial of interferon gamma (Fleming & Harrington 1991, appendix D.2): an
infection is an injury of one day out, the next one the same site hurt again, treatment a return
guard worn every day; the ratio is worked out by plain loops over the table.
"""

import csv
import math
from collections import defaultdict
from datetime import date, timedelta

import pytest
from pytest import approx

from seasonboard.answers.questions import RETURN
from seasonboard.scope import read_scope
from tests import front_door

pytestmark = pytest.mark.long  # each loads a published table

FIRST, LAST = date(2000, 1, 1), date(2010, 1, 1)
TABLES = {
    "departments": "department name plan time_zone",
    "teams": "team department sport sex",
    "roster": "athlete team season name",
    "sessions": "session team season starts_at setting",
    "attendance": "session athlete part",
    "guards": "guard athlete kind side purpose",
    "stages": "guard stage reached_at",
    "wear": "session guard",
    "injuries": "injury athlete occurred_on area side returned_on session",
}


def season(folder, days, **tables):
    """Write a season of one team with a session on each of some days, and what else is given."""
    whole = {
        "departments": [("D", "Published data", "onsite printer", "UTC")],
        "teams": [("T", "D", "clock", "mixed")],
        "sessions": [(f"S{d}", "T", "S", f"{d}T18:00:00", "game") for d in days],
        **tables,
    }
    folder.mkdir()
    for name, columns in TABLES.items():
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as out:
            csv.writer(out).writerows([columns.split(), *whole.get(name, [])])
    return folder


def ask(this):
    return this.ask(RETURN, read_scope({"kind": "chest"}, this.scope_values))


def test_stanford_as_returns_has_the_ratio_over_days_and_the_days_of_r(board, tmp_path):
    intervals = front_door.stanford()
    stop = {i.athlete: max(o.stop for o in intervals if o.athlete == i.athlete) for i in intervals}
    ends = {i.athlete for i in intervals if i.event}
    onset = {who: LAST - timedelta(days=days + 1) for who, days in stop.items()}
    fitted = {
        i.athlete: onset[i.athlete] + timedelta(days=i.start + 2) for i in intervals if i.guarded
    }
    tables = {
        "roster": [(who, "T", "S", who) for who in stop],
        "guards": [(f"G{who}", who, "chest", "midline", "return") for who in fitted],
        "stages": [
            row
            for who, on in fitted.items()
            for row in (
                (f"G{who}", "requested", f"{onset[who]}T08:00:00"),
                (f"G{who}", "fitted", f"{on}T09:00:00"),
            )
        ],
        "injuries": [
            (f"I{who}", who, onset[who], "chest", "midline", LAST if who in ends else "", "")
            for who in stop
        ],
    }
    answer = ask(board(season(tmp_path / "stanford", (FIRST, LAST), **tables)))
    assert (answer.injuries, answer.back) == (103, 75)
    back, again = answer.contrasts
    assert (back.ratio.injuries_guarded, back.ratio.injuries_unguarded) == (45, 30)
    assert (back.ratio.exposures_guarded, back.ratio.exposures_unguarded) == (25999, 5955 + 103)
    assert back.ratio.value == approx(1.130408, abs=1e-6)
    assert (back.ratio.low, back.ratio.high) == approx((0.635545, 2.010594), abs=1e-6)
    assert back.verdict == "too few injuries to tell"
    assert again.verdict == "nothing to compare yet"
    days = answer.waits[0]
    assert (days.median.value, days.median.low, days.median.high) == (100, 69, 219)
    assert answer.in_time.successes == 69, "a guard fitted while out came in time"


def test_infections_as_recurrences_have_the_ratio_of_plain_loops(board, tmp_path):
    table = front_door.infections()
    last = {i.athlete: max(o.stop for o in table if o.athlete == i.athlete) for i in table}
    treated = {i.athlete for i in table if i.guarded}
    hurt = defaultdict(list)
    for i in table:
        if i.event:
            hurt[i.athlete].append(i.stop)

    def day(number):
        return FIRST + timedelta(days=number)

    played = {who: range(1, last[who] + 1) for who in hurt}
    tables = {
        "roster": [(who, "T", "S", who) for who in hurt],
        "attendance": [(f"S{day(k)}", who, "full") for who, ks in played.items() for k in ks],
        "guards": [(f"G{who}", who, "chest", "midline", "return") for who in treated & set(hurt)],
        "wear": [
            (f"S{day(k)}", f"G{who}") for who, ks in played.items() if who in treated for k in ks
        ],
        "injuries": [
            (f"I{who}-{k}", who, day(k), "chest", "midline", day(k + 2), f"S{day(k)}")
            for who, ks in hurt.items()
            for k in ks
        ],
    }
    days = [day(k) for k in range(1, max(last.values()) + 1)]
    answer = ask(board(season(tmp_path / "infections", days, **tables)))
    cells = defaultdict(lambda: [0, 0, 0, 0])
    for who, ks in hurt.items():
        for begun in ks:
            until = min((k for k in ks if k >= begun + 2), default=last[who])
            for k in range(begun + 2, until + 1):
                cell = cells[(k - begun - 2) // 14]
                cell[2 if who in treated else 3] += 1
                cell[0 if who in treated else 1] += k in ks and k == until
    top = sum(a * t0 / (t1 + t0) for a, _, t1, t0 in cells.values())
    bottom = sum(b * t1 / (t1 + t0) for _, b, t1, t0 in cells.values())
    ratio = answer.contrasts[1].ratio
    assert (ratio.injuries_guarded, ratio.injuries_unguarded) == tuple(
        sum(cell[n] for cell in cells.values()) for n in (0, 1)
    )
    assert ratio.value == approx(top / bottom)
    assert answer.again == ratio.injuries_guarded + ratio.injuries_unguarded
    early = {one.name: one for one in answer.recurrences}["early"]
    assert 0 < early.guarded.injuries <= ratio.injuries_guarded
    assert math.isclose(
        sum(one.bare.exposures for one in answer.recurrences), ratio.exposures_unguarded
    )
