"""What follows injuries that cost time, in small seasons that can be checked by eye."""

from collections import Counter, defaultdict
from datetime import timedelta

import pytest
from hypothesis import given

from tests.queries.asking import put
from tests.queries.build import day, drawn, guard, injury, stamp
from tests.queries.seasons import scopes, seasons
from tests.queries.test_queries_against_loops import MODEST, loaded

RETURNING = """
        A    B    C    D
    G1  .!   .!   .    .!
    G4@4  o    o    .    o
    G12@12 .   r    .    o
    P13@13 r   r    .    o
    G14@14 r   .!   .    o
    G20@20 .   -    .    o
"""


def season():
    """A comes back bare and is guarded a day later; B comes back guarded and is hurt again.

    Both were out on days 2 to 10. D is out for good; the return guards came on days 12 and 6.
    """
    made = drawn(RETURNING)
    made.injuries = [
        one | {"returned_on": None} if one["athlete"] == "D" else one for one in made.injuries
    ]
    made.stages = [
        *(stamp("r-A", "requested", 3), stamp("r-A", "fitted", 12)),
        *(stamp("r-B", "requested", 2), stamp("r-B", "fitted", 6)),
    ]
    return made


def test_each_injury_has_its_guard_its_days_and_what_came_after(load):
    rows = {
        row["injury"]: row for row in put(load(season()), "return/episodes").iter_rows(named=True)
    }
    assert list(rows) == ["A-G1!", "B-G1!", "D-G1!", "B-G14!"]
    a, b, d = rows["A-G1!"], rows["B-G1!"], rows["D-G1!"]
    assert (a["days_lost"], a["games_missed"], a["guard"], a["back_in"]) == (9, 1, "r-A", "bare")
    assert [a[f"{name}_on"] for name in ("requested", "fitted", "game")] == [
        day(3),
        day(12),
        day(14),
    ]
    assert (b["in_hand_on"], b["back_in"], b["again_on"]) == (day(6), "guarded", day(14))
    assert (d["is_open"], d["guard"], d["games_missed"], d["returned_on"]) == (True, None, 4, None)
    assert a["again_on"] is None


def test_on_each_day_out_the_guard_counts_from_the_day_it_is_fitted(load):
    rows = put(load(season()), "return/back", until=day(15)).iter_rows(named=True)
    found = {row["day"]: tuple(row.values())[2:] for row in rows}
    assert found[4] == (0, 0, 0, 3), "nobody has one in hand yet"
    assert found[5] == (0, 0, 1, 2), "B's was fitted on day 6, five days after"
    assert found[10] == (1, 1, 1, 2), "A came back bare and B guarded"
    assert found[11] == (0, 0, 0, 1), "D is still out; A's guard came after the return"
    assert max(found) == 13


def test_states_change_with_what_is_worn_and_end_where_the_site_is_hurt_again(load):
    rows = put(load(season()), "return/spells").rows()
    assert Counter({row[:5]: row[5] for row in rows if row[0] == "games"}) == {
        ("games", "out", 0, 1, "bare"): 1,  # A misses G4
        ("games", "bare", 1, 2, "guarded"): 1,  # A plays G12 bare
        ("games", "guarded", 2, 3, "bare"): 1,  # A plays G14 guarded
        ("games", "bare", 3, 4, None): 1,  # A plays G20 bare
        ("games", "out", 0, 1, "guarded"): 1,  # B misses G4
        ("games", "guarded", 1, 2, "bare"): 1,  # B plays G12 guarded
        ("games", "bare", 2, 3, "hurt again"): 1,  # B is hurt in G14, bare
        ("games", "out", 0, 1, None): 1,  # B's second injury: G20 is still missed
        ("games", "out", 0, 4, None): 1,  # D is out for good
    }
    assert {row[1:] for row in rows if row[0] == "days" and row[4] is not None} == {
        ("out", 0, 9, "bare", 3),  # whoever is back is bare until a guard is worn
        ("bare", 9, 11, "guarded", 1),  # A wears it from day 13 on
        ("guarded", 11, 18, "bare", 1),  # A is bare on day 20
        ("bare", 9, 10, "guarded", 1),  # B wears it on days 12 and 13
        ("guarded", 10, 12, "bare", 1),
        ("bare", 12, 13, "hurt again", 1),  # B on day 14
    }


