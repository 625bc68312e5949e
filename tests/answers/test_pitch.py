"""The pitch: what is promised and what is not, on the sample season and on stores at the edge."""

import csv
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.pitch.answer import basis_of, gathered, planned, refuse
from seasonboard.answers.pitch.options import EffectLimits, PitchOptions, PrintWay
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.pitch.report import REPORT
from seasonboard.answers.questions import COMPARE, PITCH, TAKE_UP, TURNAROUND
from seasonboard.answers.take_up.parts import FITTED, WORN, TakeUpOptions
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.errors import ScopeError
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import read_scope
from tests.answers.wording import check_said, nulls_without_why
from tests.conftest import ROOT
from tests.queries.test_queries_against_loops import MODEST

TWO = Prospect(
    (ProspectTeam("soccer", "women", 26, (), 20, 60), ProspectTeam("soccer", "men", 28, (), 20, 60))
)
FEES = {"weekly_per_print": 85.0, "weekly_monthly": 200.0, "currency": "USD"}
PLAN = PitchOptions(TWO, prints_per_week=12, seasons=800, **FEES)


def as_object(answer):
    return REPORT.as_object(answer, "pitch")


@pytest.fixture(scope="module")
def ask(sample):
    """Plan with what the sample season says; what it says in a scope is asked for once."""
    kept = {}

    def ask_it(options=PLAN, **asked):
        scope = read_scope({"kind": "shin"} | asked, sample.scope_values)
        refuse(scope, options)
        if scope not in kept:
            kept[scope] = gathered(sample._reader, scope, sample.scope_values)
        return planned(basis_of(kept[scope]), scope, sample.scope_values, options)

    return ask_it


@pytest.fixture(scope="module")
def shin(ask):
    return ask()


@pytest.mark.long
def test_the_department_like_those_served_has_a_team_of_each_sport_and_sex(ask, sample):
    found = ask(PitchOptions(seasons=200))
    assert not found.is_given
    assert len(found.prospect.teams) == 9
    assert "like those served" in found.summary.answer
    womens_soccer = next(t for t in found.prospect.teams if (t.sport, t.sex) == ("soccer", "women"))
    assert (womens_soccer.athletes, womens_soccer.games, womens_soccer.practices) == (27, 22, 66)


def test_injuries_without_guards_lie_between_those_of_the_sport_and_of_all(shin, sample):
    """Bare rates of Compare after injuries too, both sites; 76 injuries in all, 73 in sessions."""
    asked = {"kind": "shin", "purpose": "all"}
    all_bare, soccer = (
        sample.ask(COMPARE, read_scope(asked | more, sample.scope_values)).unguarded
        for more in ({}, {"sport": "soccer"})
    )
    assert {team.baseline.basis for team in shin.teams} == {Basis.SPORT}
    exposures = sum(each.exposures for team in shin.teams for each in team.settings)
    known = sum(team.injuries for team in shin.teams)
    low, high = (exposures * 2 * of.injuries / of.exposures * 76 / 73 for of in (all_bare, soccer))
    assert low < known < high
    assert shin.ahead.injuries.mean == approx(known, rel=0.05)


def test_no_team_of_the_sample_is_left_unknown(ask):
    found = ask(PitchOptions(seasons=200))
    assert [team.name for team in found.aside] == []
    assert len(found.planned) == 9


def test_the_effect_is_the_headline_of_compare_with_its_ordinary_limits(shin, sample, ask):
    found = sample.ask(COMPARE, read_scope({"kind": "shin"}, sample.scope_values))
    headline = found.comparison("same session")
    assert shin.effect.ratio == headline.ratio.value
    assert (shin.effect.low, shin.effect.high) == (headline.ratio.low, headline.ratio.high)
    peek = ask(replace(PLAN, limits=EffectLimits.PEEK_PROOF))
    assert (peek.effect.low, peek.effect.high) == (found.watched.now.low, found.watched.now.high)
    assert peek.effect.std_error > shin.effect.std_error
    assert "peek-proof" in REPORT.as_text(peek)


def test_own_take_up_and_wear_are_those_of_take_up(shin, ask, sample):
    own = ask(PitchOptions(TWO, seasons=200))
    whole = sample.ask(
        TAKE_UP, read_scope({"kind": "shin"}, sample.scope_values), TakeUpOptions()
    ).whole
    assert own.input("worn in").value == whole.worn.value
    assert whole.step(FITTED).count > 11
    takes = own.input("take-up")
    assert takes.value == approx(206 / 368 * whole.step(WORN).of_before.value, abs=0.002)
    assert "206 of 368 accepted" in takes.source


