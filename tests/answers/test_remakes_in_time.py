"""Remakes within some days, guard life, chains, waits; and every form at the edges."""

import csv
import io
import json
import random
from dataclasses import replace

import pytest

from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.report import REPORT
from seasonboard.answers.scope_values import read_known
from seasonboard.scope import read_scope
from tests.answers.made_guards import Made
from tests.reused import ReusedStore


@pytest.fixture
def made():
    return Made()


@pytest.mark.long
def test_within_some_days_agrees_with_lifelines(made, tmp_path):
    """Guards fitted over 60 days; some come back, some are retired, most are in use at the end."""
    from lifelines import KaplanMeierFitter

    dice = random.Random(7)
    lasted, came_back = [], []
    for number in range(80):
        on, ends, fate = dice.randint(1, 60), dice.randint(1, 50), dice.choice("rruuu")
        seen = min(ends, 90 - on) if fate != "u" else 90 - on
        is_seen = on + ends <= 90
        days = {"requested": on, "fitted": on}
        if fate == "r" and dice.random() < 0.5 and is_seen:
            days["retired"] = on + ends
        elif fate == "r" and is_seen:
            cells = {"remake_of": f"a{number}", "remake_reason": "fit"}
            made.guard(f"a{number}-b", {"requested": on + ends}, **cells)
            came_back.append(True)
        made.guard(f"a{number}", days)
        lasted.append(seen)
        came_back += [False] * (number + 1 - len(came_back))
    within = made.ask(tmp_path, through=90).whole.within
    oracle = KaplanMeierFitter().fit(lasted, came_back)
    limits = oracle.confidence_interval_survival_function_.loc[:30].iloc[-1]
    assert within.value == pytest.approx(1 - oracle.predict(30), abs=1e-9)
    assert (within.low, within.high) == pytest.approx((1 - limits.iloc[1], 1 - limits.iloc[0]))
    assert 0.02 < within.value < 0.6


def test_a_guard_retired_first_came_back_on_the_day_it_was_asked_for(made, tmp_path):
    """Retired after 25 days, asked for anew after 35: not within 30 days."""
    made.fitted("p", 10)
    made.guard("q", {"requested": 1, "fitted": 2, "retired": 27})
    made.guard("q-b", {"requested": 37}, remake_of="q", remake_reason="damage")
    assert made.ask(tmp_path, window=30).whole.within.value == 0
    assert made.ask(tmp_path, window=35).whole.within.value == pytest.approx(1 / 11)


def test_a_window_that_nobody_is_known_for_has_words(made, tmp_path):
    made.fitted("p", 10)
    within = made.ask(tmp_path, through=20).whole.within
    assert (within.value, within.why) == (None, "no guard is known for 30 days yet")


def test_guard_life_in_sessions_worn_by_hand(made, tmp_path):
    """Lives of 2 (came back), 3 (in use), 4 (retired), 5 (in use), 6 (came back): median 6.

    Of five at risk one ends at 2 (4/5 last), of three at 4 (8/15), of one at 6 (none). What the
    first wore on after it was asked for anew is not its life.
    """
    made.fitted("p", 5)
    for number, worn in enumerate((2, 3, 4, 5, 6)):
        made.worn(f"p{number}", range(3, 3 + worn))
    made.worn("p0", range(10, 30))
    made.guard("p0-b", {"requested": 8}, remake_of="p0", remake_reason="fit")
    made.guard("p4-b", {"requested": 20}, remake_of="p4", remake_reason="lost")
    made.stages.append(made.stages[0] | {"guard": "p2", "stage": "retired"})
    made.stages[-1]["reached_at"] = made.stages[-1]["reached_at"].replace(day=20)
    answer = made.ask(tmp_path)
    assert (answer.life.value, answer.guards_in_use) == (6, 2)
    assert answer.whole.sessions_worn == 2 + 3 + 4 + 5 + 6 + 20


def test_a_chain_is_counted_from_the_first_guard_that_was_fitted(made, tmp_path):
    """The first print was called off; its remake was fitted and came back once."""
    made.guard("a", {"requested": 1, "cancelled": 3})
    made.guard("a-b", {"requested": 3, "fitted": 6}, remake_of="a", remake_reason="print fault")
    made.guard("a-c", {"requested": 10, "fitted": 15}, remake_of="a-b", remake_reason="fit")
    made.guard("o", {"requested": 1, "cancelled": 3})
    chains = made.ask(tmp_path).chains
    assert (chains.firsts, chains.remade_or_replaced.successes) == (1, 1)
    assert (chains.units, chains.longest) == (1, 3)
    assert (chains.days_to_stay, chains.chains_fitted) == (14, 1)


def test_the_longest_chain_counts_what_is_still_being_made_in_it(made, tmp_path):
    """One chain of three, all fitted; another of two, the second not fitted yet."""
    made.fitted("a", 1)
    made.guard("a0-b", {"requested": 5, "fitted": 6}, remake_of="a0", remake_reason="fit")
    made.guard("a0-c", {"requested": 9, "fitted": 12}, remake_of="a0-b", remake_reason="fit")
    made.fitted("b", 1)
    made.back("b", 1, on=5)
    chains = made.ask(tmp_path).chains
    assert (chains.longest, chains.chains_fitted, chains.days_to_stay) == (3, 1, 11)
    assert made.ask(tmp_path, through=10).chains.longest == 3
    assert made.ask(tmp_path, through=7).chains.longest == 2


