"""What each answer asks to keep in mind, and what it says of the scope it was asked for."""

from datetime import date

import pytest

from seasonboard.answers.base import CAUTION
from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.errors import ScopeError
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import drawn

SIX = "A B C E F H"
MIXED = f"""
        {SIX}
    G1  g    g    .    .    .    .
    G2  g    g!   .    .    .    .!
    G3  g    o    .    .!   .    o
"""


def scope(board, **asked):
    return read_scope({"kind": "chest"} | asked, board.scope_values)


def caveats(answer, word):
    return [caveat for caveat in answer.summary.caveats if word in caveat]


def test_every_answer_says_that_it_is_no_advice(board):
    this = board(MIXED)
    for answer in (this.ask(COMPARE, scope(this)), this.ask(GAMES, scope(this))):
        assert answer.summary.caveats[0] == CAUTION
    assert "does not show that a guard prevents injury" in CAUTION


def test_kinds_put_together_are_named_only_when_several_were_made(board):
    this = board(f"""
            {SIX}
        G1  g    x    .    .    .    .
    """)
    everything = read_scope({}, this.scope_values)
    told = caveats(this.ask(COMPARE, everything), "kinds of guard together")
    assert told == caveats(this.ask(GAMES, everything), "kinds of guard together")
    assert told
    assert told[0].startswith("Puts 2 kinds of guard together")
    for kind in ("chest", "chest,knee"):  # no guard for the knee was made
        assert not caveats(this.ask(COMPARE, scope(this, kind=kind)), "together")


def test_both_purposes_together_are_never_the_headline(board):
    this = board(MIXED)
    for question in (COMPARE, GAMES):
        assert caveats(this.ask(question, scope(this, purpose="all")), "never the headline")
        assert not caveats(this.ask(question, scope(this)), "never the headline")


def test_the_position_group_whose_share_differs_most_is_named(board):
    """Half of the guarded ticks are the backs', a third of the bare ones."""
    grid = """
            A    B    C    E    F
        G1  g    g    .    .    .
    """
    roster = {a: {"position_group": "back" if a in "AC" else "wing"} for a in "ABCEF"}
    this = board(grid, roster=roster)
    (told,) = caveats(this.ask(GAMES, scope(this)), "different mixes of athletes")
    assert "position group “back” makes up 50 % of what is guarded and 33 % of what is bare" in told


@pytest.mark.parametrize("groups", ["same", "none"])
def test_no_imbalance_is_told_where_groups_are_alike_or_not_recorded(board, groups):
    grid = """
            A    B    C    E
        G1  g    g    .    .
    """
    roster = {a: {"position_group": "back" if a in "AC" else "wing"} for a in "ABCE"}
    this = board(grid, roster=roster if groups == "same" else {})
    assert not caveats(this.ask(GAMES, scope(this)), "different mixes")


def test_a_curve_that_starts_late_says_so(board):
    """Two guards at first, three from the second game on: the curve starts there."""
    this = board(f"""
            {SIX}
        G1  g    g    .    .    .    .
        G2  g    g    g    .    .    .
        G3  g    g    g    .    .    .!
    """)
    late = this.ask(GAMES, scope(this), GamesOptions(min_at_risk=3))
    (told,) = caveats(late, "that curve starts there")
    assert told.startswith("Fewer than 3 guarded sites were at risk before tick 2")
    assert late.guarded.curve.start == 2
    assert late.guarded.curve.points[0].survival is None
    early = this.ask(GAMES, scope(this), GamesOptions(min_at_risk=2))
    assert not caveats(early, "that curve starts there")


def test_the_same_session_ratio_says_how_many_injuries_it_rests_on(board):
    """Only the injury in the game with both guarded and bare sites informs it."""
    this = board("""
            A    B    C
        G1  g    .!   .
        G2  g    o    -
        G3  o    o    .!
    """)
    (told,) = caveats(this.ask(COMPARE, scope(this)), "rests on")
    assert told.startswith("The same-session ratio rests on 1 of 2 injuries")


def test_a_crude_ratio_that_points_the_other_way_is_told_in_the_answer(board):
    """Guards are worn where more is hurt: crude says more, within sessions it is less."""
    names = [f"A{n}" for n in range(24)]
    risky = ["g!"] * 5 + ["g"] * 7 + [".!"] * 6 + ["."] * 2 + ["o"] * 4
    quiet = ["o"] * 5 + ["g"] * 1 + ["o"] * 12 + ["."] * 6
    lines = [" ".join(names), " ".join(["G1", *risky]), " ".join(["P2", *quiet])]
    lines += [" ".join([f"P{n}", *["o"] * 20, *["."] * 4]) for n in range(3, 12)]
    this = board("\n".join(lines))
    answer = this.ask(COMPARE, scope(this))
    crude, same = answer.comparison("crude").ratio, answer.comparison("same session").ratio
    assert crude.value > 1 > same.value
    assert "points the other way" in answer.summary.answer


def test_a_clock_of_games_refuses_a_scope_of_practices(board):
    this = board(MIXED)
    for clock in (Clock.GAMES, Clock.SEASON_GAMES):
        with pytest.raises(ScopeError, match="No practice ticks the clock"):
            this.ask(GAMES, scope(this, setting="practices"), GamesOptions(clock))
    sessions = this.ask(GAMES, scope(this, setting="practices"), GamesOptions(Clock.SESSIONS))
    assert sessions.guarded.ticks == 0


@pytest.mark.parametrize("options", [GamesOptions(min_at_risk=0), GamesOptions(horizon=0)])
def test_an_option_that_makes_no_sense_is_refused(board, options):
    this = board(MIXED)
    with pytest.raises(ScopeError):
        this.ask(GAMES, scope(this), options)


def test_text_from_the_data_is_shown_letter_for_letter(board):
    plain = drawn(MIXED)
    for row in plain.roster:
        row["position_group"] = "[/x] Lee" if row["athlete"] in "AB" else "回転"
    this = board(plain)
    answer = this.ask(GAMES, scope(this))
    (told,) = caveats(answer, "different mixes")
    assert "[/x] Lee" in told or "回転" in told
    assert told.split()[0] in GAMES.report().as_text(answer)


def test_an_empty_scope_and_a_whole_one_are_told_apart(board):
    this = board(MIXED)
    last = this.scope_values.last_day
    assert this.ask(COMPARE, scope(this)).summary.scope.through == last
    early = this.ask(COMPARE, scope(this, through="2026-08-01"))
    assert early.summary.scope.through == date(2026, 8, 1)
    assert early.summary.answer.startswith("Nothing to compare yet: nobody is recorded")


def test_the_board_opens_on_every_kind_that_was_made(board):
    this = board("""
            A    B    C
        G1  g    g    x
    """)
    assert this.scope_values.kinds_made == ("chest", "vest")
    assert this.opening_scope().kinds == ("chest", "vest")
    assert read_scope({}, this.scope_values).kinds == ("chest", "vest")


def test_without_any_guard_made_every_kind_is_studied(board):
    this = board(build.Season())
    assert this.scope_values.is_empty
    assert this.scope_values.kinds_made == ()
    opening = this.opening_scope()
    assert {"chest", "shin"} <= set(opening.kinds)
