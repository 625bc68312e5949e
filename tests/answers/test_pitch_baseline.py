"""What a team's injuries rest on: its own past, teams served, published rates, or nothing."""

import csv
from dataclasses import replace
from datetime import date
from pathlib import Path

import polars as pl
import pytest
from pytest import approx

from seasonboard.answers.pitch import baseline as pitch_baseline
from seasonboard.answers.pitch.ahead import team_ahead, with_games
from seasonboard.answers.pitch.baseline import served_rates
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.published import PublishedShare
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Outcome, Scope, Settings
from seasonboard.stats.absence_duration import absence_law

REFERENCE = Path(__file__).parents[1] / "reference" / "collegiate_rates.csv"
SHIN = ("lower leg",)
SCOPE = Scope(date(2026, 12, 1), kinds=("shin",))
TEAM = ProspectTeam("soccer", "women", 25, (), 20, 60)
HOCKEY = ProspectTeam("ice hockey", "men", 25, (), 20, 60)
NO_PARTS = pl.DataFrame(
    schema={"sport": pl.String, "setting": pl.String, "places": pl.Int64, "took_part": pl.Int64}
)
HEADS = ("department", "sport", "sex", "setting", "area", "sites", "injuries", "exposures")


def rates(*rows, areas=SHIN, besides=1.0):
    schema = dict(zip(HEADS, [pl.String] * 5 + [pl.Int64] * 3, strict=True))
    return served_rates(pl.DataFrame(rows, schema=schema, orient="row"), areas, besides)


def two_sports(soccer=(20, 40), lacrosse=(20, 40), **more):
    """Women's soccer and lacrosse with as many bare exposures: 4000 in games, 20,000 in others."""
    return rates(
        *(("D", sport, "women", setting, "lower leg", 2, injuries, exposures)
          for sport, counts in (("Soccer", soccer), ("lacrosse", lacrosse))
          for setting, injuries, exposures in zip(("game", "practice"), counts, (4000, 20_000),
                                                  strict=True)),
        **more,
    )  # fmt: skip


def ahead(served, team=TEAM, areas=SHIN, scope=SCOPE):
    return team_ahead(team, served, NO_PARTS, areas, scope)


def test_alike_sports_have_the_rates_of_all_by_setting():
    """25 · 20 games at 2 · 40/8000 and 25 · 60 practices at 2 · 80/40,000."""
    found = ahead(two_sports())
    assert found.baseline.basis is Basis.SPORT
    assert [one.injuries for one in found.settings] == approx([5.0, 6.0])
    assert found.injuries == approx(11.0)
    assert found.baseline.low < 11 < found.baseline.high


def test_a_sport_lies_between_its_own_rate_and_that_of_all():
    """Twice as many in soccer: 4/3 of all; what it weighs is told."""
    served = two_sports(soccer=(40, 80))
    group = served.groups["soccer", "women"]
    assert (group.injuries, group.expected) == (120, approx(90))
    weight = 90 / (90 + 1 / served.sports_differ**2)
    each = 25 * 20 * 2 * 60 / 8000 + 25 * 60 * 2 * 120 / 40_000
    found = ahead(served)
    assert found.injuries == approx(each * (1 + weight / 3))
    assert f"({weight * 100:.0f} %)" in found.baseline.source


def test_injuries_besides_those_counted_are_in_what_is_expected():
    assert ahead(two_sports(besides=1.25)).injuries == approx(1.25 * 11)


def test_a_sport_that_is_not_served_has_all_teams_in_its_place_and_is_less_sure():
    found = ahead(two_sports(), HOCKEY)
    assert found.baseline.basis is Basis.SERVED
    assert found.injuries == approx(11.0)
    assert found.baseline.shape < ahead(two_sports()).baseline.shape


def test_its_own_last_season_is_pooled_by_the_weight_that_is_told():
    plain, own = ahead(two_sports()), ahead(two_sports(), replace(TEAM, injuries=20))
    weight = own.baseline.own_weight
    assert 0 < weight < 1
    assert own.injuries == approx(weight * 20 + (1 - weight) * 11)
    assert own.baseline.like == plain.injuries
    assert own.baseline.shared < plain.baseline.shared, "its own count is no other team's"
    unlike = ahead(two_sports(), replace(HOCKEY, injuries=20))
    assert unlike.baseline.own_weight > weight, (
        "it weighs more where no team of the sport is served"
    )


def test_no_injury_last_season_is_a_count_and_not_unknown():
    none = ahead(two_sports(), replace(TEAM, injuries=0))
    assert 0 < none.injuries < 11


def test_last_season_alone_is_enough_where_nothing_else_is_known():
    found = ahead(rates(), replace(HOCKEY, injuries=12))
    assert (found.baseline.basis, found.injuries, found.baseline.own_weight) == (Basis.OWN, 12, 1)
    assert found.baseline.low == approx(6.2, abs=0.05), "the exact Poisson limit of 12 (Garwood)"
    assert ahead(rates(), replace(HOCKEY, injuries=0)).injuries is None


def test_games_missed_last_season_are_pooled_too():
    law = absence_law([(10, 50, 0)])
    team = replace(TEAM, injuries=11, games_missed=60)
    served = two_sports()
    usual, longer = (
        with_games([ahead(served, one)], law, 100.0)[0]
        for one in (replace(team, games_missed=None), team)
    )
    each = 20 * (10 - 100 / 200) / 100
    assert usual.games_missed == approx(usual.injuries * each)
    assert 1 < longer.out < 60 / (11 * each)
    assert longer.games_missed == approx(longer.injuries * each * longer.out)


