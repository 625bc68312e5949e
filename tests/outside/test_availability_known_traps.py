"""Availability and days lost on small tables on which tallies are known to go wrong.

Every input is invented; the links lead to where that kind of trouble is described. Each test also
works out the tempting wrong figure.
"""

from datetime import date, timedelta

import pytest
from pytest import approx

from seasonboard.answers.roster.answer import roster
from seasonboard.answers.roster.report import REPORT
from seasonboard.errors import IntakeError
from seasonboard.scope import read_scope
from seasonboard.store.intake.plan import plan_load
from tests.outside.traps import sessions
from tests.queries import build
from tests.reused import ReusedStore


def asked(this, **parts):
    return roster(this._reader, read_scope(parts, this.scope_values), this.scope_values)


def hurt(season, rows):
    """Put injuries (key, athlete, onset, return) on record, without a session."""
    for key, athlete, on, back in rows:
        returned = date.fromisoformat(back) if back else None
        on_day = date.fromisoformat(on)
        season.injuries.append(build.injury(key, athlete, on_day, returned_on=returned))
    season.roster = [build.member(who) for who in sorted({row[1] for row in rows})]
    return season


def test_days_lost_to_open_injuries_are_a_lower_bound(board):
    """41 and 28 days so far; median 4; 2/7 still out after 28 days; at least 85 in all.

    https://bjsm.bmj.com/content/54/2/70 ; https://github.com/CamDavidsonPilon/lifelines/issues/1163
    """
    season = hurt(
        sessions(("P1", "2026-08-20"), ("P2", "2026-09-30")),
        [
            ("I1", "E1", "2026-09-01", "2026-09-04"), ("I2", "E2", "2026-09-03", "2026-09-08"),
            ("I3", "E3", "2026-09-10", "2026-09-11"), ("I4", "E4", "2026-08-20", None),
            ("I5", "E5", "2026-09-02", None), ("I6", "E6", "2026-09-05", "2026-09-16"),
            ("I7", "E7", "2026-09-14", "2026-09-14"),
        ],
    )  # fmt: skip
    answer = asked(board(season), through="2026-09-30")
    found = answer.availability.severity
    assert (found.injuries, found.still_open, found.days) == (7, 2, 85)
    assert found.median.value == 4
    assert found.share_over.value == approx((5 / 7) * (4 / 5) * (3 / 4) * (2 / 3))
    assert {b.name: (b.returned, b.still_open) for b in found.bins} == {
        "0 days": (2, 0), "1–7 days": (2, 0), "8–28 days": (1, 1), "over 28 days": (0, 1),
    }  # fmt: skip
    days = {a.athlete: a.injury.day for a in answer.athletes if a.injury}
    assert days == {"E4": 41, "E5": 28}
    printed = REPORT.as_object(answer, "roster")["availability"]["severity"]
    assert printed["is_lower_bound"]
    assert sum([2, 4, 0, 10, 0]) / 5 == 3.2 != found.mean


def test_unavailable_days_are_a_union_where_injuries_overlap(board):
    """H1 is out on 18 days of September, not 13 + 11; H2 on 4; the team on 22.

    https://www.thieme-connect.de/products/ejournals/html/10.1055/a-1983-0040
    """
    season = hurt(
        sessions(("P1", "2026-09-01"), ("P2", "2026-09-30")),
        [
            ("I1", "H1", "2026-09-01", "2026-09-15"), ("I2", "H1", "2026-09-08", "2026-09-20"),
            ("I3", "H2", "2026-09-03", "2026-09-06"), ("I4", "H2", "2026-09-10", "2026-09-13"),
        ],
    )  # fmt: skip
    answer = asked(board(season), through="2026-09-30")
    found = answer.availability
    assert {a.athlete: a.days_lost for a in answer.athletes} == {"H1": 18, "H2": 4}
    assert (found.unavailable_days, found.roster_days) == (22, 60)
    assert found.severity.days == 13 + 11 + 2 + 2 == 28, "the sum per injury"


