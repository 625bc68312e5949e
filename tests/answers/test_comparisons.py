"""The five comparisons, the peek-proof ratio and what is still needed, in words and JSON."""

from datetime import date

import polars as pl
from pytest import approx

from seasonboard.answers.compare.comparisons import other_side, same_athlete
from seasonboard.answers.compare.verdict import DISAGREE
from seasonboard.answers.questions import COMPARE
from seasonboard.scope import read_scope
from tests.answers.wording import plain
from tests.queries import build
from tests.queries.build import Season, day

COURSES = {
    "athlete_no": pl.Int32, "athlete": pl.String, "area": pl.String, "side": pl.String,
    "sport": pl.String, "position_group": pl.String, "setting": pl.String, "block": pl.Int64,
    "asked_after": pl.Boolean, "injuries_guarded": pl.Int64, "injuries_unguarded": pl.Int64,
    "exposures_guarded": pl.Int64, "exposures_unguarded": pl.Int64,
}  # fmt: skip
BARE = {
    "area": pl.String, "sport": pl.String, "position_group": pl.String, "setting": pl.String,
    "block": pl.Int64, "injuries": pl.Int64, "exposures": pl.Int64,
}  # fmt: skip
CELL = ("soccer", "back", "game", 700)


def compared(this, **asked):
    return this.ask(COMPARE, read_scope({"kind": "chest"} | asked, this.scope_values))


def named(answer, name):
    return next(
        c
        for c in COMPARE.report().as_object(answer, "compare")["comparisons"]
        if c["comparison"] == name
    )


def frame(schema, *rows):
    return pl.DataFrame(list(rows), schema=schema, orient="row")


def test_games_needed_without_a_game_to_go_by_say_why(board):
    """Practices only: exposures are needed, but no game gives a pace."""
    this = board("""
            A    B    C
        P1  .    .!   g
        P2  .    .    g
    """)
    sample_needed = COMPARE.report().as_object(compared(this), "compare")["needed"]
    assert sample_needed["guarded_exposures"] > 2
    assert sample_needed["games"] is None
    assert sample_needed["why"]


def test_games_needed_are_exposures_needed_at_the_pace_so_far(board):
    this = board("""
            A    B    C
        G1  .    .!   g
        G2  .    .    g
    """)
    answer = compared(this)
    more = answer.sample_size.more_guarded
    assert more > 0
    assert answer.games_needed == more, "one guarded exposure a game"


NO_GUARDED_INJURY = """
        A    B    C    E
    G1  .!   .    g    g
    G2  .    .!   g    g
"""


def test_without_a_guarded_injury_the_ratio_is_zero_with_an_upper_limit(board):
    answer = compared(board(NO_GUARDED_INJURY))
    for name in ("same session", "alike athletes", "crude"):
        found = named(answer, name)
        assert (found["rate_ratio"], found["low"]) == (0, 0)
        assert found["high"] > 1
        assert found["clustered"]["low"] is None
        assert "no injury in one of the groups" in found["clustered"]["why"]
    assert answer.summary.answer.startswith("Too few injuries to tell")


def test_without_a_bare_injury_there_is_no_upper_limit_yet(board):
    found = named(compared(board(NO_GUARDED_INJURY.translate(str.maketrans(".g", "g.")))), "crude")
    assert found["rate_ratio"] is None
    assert found["low"] > 0
    assert found["high"] is None
    assert found["why"]


def test_a_single_informative_stratum_has_mid_p_limits(board):
    found = named(compared(board("""
            A    B    C    E
        G1  .!   .    g!   g
        G2  -    .    -    g
    """)), "same session")  # fmt: skip
    assert found["informative_strata"] == 1
    assert found["method"] == "mid-P, exact conditional"
    assert found["rate_ratio"] == approx(1)
    assert found["low"] < 1 < found["high"]


def test_no_informative_stratum_is_said_in_words(board):
    """Guarded and bare never met in one session, nobody wore one and none, nobody one of two."""
    answer = compared(
        board("""
            A    B
        G1  .!   -
        G2  -    g!
    """)
    )
    for name in ("same session", "same athlete", "other side"):
        found = named(answer, name)
        assert found["informative_strata"] == 0
        assert found["rate_ratio"] is None
        assert plain(found["why"])
    assert "no ratio can be told" in answer.summary.answer


WATCHED = """
          A    B    C    E    F
    G1@7  .!   .    g    g    .
    G2@8  .    .!   g    g    .
    G3@14 .    .    g!   g    .
    G4@28 .    .    g    g!   .
"""


def test_the_peek_proof_ratio_by_weeks_ends_where_it_stands_now(board):
    """Day 7 is Monday 7 September 2026: two games with injuries in that week, one in the next,
    none in the third, one in the fourth."""
    answer = compared(board(WATCHED))
    found = COMPARE.report().as_object(answer, "compare")
    weeks = found["peek_proof_by_week"]
    assert [week["week"] for week in weeks] == ["2026-09-07", "2026-09-14", "2026-09-28"]
    assert [week["injuries"] for week in weeks] == [2, 3, 4]
    assert {k: v for k, v in weeks[-1].items() if k != "week"} == found["peek_proof"]
    assert answer.watched.now == answer.watched.looks[-1].state