def test_a_range_that_reaches_0_promises_no_number_and_prices_none(shin):
    assert shin.ahead.games_kept.low_95 <= 0
    assert "promise no number" in shin.summary.answer
    weekly = shin.plan(PrintWay.WEEKLY)
    assert weekly.total.median == approx(85 * shin.prints.guards.median + 200 * weekly.months)
    assert weekly.per_game_kept is None
    assert "down to 0" in weekly.why


def test_plays_kept_are_games_kept_times_the_mean_plays_of_a_game(shin):
    """Counted from the files themselves, which hold one department-season a team."""
    folder = ROOT / "sample_season"
    games = {row["session"] for row in rows_of(folder / "sessions.csv") if row["setting"] == "game"}
    plays = [
        int(row["plays"])
        for row in rows_of(folder / "attendance.csv")
        if row["session"] in games and row["plays"] and row["part"] in {"full", "limited"}
    ]
    assert len(plays) > 1000
    assert shin.plays_per_game == approx(sum(plays) / len(plays))
    assert shin.plays_kept.median == approx(shin.ahead.games_kept.median * shin.plays_per_game)


def rows_of(path):
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_fewer_than_11_guarded_injuries_show_no_effect_and_say_what_it_would_take(ask):
    found = ask(kind="thumb")
    assert found.effect.injuries_guarded is None, "no small count is shown"
    assert found.effect.ratio is None
    assert found.ahead is None or found.ahead.games_kept is None
    assert found.effect.ratio_needed == approx(1 - 0.1 / found.guarded_share)
    assert found.swings == ()
    assert "fewer than 11 injuries, guarded" in found.swing_sentence


def test_take_up_of_nobody_keeps_nothing_and_prints_nothing(ask):
    found = ask(replace(PLAN, take_up=0.0))
    assert found.guarded_share == 0
    assert found.ahead.games_kept.low_95 == found.ahead.games_kept.high_95 == 0
    assert found.prints.prints.high_95 == 0
    assert found.ahead.visible is None


def test_the_widest_swing_stands_first_and_is_told(shin):
    widths = [swing.width for swing in shin.swings]
    assert widths == sorted(widths, reverse=True)
    assert shin.swings[0].input in shin.swing_sentence
    assert {s.input for s in shin.swings} >= {"effect", "take-up", "days lost"}


def test_a_swing_at_the_middle_is_what_is_kept_on_average(shin):
    """At ratio 1 none is kept; between its ends the games kept go as 1 − ratio."""
    effect = next(swing for swing in shin.swings if swing.input == "effect")
    slope = (effect.kept_at_low - effect.kept_at_high) / (effect.high - effect.low)
    assert effect.kept_at_low == approx(slope * (1 - effect.low))
    half = shin.effect.std_error**2 / 2
    mean = slope * (1 - shin.effect.ratio * 2.718281828**half)
    assert shin.ahead.games_kept.mean == approx(mean, rel=0.35, abs=0.3)  # 800 seasons


def test_a_printer_with_few_hours_makes_guards_late_and_guards_less(ask):
    fast = ask(PitchOptions(TWO, printers=2, seasons=400))
    slow = ask(PitchOptions(TWO, printers=1, printer_hours=20, seasons=400))
    slow, fast = (found.plan(PrintWay.PRINTER) for found in (slow, fast))
    assert slow.made.turnaround_days.median > fast.made.turnaround_days.median
    assert slow.guarded_share < fast.guarded_share
    hours = ask(PitchOptions(TWO, seasons=200)).input("hours a print").value
    assert slow.capacity == approx(20 / hours)


def test_what_is_not_given_is_proposed_for_the_busiest_week(ask):
    found = ask(PitchOptions(TWO, seasons=200))
    weekly = found.plan(PrintWay.WEEKLY)
    assert not weekly.is_given
    assert weekly.capacity == found.prints.busiest_week.median
    assert weekly.holds


def test_each_plan_has_the_turnaround_of_departments_on_that_plan(ask, sample):
    options = TurnaroundOptions(by=OrdersBy.PLAN)
    timed = sample.ask(TURNAROUND, read_scope({"kind": "shin"}, sample.scope_values), options)
    found = ask(PitchOptions(TWO, seasons=200))
    for group in timed.groups:
        served = found.plan(PrintWay(group.key)).served
        assert (served.orders, served.median, served.p80, served.ready) == (
            *(group.orders, group.median.value, group.p80.value, group.ready.share.value),
        )
    assert [plan.served.departments for plan in found.plans] == [1, 2]


def test_a_plan_that_cannot_hold_the_demand_says_from_which_week_the_queue_grows(ask):
    found = ask(replace(PLAN, prints_per_week=1, printers=2))
    weekly = found.plan(PrintWay.WEEKLY)
    assert not weekly.holds
    assert weekly.made.queue.grows_from == 1
    assert found.choice.way is PrintWay.PRINTER
    assert "cannot hold the demand: the queue grows from week 1" in found.choice.why
    assert any("cannot hold the demand" in caveat for caveat in found.summary.caveats)


