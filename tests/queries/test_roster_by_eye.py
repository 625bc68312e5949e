"""The roster's questions on seasons small enough to check by eye."""

from datetime import datetime, time

from seasonboard.store.catalogue import catalogue
from tests.queries import asking, build
from tests.queries.build import day, drawn, injury, stamp
from tests.queries.test_roster_against_loops import read


def states(store, number):
    """Return {athlete: (status, because, strip as letters)} through a day."""
    rows = read(store, "roster/places", asking.scope(day(number))).to_dicts()
    letters = {"full": "f", "limited": "l", "out": "o", "not recorded": "-", None: " "}
    return {
        row["athlete"]: (row["status"], row["because"], "".join(letters[p] for p in row["parts"]))
        for row in rows
    }


def test_the_last_record_is_the_state_and_an_open_injury_goes_before_it(load):
    """B is hurt on day 2 and not back; C was hurt and returned on day 4, after the last session."""
    season = drawn(
        """
            A    B    C    E    F
        P1  .    .    .    o    -
        P2  l    .*   .    -    -
        P3  .    o    o    -    -
        """,
        injuries=[injury("c", "C", day(2), returned_on=day(4))],
    )
    store = load(season)
    assert states(store, 4) == {
        "A": ("full", None, "flf"),
        "B": ("out", "injury", "ffo"),
        "C": ("full", "returned", "ffo"),
        "E": ("out", "no reason recorded", "o--"),
        "F": ("not recorded", None, "---"),
    }
    assert states(store, 3)["C"] == ("out", "injury", "ffo"), "the return is not known yet"
    assert states(store, 2)["A"] == ("limited", "no reason recorded", "fl")


def test_a_session_after_the_onset_may_say_limited_and_one_that_says_full_contradicts(load):
    season = drawn("""
            A    B    C
        P1  .*   .*   .*
        P2  l    .    -
    """)
    assert states(load(season), 2) == {
        "A": ("limited", "injury", "fl"),
        "B": ("limited", "full part despite an open injury", "ff"),
        "C": ("out", "injury", "f-"),
    }


def test_an_injury_that_was_reported_later_is_not_known_before(load):
    late = injury("late", "A", day(1), reported_on=day(3))
    store = load(drawn("   A\nP1  .\nP2  .", injuries=[late]))
    assert states(store, 2)["A"] == ("full", None, "ff")
    assert states(store, 3)["A"][:2] == ("limited", "full part despite an open injury")


def test_who_joins_later_or_left_is_told_apart(load):
    roster = {"A": {"joined_on": day(2)}, "B": {"left_on": day(1)}}
    store = load(drawn("   A  B  C\nP1  -  .  .\nP2  .  -  .", roster=roster))

    def here(number):
        rows = read(store, "roster/places", asking.scope(day(number)))
        return dict(rows.select("athlete", "here").iter_rows())

    assert here(0) == {"A": "not yet", "B": "yes", "C": "yes"}
    assert here(1)["B"] == "left", "the last day on the roster is over"
    assert here(2) == {"A": "yes", "B": "left", "C": "yes"}
    assert states(store, 2)["A"][2] == " f"


def test_worn_since_fitted_counts_sessions_taken_part_in_after_the_fitting(load):
    """Fitted on day 2 after that session: of days 3 to 6 taken part in, worn on one."""
    season = drawn("""
            A
        P1  .
        P2  .
        P3  g
        P4  o
        P5  .
        P6  .
        P7  .
    """)
    season.stages = [stamp("g-A", "requested", 1), stamp("g-A", "fitted", 2, 15)]
    (row,) = read(load(season), "roster/guards", asking.scope(day(7))).to_dicts()
    found = (row["state"], row["taken_part"], row["worn"], row["worn_lately"], row["worn_ever"])
    assert found == ("fitted", 4, 1, 0, 1)


def test_a_guard_worn_when_its_site_was_hurt_is_told_until_it_is_worn_again(load):
    store = load(drawn("   A\nG1  g*\nP2  .\nP3  g"))

    def hurt_on(number):
        rows = read(store, "roster/guards", asking.scope(day(number))).to_dicts()
        return rows[0]["hurt_on"]

    assert (hurt_on(1), hurt_on(2), hurt_on(3)) == (day(1), day(1), None)


def test_a_remake_is_told_once_it_is_asked_for_and_replaces_once_it_is_fitted(load):
    season = drawn("   A\nP1  g\nP2  .\nP3  .")
    season.guards.append(build.guard("new", "A", remake_of="g-A", remake_reason="fit"))
    season.stages = [
        stamp("g-A", "fitted", 1), stamp("new", "requested", 2), stamp("new", "fitted", 3),
    ]  # fmt: skip
    store = load(season)

    def old(number):
        rows = read(store, "roster/guards", asking.scope(day(number))).to_dicts()
        told = next(row for row in rows if row["guard"] == "g-A")
        return told["remade_by"], told["is_replaced"]

    assert [old(number) for number in (1, 2, 3)] == [(None, False), ("new", False), ("new", True)]