@pytest.mark.parametrize(("games", "practices", "is_known"), [(2, 9, True), (2, 8, False)])
def test_fewer_than_11_injuries_of_all_teams_say_nothing(games, practices, is_known):
    found = ahead(two_sports(soccer=(games, practices), lacrosse=(0, 0)))
    assert (found.injuries is not None) is is_known


def test_a_scope_of_games_alone_is_never_answered_with_practices():
    scope = Scope(date(2026, 12, 1), kinds=("shin",), setting=Settings.GAMES)
    found = ahead(two_sports(), replace(TEAM, injuries=9), scope=scope)
    assert [one.setting for one in found.settings] == ["game"]
    assert found.injuries == approx(5.0)
    assert found.baseline.own is None, "last season's are of games and practices"


def test_areas_are_added_up_so_that_a_guarded_one_does_not_weigh_less():
    """Shins mostly guarded: 12 in 1000 bare, ankles 12 in 9000; 2 × (12/1000 + 12/9000)."""
    both = ("ankle", "lower leg")
    own = rates(
        *[("D", "soccer", "women", s, "lower leg", 2, 12, 1000) for s in ("game", "practice")],
        *[("D", "soccer", "women", s, "ankle", 2, 12, 9000) for s in ("game", "practice")],
        areas=both,
    )
    assert ahead(own, areas=both).injuries == approx(25 * 80 * 2 * (12 / 1000 + 12 / 9000))


def test_an_area_without_bare_exposures_leaves_no_own_rate():
    both = ("ankle", "lower leg")
    assert ahead(two_sports(areas=both), areas=both).injuries is None


def softball(outcome, **scope):
    """Return a softball team in games, for the knee."""
    team = ProspectTeam("softball", "women", 20, (), 50, 0)
    asked = Scope(date(2026, 12, 1), kinds=("knee",), outcome=outcome, **scope)
    return ahead(rates(), team, ("knee",), asked)


def test_published_rates_are_times_the_published_share_and_named():
    """Softball, any injury: 3.92 per 1000, of which 11.2 % at the knee (J Athl Train 2021)."""
    found = softball(Outcome.ANY)
    assert found.baseline.basis is Basis.PUBLISHED
    assert found.injuries == approx(20 * 50 * 3.92 * 0.112 / 1000)
    for part in ("any injury", "2014/15-2018/19", "J Athl Train"):
        assert part in found.baseline.source
    assert "sides" in softball(Outcome.ANY, sides=("left",)).why, "published shares tell no sides"
    other = softball(Outcome.TIME_LOSS)
    assert other.baseline.basis is Basis.NOT_KNOWN
    assert "no published share" in other.why
    assert "time loss" in other.why


def counted_rows():
    """Return the whole-country rows of three sports that give injuries and exposures."""
    lines = [x for x in REFERENCE.read_text("utf-8").splitlines() if not x.startswith("#")]
    rows = [
        row
        for row in csv.DictReader(lines)
        if row["division"] == "all"
        and row["athlete_exposures"]
        and row["ci_low"]
        and (row["sport"], row["sex"])
        in {("football", "men"), ("soccer", "men"), ("baseball", "men")}
        and row["setting"] in {"practice", "competition"}
    ]
    assert len(rows) == 6
    return rows


@pytest.mark.parametrize("row", counted_rows(), ids=lambda r: f"{r['sport']} {r['setting']}")
def test_published_exposures_give_the_published_injuries(row, monkeypatch):
    """Football, men's soccer and baseball (J Athl Train, as named row by row in the file).

    Were all injuries at the sites, so many exposures would give so many injuries, but for the
    rounding of the printed rate to two decimals.
    """
    whole = PublishedShare("", "", "all", SHIN, 1.0, "a test", "", "")
    monkeypatch.setattr(pitch_baseline, "share_for", lambda *_: whole)
    exposures = int(row["athlete_exposures"])
    is_game = row["setting"] == "competition"
    team = ProspectTeam(row["sport"], row["sex"], exposures, (), int(is_game), int(not is_game))
    is_time_loss = row["injury_definition"].startswith("time loss")
    outcome = Outcome.TIME_LOSS if is_time_loss else Outcome.ANY
    scope = Scope(date(2026, 12, 1), kinds=("shin",), outcome=outcome)
    found = team_ahead(team, rates(), NO_PARTS, SHIN, scope)
    assert found.injuries == approx(int(row["injuries"]), abs=0.005 * exposures / 1000 + 1)
    other = Outcome.ANY if is_time_loss else Outcome.TIME_LOSS
    crossed = team_ahead(team, rates(), NO_PARTS, SHIN, Scope(scope.through, outcome=other))
    assert crossed.injuries is None or crossed.injuries != approx(found.injuries, rel=0.01)


def test_exposures_are_athletes_sessions_and_who_takes_part():
    parts = pl.DataFrame(
        [("soccer", "game", 100, 60), ("soccer", "practice", 200, 180)],
        schema=NO_PARTS.schema,
        orient="row",
    )
    found = team_ahead(TEAM, two_sports(), parts, SHIN, SCOPE)
    assert [each.exposures for each in found.settings] == [25 * 20 * 0.6, 25 * 60 * 0.9]
    assert found.injuries == approx(5 * 0.6 + 6 * 0.9)
    bare = ahead(two_sports())
    assert [each.is_own_taking_part for each in bare.settings] == [False, False]
    assert bare.settings[0].exposures == 25 * 20


def test_only_athletes_of_the_position_groups_in_scope_count():
    team = ProspectTeam("soccer", "women", 25, (("forwards", 8), ("Backs", 10)), 20, 60)
    scope = Scope(date(2026, 12, 1), kinds=("shin",), position_groups=("forwards", "backs"))
    assert team_ahead(team, two_sports(), NO_PARTS, SHIN, scope).athletes == 18