def test_each_look_is_what_a_look_at_that_week_would_have_shown(board):
    """Rewinding the board to the end of a week gives that week's state."""
    this = board(WATCHED)
    looks = compared(this).watched.looks
    assert looks[0].week == date(2026, 9, 7)
    assert compared(this, through="2026-09-13").watched.now == looks[0].state
    assert compared(this, through="2026-09-20").watched.now == looks[1].state


def test_without_an_injury_the_peek_proof_ratio_is_not_known_and_says_so(edge_board):
    found = COMPARE.report().as_object(compared(edge_board("no injuries")), "compare")
    assert found["peek_proof_by_week"] == []
    assert found["peek_proof"]["rate_ratio"] is None
    assert found["peek_proof"]["why"]


def test_one_athlete_who_was_hurt_guarded_and_bare_gives_the_ratio_by_exposures():
    """One kind of session: expectations are alike, so 1/10 against 2/30 is 1.5."""
    row = (1, "A", "chest", "midline", *CELL, False, 1, 2, 10, 30)
    found = same_athlete(frame(COURSES, row), frame(BARE, ("chest", *CELL, 5, 100)), 0.95)
    assert found.ratio.value == approx(1.5)
    assert (found.ratio.exposures_guarded, found.ratio.exposures_unguarded) == (10, 30)
    assert found.clustered.why == "a single athlete informs it"


def test_the_seasons_course_does_not_pass_for_the_guard():
    """Preseason is five times as dense, the guard came after it: raw exposures would say 0.2."""
    early, late = ("soccer", "back", "game", 700), ("soccer", "back", "game", 701)
    courses = frame(
        COURSES,
        *(
            row
            for n in range(40)
            for row in (
                (n, f"A{n:02}", "chest", "midline", *early, False, 0, 5, 0, 100),
                (n, f"A{n:02}", "chest", "midline", *late, False, 1, 0, 100, 0),
            )
        ),
    )
    bare = frame(BARE, ("chest", *early, 500, 10000), ("chest", *late, 100, 10000))
    found = same_athlete(courses, bare, 0.95).ratio
    assert found.value == approx(1, abs=0.02)
    raw = (40 / 4000) / (200 / 4000)
    assert raw == approx(0.2)


def test_sites_asked_for_after_an_injury_are_set_aside_and_counted():
    rows = [
        (1, "A", "chest", "midline", *CELL, False, 1, 2, 10, 30),
        (2, "B", "chest", "midline", *CELL, True, 9, 0, 10, 30),
    ]
    found = same_athlete(frame(COURSES, *rows), frame(BARE, ("chest", *CELL, 5, 100)), 0.95)
    assert found.ratio.value == approx(1.5)
    assert found.set_aside == (("sites whose guard was asked for after an injury to them", 1),)


def test_the_answer_says_which_sites_same_athlete_sets_aside(board):
    answer = compared(
        board("""
            A    B
        G1  .!   .
        G2  g!   .
    """)
    )
    summary = [caveat for caveat in answer.summary.caveats if caveat.startswith("Same athlete")]
    assert summary == [
        "Same athlete sets 1 site aside: sites whose guard was asked for after an injury to them."
    ]


def test_the_other_side_is_a_binomial_of_the_pairs_that_differ():
    """3 guarded against 9 bare: the ratio is 1/3; pairs without an injury add nothing to it."""
    schema = {
        "area": pl.String, "athlete_no": pl.Int32, "athlete": pl.String,
        "injuries_guarded": pl.Int64, "injuries_unguarded": pl.Int64, "pairs": pl.Int64,
    }  # fmt: skip
    rows = [("knee", n, f"A{n:02}", int(n < 3), int(n >= 3), 1) for n in range(12)]
    found = other_side(frame(schema, *rows, ("knee", None, None, 0, 0, 500)), 0.95)
    assert found.ratio.value == approx(1 / 3)
    assert (found.ratio.strata, found.ratio.informative_strata) == (512, 12)
    assert found.ratio.exact.p == approx(2 * sum((1, 12, 66, 220)) / 2**12)
    assert [s.label for s in found.strata[:2]] == ["A00 · knee", "A01 · knee"]


def opposed() -> Season:
    """Return a season whose sessions say less often and whose kinds of athletes say more often.

    In the odd sessions 20 wear a guard and 1 of them is hurt, the only bare one is hurt too: in
    the same session the bare are hurt far more. In the even ones 100 play bare and nobody is hurt,
    which no session compares with anything but the fortnight as a whole does.
    """
    season = Season()
    for number in range(1, 13):
        guarded, unguarded = (20, 1) if number % 2 else (0, 100)
        key = f"G{number}"
        season.sessions.append(build.session(key, day(min(number, 6))))
        for n in range(guarded + unguarded):
            who = f"{key}-{n}"
            season.roster.append(build.member(who))
            season.attendance.append({"session": key, "athlete": who, "part": "full"})
            if n < guarded:
                season.guards.append(build.guard(f"g-{who}", who))
                season.wear.append({"session": key, "guard": f"g-{who}"})
            if guarded and n in {0, guarded}:
                on = day(min(number, 6))
                season.injuries.append(build.injury(f"i-{who}", who, on, session=key))
    return season


def test_alike_athletes_wholly_on_the_other_side_is_a_disagreement(board):
    answer = compared(board(opposed()))
    headline, alike = (answer.comparison(n).ratio for n in ("same session", "alike athletes"))
    assert headline.high < 1 < alike.low
    assert answer.verdict == DISAGREE
    assert answer.summary.answer.startswith("The comparisons disagree: 6 guarded, 6 bare.")
