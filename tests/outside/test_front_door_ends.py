"""Repeats, competing ends and late entry, asked by the command line of published tables.

Each table becomes a season of one team; the chest is the site (so `--kind chest`).
"""

import pytest
from pytest import approx

from tests import front_door
from tests.published import TWO_CAUSES, VALVE_SEATS

CHEST = ("--kind", "chest", "--format", "json")


pytestmark = pytest.mark.long  # each loads a published table and asks, as programs


def ask_games(run, store, *words):
    done = run("ask", "games", "--store", store, *CHEST, *words)
    assert done.status == 0, done.err
    return done.json


def bare(rows):
    return {row["tick"]: row for row in rows if row["group"] == "unguarded"}


def test_valve_seats_give_nelsons_mean_cumulative_function(run, loaded):
    """Nelson 1995, J Qual Technol 27:147-157; robust errors (Lawless & Nadeau 1995) recomputed.

    Engines 402 (day 139) and 328 (day 653) have two replacements on one day: both count.
    """
    found = ask_games(run, loaded("valves", *front_door.valve_seats()))
    rows = bare(found["mean_cumulative"])
    for day, at_risk, events, mean, error in VALVE_SEATS:
        assert (rows[day]["at_risk"], rows[day]["injuries"]) == (at_risk, events)
        assert rows[day]["mean"] == approx(mean, abs=1e-6)
        assert rows[day]["std_error"] == approx(error, abs=1e-6)


def test_two_causes_give_the_published_incidence(run, loaded):
    """Marubini & Valsecchi 1995, table 10.1, group A; values as in R's cmprsk and survival."""
    found = ask_games(run, loaded("causes", *front_door.two_causes()))
    shares = {
        (row["tick"], row["cause"]): row["share"]
        for row in found["cumulative_incidence"]
        if row["group"] == "unguarded" and row["share"] is not None
    }

    def at(day, cause):
        return [share for (k, name), share in shares.items() if name == cause and k <= day][-1]

    for day, _, _, first, second in TWO_CAUSES[:-1]:
        assert at(day, "injury") == approx(first, abs=1e-6)
        assert at(day, "injury elsewhere") == approx(second, abs=1e-6)


def test_infections_all_counted_give_the_published_rate_ratio(run, loaded):
    """56 infections in 18524 days and 20 in 18953: Fleming & Harrington 1991; exact limits
    recomputed. Every infection counts when earlier injuries do not end the view."""
    store = loaded("infections", front_door.infections())
    asked = ("ask", "compare", "--store", store, "--purpose", "all", "--format", "json")
    found = run(*asked).json
    (crude,) = (c for c in found["comparisons"] if c["comparison"] == "crude")
    assert (crude["injuries_guarded"], crude["exposures_guarded"]) == (20, 18953)
    assert (crude["injuries_unguarded"], crude["exposures_unguarded"]) == (56, 18524)
    assert crude["rate_ratio"] == approx(0.349059, abs=1e-6)
    assert crude["exact"]["low"] == approx(0.198398, abs=1e-6)
    assert crude["exact"]["high"] == approx(0.590835, abs=1e-6)
    model = crude["high"] / crude["low"]
    assert crude["clustered"]["high"] / crude["clustered"]["low"] > model


def test_men_of_channing_house_show_the_early_collapse(run, loaded):
    """Klein & Moeschberger 2003, examples 1.16 and 4.3: two men at risk at 777 months, one dies;
    one at 781, who dies. From a risk set of five on the curve is one to read."""
    store = loaded("channing", front_door.channing_men())
    clock = ("--clock", "season-games")
    (alone,) = (
        g
        for g in ask_games(run, store, *clock, "--min-at-risk", "1")["groups"]
        if g["group"] == "unguarded"
    )
    points = {p["tick"]: p for p in alone["curve"]}
    assert (points[777]["at_risk"], points[777]["survival"]) == (2, approx(0.5))
    assert (points[781]["at_risk"], points[781]["survival"]) == (1, 0.0)
    assert points[869]["at_risk"] == 24
    assert points[869]["survival"] == 0.0
    found = ask_games(run, store, *clock)
    (kept,) = (g for g in found["groups"] if g["group"] == "unguarded")
    assert kept["start"] > 781
    assert any("at risk before tick" in caveat for caveat in found["caveats"])
    points = {p["tick"]: p for p in kept["curve"]}
    assert points[777]["survival"] is None
    assert points[777]["why"]
    assert points[869]["survival"] > 0.5


@pytest.mark.parametrize(("age", "expected"), [(85, 0.7125), (90, 0.3492)])
def test_men_alive_at_eighty(run, loaded, age, expected):
    """Conditional on being alive at 80 years: S(85) = .7125, S(90) = .3492 (R survival).

    At 80 years 30 men or more are at risk, before never: so the start is asked for by that."""
    men = front_door.channing_men()
    later = [
        front_door.Interval(m.athlete, max(m.start, 960), m.stop, m.event, False)
        for m in men
        if m.stop > 960
    ]
    found = ask_games(run, loaded(f"eighty{age}", later), "--clock", "season-games")
    (kept,) = (g for g in found["groups"] if g["group"] == "unguarded")
    known = [p for p in kept["curve"] if p["tick"] <= age * 12 and p["survival"] is not None]
    assert known[-1]["survival"] == approx(expected, abs=5e-5)