def test_sessions_played_bare_while_waiting_are_those_of_guards_that_came_back(made, tmp_path):
    made.fitted("p", 2)
    made.worn("p1", range(3, 12))
    made.worn("p0", range(3, 6))
    who = {"session": "G8", "athlete": "p0", "part": "full"}
    made.attendance.append(who)
    made.back("p", 1, on=6)
    answer = made.ask(tmp_path)
    assert (answer.bare_exposures, answer.waits) == (1, 1)
    assert [row[-1] for row in answer.rows.rows] == [1]


def all_forms(answer):
    """Return the answer's text, JSON and CSV rows; JSON holds no number that is none."""
    told = json.loads(REPORT.as_json(answer, "remakes"))
    return REPORT.as_text(answer), told, list(csv.DictReader(io.StringIO(REPORT.as_csv(answer))))


def test_the_text_says_who_is_above_and_gives_reasons_by_group_where_asked_for(made, tmp_path):
    made.fitted("p", 40, scan_method="phone")
    made.fitted("s", 40, scan_method="scanner")
    made.back("p", 20, on=10)
    answer = made.ask(tmp_path, "scan-method")
    text = REPORT.as_text(answer)
    assert "above its control limits" in text
    assert "Remade within 30 days of fitting: 25 %, 17 to 36 %." in text
    wide = REPORT.as_text(replace(answer, options=replace(answer.options, group_reasons=True)))
    assert "scan method  fit\nphone         20\nscanner        0\n" in wide


def test_remakes_per_sessions_worn_beyond_their_limits_are_named(made, tmp_path):
    """Ten remakes in 20 sessions worn, none in 400: u = 10/420, both beyond u ± 3 √(u/n)."""
    made.fitted("p", 10, scan_method="phone")
    made.fitted("s", 20, scan_method="scanner")
    made.back("p", 10, on=10)
    for number in range(10):
        made.worn(f"p{number}", range(3, 5))
    for number in range(20):
        made.worn(f"s{number}", range(3, 23))
    answer = made.ask(tmp_path, "scan-method")
    phone = next(g for g in answer.groups if g.group == "phone")
    centre = 1000 / 420
    assert phone.per_100_worn == 50
    limits = phone.worn_control_limits
    assert limits.high == pytest.approx(centre + 3 * (centre / 0.2) ** 0.5)
    assert limits.is_outside is True
    told = " ".join(REPORT.as_text(answer).split())
    assert (
        "sessions worn: 2.38; outside: scanner (0.00, control limits 0.07 to 4.70), "
        "phone (50.00, control limits 0.00 to 12.73)."
    ) in told


def test_nothing_recorded_has_words_in_every_form():
    with ReusedStore() as store:
        known = read_known(store)
        text, told, rows = all_forms(remakes(store, read_scope({}, known), known))
    assert "no guard of the scope is recorded as fitted" in text
    assert (told["groups"], told["reasons"], told["all"]["share"]) == ([], [], None)
    assert told["all"]["why"] == "nothing was counted"
    assert [row["group"] for row in rows] == ["all"]


def test_nothing_fitted_but_asked_for_anew_is_told(made, tmp_path):
    made.guard("a", {"requested": 1})
    made.guard("a-b", {"requested": 3}, remake_of="a", remake_reason="print fault")
    text, told, _ = all_forms(made.ask(tmp_path))
    assert "no guard of the scope is recorded as fitted" in text
    assert told["reasons"][0]["before_fitting"] == 1
    assert "1  guards asked for anew: the guard they replace was not fitted" in text


def test_no_remakes_are_no_limits_of_the_window_and_say_so(made, tmp_path):
    made.fitted("p", 12)
    text, told, _ = all_forms(made.ask(tmp_path))
    assert text.splitlines()[1].startswith("None of 12 fitted guards was remade (0 %, 0 to 24 %).")
    within = told["all"]["within_30_days"]
    assert (within["share"], within["high"]) == (0, None)
    assert within["why"] == "no confidence interval: none came back by then"


def test_all_remade_is_everything_and_limits_still_hold(made, tmp_path):
    made.fitted("p", 12)
    made.back("p", 12, on=9)
    text, told, _ = all_forms(made.ask(tmp_path))
    assert "12 of 12 fitted guards were remade (100 %, 76 to 100 %), 100 % within 30" in text
    why = "no confidence interval: every one came back by then"
    assert told["all"]["within_30_days"]["why"] == why
    assert told["chains"]["days_to_stay"] is None
    assert told["chains"]["why"] == "no chain has its last guard fitted"


def test_few_guards_in_all_are_too_few_to_tell(made, tmp_path):
    made.fitted("p", 3)
    made.back("p", 1, on=9)
    assert "Too few to tell: fewer than ten were fitted." in made.ask(tmp_path).summary.answer
