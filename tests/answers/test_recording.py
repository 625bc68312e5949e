"""What Compare and Games say where wear may be missing: nothing lost makes a benefit."""

import pytest

from seasonboard.answers.questions import COMPARE, GAMES
from tests.queries.build import at, day, drawn, guard, injury, member, session, stamp

QUESTION = COMPARE
SCOPE = {"kind": "chest"}
UNKNOWN = "nobody recorded whether the guard was worn"


def even_season(*, lost: int, denied: bool):
    """Return 28 games with four guarded and four bare athletes each, one hurt: 14 and 14.

    In every game others play, so that nobody was hurt before. `lost` of the guarded injured have
    no row of wear; `denied`: somebody wrote “no” of a guard before the first game.
    """
    season = drawn("Z\nP1 .")
    for n in range(28):
        season.sessions.append(session(f"G{n:02}", day(2 + n)))
        for k in range(8):
            who = f"{n:02}-{k}"
            season.roster.append(member(who))
            season.attendance.append({"session": f"G{n:02}", "athlete": who, "part": "full"})
            is_hurt = k == (0 if n % 2 else 4)
            if is_hurt:
                cells = {"session": f"G{n:02}", "returned_on": day(20 + n)}
                season.injuries.append(injury(f"I{n:02}", who, day(2 + n), **cells))
            if k < 4:
                season.guards.append(guard(f"g-{who}", who))
                season.stages.append(stamp(f"g-{who}", "fitted", at(0)))
                if not (is_hurt and n // 2 < lost):
                    season.wear.append({"session": f"G{n:02}", "guard": f"g-{who}"})
    season.guards.append(guard("g-Z", "Z"))
    if denied:
        season.wear.append({"session": "P1", "guard": "g-Z", "worn": "no"})
    return season


def ratio(answer) -> tuple[int, int, str]:
    headline = answer.comparison("same session").ratio
    return headline.injuries_guarded, headline.injuries_unguarded, answer.verdict


def test_lost_rows_of_the_injured_are_not_known_and_make_no_benefit(ask):
    """Seven of fourteen guarded injuries have no row: read as bare they would be a benefit."""
    assert ratio(ask(even_season(lost=0, denied=True)))[:2] == (14, 14)
    answer = ask(even_season(lost=7, denied=True))
    assert ratio(answer) == (7, 14, "no difference shown yet")
    told = {(one.what, one.why): one.count for one in answer.summary.left_out}
    assert told["injuries", UNKNOWN] == told["site-exposures", UNKNOWN] == 7
    assert (
        "In 7 sessions nobody recorded of some owners whether the guard was worn; these exposures "
        "are in neither group."
    ) in answer.summary.caveats


@pytest.mark.parametrize("question", [COMPARE, GAMES], ids=lambda one: one.name)
def test_where_nobody_said_anything_it_is_told_what_is_assumed(board, question):
    this = board(even_season(lost=7, denied=False))
    caveats = this.ask(question, this.opening_scope()).summary.caveats
    assert (
        "Of 28 sessions with owners of a guard nobody said that wear was recorded for everybody; "
        "it is assumed. A record that was lost there counts as bare."
    ) in caveats


@pytest.mark.parametrize("question", [COMPARE, GAMES], ids=lambda one: one.name)
def test_where_all_sessions_are_complete_nothing_is_said(board, question):
    season = even_season(lost=0, denied=False)
    for one in season.sessions:
        one["wear_complete"] = "yes"
    this = board(season)
    caveats = this.ask(question, this.opening_scope()).summary.caveats
    assert not [one for one in caveats if "recorded" in one and "owners" in one]


def test_the_same_lost_rows_taken_for_bare_read_as_hurt_less_often(ask):
    """What is assumed where nobody said anything, and why it is told: nothing was planted."""
    answer = ask(even_season(lost=7, denied=False))
    assert ratio(answer) == (7, 21, "guarded sites were hurt less often")