def test_of_two_plans_that_cannot_hold_the_demand_neither_is_recommended(ask):
    found = ask(replace(PLAN, prints_per_week=1, printers=1, printer_hours=5))
    assert found.choice.way is None
    assert "neither can hold the demand" in found.choice.why


def test_scanning_before_the_season_guards_more_of_it(ask):
    usual, early = ask(), ask(replace(PLAN, scan_before=5, scan_weeks=3))
    for before, after in zip(usual.plans, early.plans, strict=True):
        assert after.guarded_share > before.guarded_share
        assert after.made.ready_at_start > before.made.ready_at_start


def test_the_same_seed_gives_the_same_answer_to_the_digit(ask, shin):
    assert as_object(ask()) == as_object(shin)
    assert as_object(ask(replace(PLAN, seed=7)))["season"] != as_object(shin)["season"]


def test_whatever_is_null_has_its_reason(shin):
    assert nulls_without_why(as_object(shin)) == []


@pytest.mark.long
@pytest.mark.parametrize("kind", ["shin", "thumb", "ankle", "shin,ankle"])
def test_text_fits_a_terminal_of_96_columns(ask, kind):
    teams = (*TWO.teams, ProspectTeam("a very long name of a sport " * 3, "mixed", 9, (), 5, 5))
    text = REPORT.as_text(ask(replace(PLAN, prospect=Prospect(teams)), kind=kind))
    assert max(len(line) for line in text.splitlines()) <= 96


def test_contact_is_mechanics_and_never_injuries(shin):
    assert "0.60 to 0.65 of the mean pressure" in shin.contact
    assert "tells nothing about injuries" in shin.contact


def test_teams_of_which_nothing_is_known_are_left_out_of_prints_and_cost_too(ask):
    """Of the wrist fewer than 11 injuries are known: what has a last season is planned alone."""
    teams = (replace(TWO.teams[0], injuries=9), ProspectTeam("rugby", "women", 30, (), 10, 40))
    found = ask(replace(PLAN, prospect=Prospect(teams)), kind="wrist")
    assert [left.count for left in found.summary.left_out] == [30]
    assert "no published" in found.summary.left_out[0].why
    assert [team.name for team in found.aside] == ["women's rugby"]
    assert found.summary.answer.startswith("One season of 1 team of the prospect, 26 athletes.")
    alone = ask(replace(PLAN, prospect=Prospect(teams[:1])), kind="wrist")
    assert found.prints == alone.prints, "prints are those of the teams that are counted"


REFUSED = {
    "--take-up": {"take_up": 1.2},
    "--weekly-monthly": {"weekly_monthly": -1.0, "currency": "USD"},
    "without its currency": {"printer_setup": 5.0},
    "--scan-before": {"scan_before": 30.0},
    "--prints-per-week 0": {"prints_per_week": 0.0},
    "--printer-hours": {"printer_hours": 200.0, "printers": 1},
    "without --printers": {"printer_hours": 20.0},
    "--seasons": {"seasons": 1},
    "--weeks": {"weeks": 0.0},
}


@pytest.mark.parametrize("summary", REFUSED)
def test_what_cannot_be_planned_with_is_refused_in_words(ask, summary):
    with pytest.raises(ScopeError, match=summary):
        ask(PitchOptions(TWO, **REFUSED[summary]))


def test_guards_for_a_return_are_not_pitched(ask):
    with pytest.raises(ScopeError, match="not those for a return"):
        ask(purpose="return")


@MODEST
@given(
    athletes=st.integers(1, 80),
    games=st.integers(0, 40),
    practices=st.integers(0, 100),
    take_up=st.floats(0, 1),
)
def test_any_prospect_has_an_answer(ask, athletes, games, practices, take_up):
    teams = (ProspectTeam("soccer", "men", athletes, (), games, practices),)
    options = PitchOptions(Prospect(teams), take_up=take_up, prints_per_week=5, seasons=200)
    found = as_object(ask(options))
    check_said(found, "pitch")
    guarded = found["guarded_share"]
    assert 0 <= guarded <= take_up + 0.35  # binomial, of as few as one athlete


def test_an_empty_store_asks_for_teams_and_assumes_what_it_must(edge_board):
    this = edge_board("nothing at all")
    scope = read_scope({"kind": "chest"}, this.scope_values)
    assert this.ask(PITCH, scope).summary.answer.startswith("Nothing to promise yet")
    found = this.ask(PITCH, scope, replace(PLAN, hours_per_print=5))
    assert found.input("take-up").value == 0.5
    assert "assumed" in found.input("take-up").source
    assert "to expect is not known for any team" in found.summary.answer
    assert found.prints.first.median == approx(27, abs=2)
    assert any("Assumed, not recorded: take-up" in caveat for caveat in found.summary.caveats)