def test_each_rostered_athlete_of_a_session_is_in_one_state(load):
    """Twelve rostered: 2 full, 2 limited of whom 1 ill, 5 out, 3 not recorded; one not listed."""
    season = drawn("   A  B  C  E  F  H  I  J  K  L  M  N\nG1  .  .  l  l  o  o  o  o  o  -  -  -")
    reasons = {"C": "illness", "E": "personal", "F": "injury", "H": "illness", "I": "selection"}
    for row in season.attendance:
        row["reason"] = reasons.get(row["athlete"])
    season.roster.append(build.member("Z", team="U"))
    season.teams.append(build.team("U"))
    season.attendance.append({"session": "G1", "athlete": "Z", "part": "full"})
    (row,) = read(load(season), "roster/sessions", asking.scope(teams=["T"])).to_dicts()
    assert {name: n for name, n in row.items() if isinstance(n, int) and n} == {
        "rostered": 12, "full_part": 2, "limited_health": 1, "limited_other": 1, "out_injury": 1,
        "out_illness": 1, "out_other": 1, "out_unknown": 2, "not_recorded": 3, "unlisted": 1,
        "exposures": 5,
    }  # fmt: skip


def test_the_first_and_last_day_on_the_roster_belong_to_it(load):
    roster = {"A": {"joined_on": day(2)}, "B": {"left_on": day(2)}}
    season = drawn("   A  B\nP1  .  .\nP2  .  .\nP3  .  .", roster=roster)
    rows = read(load(season), "roster/sessions", asking.scope()).to_dicts()
    assert [(r["rostered"], r["unlisted"]) for r in rows] == [(1, 1), (2, 0), (1, 1)]


def test_injuries_belong_to_a_season_by_their_session_or_by_their_day(load):
    season = drawn("   A\nG1  .!\nP5  .", injuries=[
        injury("in", "A", day(3)), injury("before", "A", day(-5), returned_on=day(-1)),
        injury("after", "A", day(9)),
    ])  # fmt: skip
    season.sessions[1]["starts_at"] = datetime.combine(day(5), time(12))
    rows = read(load(season), "roster/injuries", asking.scope(day(9))).to_dicts()
    assert {r["injury"]: (r["belongs"], r["in_session"], r["days_lost"]) for r in rows} == {
        "A-G1!": ("outside the season", "yes", 8),
        "in": ("yes", "no session recorded", 6),
        "before": ("outside the season", "no session recorded", 3),
        "after": ("outside the season", "no session recorded", 0),
    } | {"A-G1!": ("yes", "yes", 8)}


def test_the_next_game_is_the_first_without_attendance(load):
    """On the day of a game it is the next one until someone's attendance is recorded."""
    season = drawn("   A\nG1  .\nP2  .\nG3  -\nG5@5  -")
    store = load(season)

    def next_game(number):
        (row,) = read(store, "roster/teams", asking.scope(day(number))).to_dicts()
        return row["next_session"], row["held"]

    assert [next_game(n) for n in (1, 2, 3, 4, 5, 6)] == [
        ("G3", 1), ("G3", 2), ("G3", 3), ("G5", 3), ("G5", 4), (None, 4),
    ]  # fmt: skip


def test_like_injuries_count_every_athlete_and_keep_open_ones_apart(load):
    season = drawn("   A  B\nP1  .*  .!\nP2  .  .?")
    rows = read(load(season), "roster/like_injuries", asking.scope(day(20))).rows()
    assert rows == [("chest", 9, 1, 0), ("chest", 19, 0, 1)], "no day lost is not among them"


def test_a_timeline_has_every_entry_in_order_of_time(load):
    season = drawn("   A\nP1  .\nP2  g!\nP3  o", roster={"A": {"joined_on": day(1)}})
    season.stages = [stamp("g-A", "requested", 1, 8), stamp("g-A", "fitted", 2, 8)]
    season.offers = [
        {"offer": "o1", "athlete": "A", "kind": "chest", "offered_on": day(1), "answer": "accepted"}
    ]
    store = load(season)
    wanted = set(catalogue()["roster/timeline"].params) - {"athlete", "until"}
    asked = {name: asking.OPEN[name] for name in wanted}

    def told(number):
        rows = store.read("roster/timeline", athlete="A", until=day(number + 1), **asked)
        return [(r["what"], r["word"]) for r in rows.to_dicts()]

    first = [
        ("joined", "2026"), ("stage", "requested"), ("session", "full"), ("offer", "accepted"),
    ]  # fmt: skip
    second = [("stage", "fitted"), ("session", "full"), ("injury", "chest")]
    assert told(1) == first
    assert told(2) == first + second
    assert told(12) == [*first, *second, ("session", "out"), ("return", "chest")]