def test_hurt_again_is_counted_by_what_was_worn_then(load):
    rows = put(load(season()), "return/again").rows(named=True)
    sums = Counter()
    for row in rows:
        assert (row["days_out"], row["recurrence"]) == ("8–28 days", "early")
        sums.update({name: n for name, n in row.items() if isinstance(n, int)})
    assert (sums["injuries_guarded"], sums["injuries_unguarded"]) == (0, 1)
    assert (sums["exposures_guarded"], sums["exposures_unguarded"]) == (4, 3)


def test_games_in_return_guards_are_athletes_games(load):
    rows = put(load(season()), "return/games_worn").rows()
    assert rows == [("D", 2, 2, 2)]


def test_a_guard_asked_for_after_two_injuries_belongs_to_the_later(load):
    made = drawn("    A\nG1 .\nG30@30 .")
    made.injuries = [
        injury("I1", "A", day(2), returned_on=day(6)),
        injury("I2", "A", day(10), returned_on=day(25)),
    ]
    made.guards = [guard("R", "A", purpose="return"), guard("S", "A", purpose="return")]
    made.stages = [
        stamp("R", "requested", 11),
        stamp("S", "requested", 12),
        stamp("S", "fitted", 20),
    ]
    rows = put(load(made), "return/episodes").rows(named=True)
    assert [(r["injury"], r["guard"], r["in_hand_on"]) for r in rows] == [
        ("I1", None, day(20)),
        ("I2", "R", day(20)),
    ]


def test_without_a_side_or_a_season_an_injury_is_left_out_and_told(load):
    made = drawn("    A\nG1 .\nG30@30 .")
    made.injuries = [
        injury("I1", "A", day(-40), returned_on=day(-30)),
        injury("I2", "A", day(3), area="hand", side=None),
        injury("I3", "A", day(3), returned_on=day(4)),
    ]
    asked = {"kinds": ["chest", "thumb"]}
    assert put(load(made), "return/episodes", **asked).is_empty(), "I3 cost no day"
    assert put(load(made), "return/left_out", **asked).rows() == [
        ("injuries", "in no season of a team in scope", 1),
        ("injuries", "side not recorded", 1),
    ]


@pytest.mark.long
@MODEST
@given(season=seasons(), parts=scopes())
def test_states_of_random_seasons_follow_each_other_without_a_gap(season, parts):
    """Every stretch but the first begins where one of the state before ends; at a tick as many
    begin a state as pass into it; whoever is out is counted once a day until the return."""
    with loaded(season) as store:
        rows = put(store, "return/spells", **parts).rows()
        begun, passed = Counter(), Counter()
        for clock, state, entry, leaving, after, number in rows:
            assert leaving > entry
            assert after != state
            begun[clock, state, entry] += number if entry else 0
            if after not in {None, "hurt again"}:
                passed[clock, after, leaving] += number
        assert begun == passed
        episodes = put(store, "return/episodes", **parts).rows(named=True)
        out = defaultdict(int)
        for one in episodes:
            last = one["returned_on"] or parts["until"] - timedelta(days=1)
            for number in range(1, (last - one["occurred_on"]).days + 1):
                out[one["area"], number] += 1
        back = put(store, "return/back", **parts).rows(named=True)
        assert {
            (r["area"], r["day"]): r["exposures_guarded"] + r["exposures_unguarded"] for r in back
        } == out
        returned = sum(r["injuries_guarded"] + r["injuries_unguarded"] for r in back)
        assert returned == sum(not one["is_open"] for one in episodes)
        again = put(store, "return/again", **parts).rows(named=True)
        assert sum(r["injuries_guarded"] + r["injuries_unguarded"] for r in again) <= sum(
            one["again_on"] is not None for one in episodes
        ) * (2 if parts["kinds"] else 1)