def test_each_part_of_the_season_has_its_own_exposures_below_it(board):
    """Rates by part, exact limits; both limit days of a part belong to it; parts add up.

    https://nata.kglmeridian.com/view/journals/attr/54/7/article-p832.xml ;
    https://pubmed.ncbi.nlm.nih.gov/16791309/
    """
    parts = {
        "preseason": (("P1", "2026-08-12", 20), ("P2", "2026-08-20", 20), ("P3", "2026-08-31", 18)),
        "regular": (
            ("N1", "2026-09-01", 14), ("N2", "2026-09-15", 18), ("N3", "2026-10-10", 14),
            ("N4", "2026-11-20", 14),
        ),
        "postseason": (("O1", "2026-11-21", 12), ("O2", "2026-12-05", 12)),
    }  # fmt: skip
    season = sessions(*((key, on) for rows in parts.values() for key, on, _ in rows))
    season.roster = [build.member(f"L{n:02}") for n in range(1, 21)]
    for part, rows in parts.items():
        for key, _, played in rows:
            season.session(key)["season_part"] = part
            season.attendance += [
                {"session": key, "athlete": f"L{n:02}", "part": "full"}
                for n in range(1, played + 1)
            ]
    for n, key in enumerate(("P1", "P2", "P3", "N1", "N4", "O1"), 1):
        on = season.played_on(key)
        season.injuries.append(build.injury(f"I{n}", f"L{n:02}", on, session=key))
    found = {p.season_part: p.any_injury for p in asked(board(season)).availability.by_part}
    assert {name: (r.injuries, r.exposures) for name, r in found.items()} == {
        "preseason": (3, 58), "regular": (2, 60), "postseason": (1, 24),
    }  # fmt: skip
    rates = {name: (r.value, r.low, r.high) for name, r in found.items()}
    assert rates["preseason"] == approx((51.7241379, 10.6667607, 151.159881))
    assert rates["regular"] == approx((33.3333333, 4.03682131, 120.411461))
    assert rates["postseason"] == approx((41.6666667, 1.05490867, 232.151808))
    assert sum(r.exposures for r in found.values()) == 142
    whole_below_one_part = 1000 * 3 / 142
    assert whole_below_one_part == approx(21.12676)
    assert whole_below_one_part < rates["preseason"][0]


WORDS = {
    "Q1": "Full", "Q2": "Limited", "Q3": "Observed only", "Q4": "Excused",
    "Q5": "Full - modified drills", "Q6": "OUT", "Q7": "full ", "Q8": "LTD", "Q9": "",
}  # fmt: skip


def test_words_for_taking_part_are_understood_and_a_blank_is_told(board, tmp_path):
    """Five took part, two of them in full; one limited session is one exposure; a blank is none.

    Capitals, blanks and other people's words do not matter; no word is guessed for an empty cell.
    https://bjsm.bmj.com/content/55/7/354
    """
    season = sessions(("S1", "2026-09-01"))
    season.roster = [build.member(who) for who in WORDS]
    season.attendance = [
        {"session": "S1", "athlete": who, "part": word} for who, word in WORDS.items()
    ]
    with ReusedStore() as store, pytest.raises(IntakeError) as caught:
        plan_load(store, [season.write(tmp_path / "refused")])
    assert [(told.row, told.column) for told in caught.value.problems] == [(10, "part")]
    season.attendance = [row for row in season.attendance if row["part"]]
    total = asked(board(season)).availability.total("all")
    assert (total.exposures, total.full, total.limited_unknown) == (5, 2, 3)
    assert (total.out_unknown, total.not_recorded, total.rostered) == (3, 1, 9)


def test_availability_today_and_over_ten_days(board):
    """Invented: 3 of 25 out today is 88 % available; 21 of 250 athlete-days lost is 91.6 %."""
    first = date(2026, 9, 1)
    days = [(f"P{n:02}", (first + timedelta(days=n)).isoformat()) for n in range(10)]
    season = sessions(*days)
    season.roster = [build.member(f"A{n:02}") for n in range(25)]
    out = {f"P{n:02}": 3 if n == 9 else 2 for n in range(10)}
    season.attendance = [
        {"session": key, "athlete": f"A{n:02}", "part": "out", "reason": "injury"}
        if n < out[key]
        else {"session": key, "athlete": f"A{n:02}", "part": "full", "reason": None}
        for key, _ in days
        for n in range(25)
    ]
    answer = asked(board(season))
    found = answer.availability
    assert found.sessions[-1].share == approx(0.88)
    assert found.total("all").share == approx(0.916)
    assert (answer.headline.full, answer.headline.out) == (22, 3)
