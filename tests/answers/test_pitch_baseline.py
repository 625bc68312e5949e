"""Which rate a team's injuries rest on: own, own together, published, or none."""

import csv
from datetime import date
from pathlib import Path

import polars as pl
import pytest
from pytest import approx

from seasonboard.answers.pitch import baseline as pitch_baseline
from seasonboard.answers.pitch.ahead import team_ahead
from seasonboard.answers.pitch.baseline import baselines, own_rates
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.published import PublishedShare
from seasonboard.prospect import ProspectTeam
from seasonboard.scope import Outcome, Scope, Settings
from seasonboard.stats.rates import injury_rate

REFERENCE = Path(__file__).parents[1] / "reference" / "collegiate_rates.csv"
SHIN = ("lower leg",)
SCOPE = Scope(date(2026, 12, 1), kinds=("shin",))
TEAM = ProspectTeam("soccer", "women", 25, (), 20, 60)
NO_PARTS = pl.DataFrame(
    schema={"sport": pl.String, "setting": pl.String, "places": pl.Int64, "took_part": pl.Int64}
)
HEADS = ("sport", "sex", "setting", "area", "sites", "injuries", "exposures")


def rates(*rows):
    schema = dict(zip(HEADS, [pl.String] * 4 + [pl.Int64] * 3, strict=True))
    return own_rates(pl.DataFrame(rows, schema=schema, orient="row"))


def soccer(games, practices, exposures=(4000, 20_000)):
    return rates(
        ("Soccer", "women", "game", "lower leg", 2, games, exposures[0]),
        ("Soccer", "women", "practice", "lower leg", 2, practices, exposures[1]),
    )


def basis(own, team=TEAM, areas=SHIN, scope=SCOPE):
    found = baselines(team, own, areas, scope)
    (only,) = {each.basis for each in found.values()}
    return only


def test_each_setting_has_its_own_rate_where_both_have_11_injuries():
    found = baselines(TEAM, soccer(11, 20), SHIN, SCOPE)
    assert {each.basis for each in found.values()} == {Basis.OWN}
    assert found["game"].rate == approx(2 * 11 / 4000 * 1000)
    assert found["practice"].rate == approx(2 * 20 / 20_000 * 1000)


def test_limits_of_one_area_are_the_exact_ones_for_both_its_sites():
    found = baselines(TEAM, soccer(11, 20), SHIN, SCOPE)["game"]
    exact = injury_rate(11, 4000)
    assert (found.low, found.high) == approx((2 * exact.low, 2 * exact.high))


@pytest.mark.parametrize(
    ("games", "practices", "expected"),
    [
        (11, 11, Basis.OWN), (10, 50, Basis.OWN_BOTH), (50, 10, Basis.OWN_BOTH),
        (5, 6, Basis.OWN_BOTH), (5, 5, Basis.NOT_KNOWN),
    ],
)  # fmt: skip
def test_with_fewer_than_11_both_settings_have_one_rate_and_then_none(games, practices, expected):
    assert basis(soccer(games, practices)) is expected


def test_games_and_practices_together_have_one_rate_over_all_exposures():
    found = baselines(TEAM, soccer(5, 15), SHIN, SCOPE)
    assert found["game"].rate == found["practice"].rate == approx(2 * 20 / 24_000 * 1000)
    assert found["game"].injuries == 20


def test_a_scope_of_games_alone_is_never_answered_with_practices():
    scope = Scope(date(2026, 12, 1), kinds=("shin",), setting=Settings.GAMES)
    found = baselines(TEAM, soccer(5, 50), SHIN, scope)
    assert list(found) == ["game"]
    assert found["game"].basis is Basis.NOT_KNOWN


@pytest.mark.parametrize("other", [{"sex": "men"}, {"sport": "lacrosse"}])
def test_another_sex_or_sport_is_another_team(other):
    team = ProspectTeam(**({"sport": "soccer", "sex": "women"} | other), athletes=25, groups=(),
                        games=20, practices=60)  # fmt: skip
    assert basis(soccer(40, 40), team) is Basis.NOT_KNOWN


def test_areas_are_added_up_so_that_a_guarded_one_does_not_weigh_less():
    """Shins mostly guarded: 12 in 1000 bare, ankles 12 in 9000; 2 × (12/1000 + 12/9000)."""
    own = rates(
        *[("soccer", "women", s, "lower leg", 2, 12, 1000) for s in ("game", "practice")],
        *[("soccer", "women", s, "ankle", 2, 12, 9000) for s in ("game", "practice")],
    )
    found = baselines(TEAM, own, ("ankle", "lower leg"), SCOPE)["game"]
    assert found.rate == approx(2 * (12 / 1000 + 12 / 9000) * 1000)
    assert found.injuries == 24
    assert 12 < found.shape < 24, "as sure as fewer injuries, since they weigh unevenly"


def test_an_area_without_bare_exposures_leaves_no_own_rate():
    assert basis(soccer(30, 30), areas=("ankle", "lower leg")) is Basis.NOT_KNOWN


def softball(outcome, **scope):
    """Return the baseline of a softball team in games, for the knee."""
    team = ProspectTeam("softball", "women", 20, (), 50, 60)
    asked = Scope(date(2026, 12, 1), kinds=("knee",), outcome=outcome, **scope)
    return baselines(team, rates(), ("knee",), asked)["game"]


def test_published_rates_are_times_the_published_share_and_named():
    """Softball, any injury: 3.92 per 1000, of which 11.2 % at the knee (J Athl Train 2021)."""
    found = softball(Outcome.ANY)
    assert found.basis is Basis.PUBLISHED
    assert found.rate == approx(3.92 * 0.112)
    for part in ("any injury", "2014/15-2018/19", "J Athl Train"):
        assert part in found.source
    assert "sides" in softball(Outcome.ANY, sides=("left",)).why, "published shares tell no sides"
    other = softball(Outcome.TIME_LOSS)
    assert other.basis is Basis.NOT_KNOWN
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
    found = team_ahead(TEAM, soccer(11, 20), parts, SHIN, SCOPE)
    assert [each.exposures for each in found.settings] == [25 * 20 * 0.6, 25 * 60 * 0.9]
    assert found.injuries == approx(300 * 2 * 11 / 4000 + 1350 * 2 * 20 / 20_000)
    bare = team_ahead(TEAM, soccer(11, 20), NO_PARTS, SHIN, SCOPE)
    assert [each.is_own_taking_part for each in bare.settings] == [False, False]
    assert bare.settings[0].exposures == 25 * 20


def test_only_athletes_of_the_position_groups_in_scope_count():
    team = ProspectTeam("soccer", "women", 25, (("forwards", 8), ("Backs", 10)), 20, 60)
    scope = Scope(date(2026, 12, 1), kinds=("shin",), position_groups=("forwards", "backs"))
    assert team_ahead(team, soccer(11, 20), NO_PARTS, SHIN, scope).athletes == 18
