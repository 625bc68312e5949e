"""The roster answer: words, order, guards' states, and what it does at the edges."""

from datetime import datetime, time

from seasonboard.answers.roster.answer import roster
from seasonboard.answers.roster.parts import ATTENTION, GuardState
from seasonboard.answers.roster.report import REPORT
from seasonboard.answers.roster.words import reasons_words
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import day, drawn, injury


def ask(this, **parts):
    return roster(this._reader, read_scope(parts, this.scope_values), this.scope_values)


def stamps(guard, first, *stages):
    """Return one stage a day from day `first` on, at nine."""
    return [
        {"guard": guard, "stage": s, "reached_at": datetime.combine(day(first + n), time(9))}
        for n, s in enumerate(stages)
    ]


ROSTER = """
        A    B    C    E    F    H    I
    P1  .    .    .    .    .    .    -
    P2  .    .    .*   o    l    o    -
    G9  -    -    -    -    -    -    -
"""


def with_reasons():
    season = drawn(ROSTER)
    reasons = {"E": "illness", "F": "other", "H": "selection"}
    for row in season.attendance:
        if row["part"] != "full":
            row["reason"] = reasons[row["athlete"]]
    return season


def through(number):
    return day(number).isoformat()


def test_the_sentence_counts_who_can_play_and_why_others_cannot(board):
    answer = ask(board(with_reasons()), through=through(2))
    assert answer.summary.answer == (
        "Thu 3 Sep, 12:00. By the last record 2 of 7 can play; 1 limited, 2 out hurt or ill, "
        "1 out otherwise, 1 not recorded. No guard is outstanding."
    )
    assert reasons_words(answer.headline) == (
        "limited: 1 for other reasons; out: 1 injured, 1 ill; out, not for health: 1 not selected"
    )
    states = {a.athlete: (a.status, a.because) for a in answer.athletes}
    assert states == {
        "A": ("full", None), "B": ("full", None), "C": ("out", "chest, day 0"), "E": ("out", "ill"),
        "F": ("limited", "for other reasons"), "H": ("out", "not selected"),
        "I": ("not recorded", None),
    }  # fmt: skip
    assert answer.next_game.session == "G9"


def test_rows_stand_by_what_needs_attention_first(board):
    answer = ask(board(with_reasons()), through=through(2))
    assert [a.athlete for a in answer.athletes] == ["C", "E", "F", "I", "H", "A", "B"]
    places = [ATTENTION.index(a.attention) for a in answer.athletes]
    assert places == sorted(places)


def test_no_return_is_predicted_and_the_day_of_onset_and_days_lost_are_given(board):
    answer = ask(board(with_reasons()), through=through(6))
    (hurt,) = (a for a in answer.athletes if a.athlete == "C")
    assert (hurt.injury.occurred_on, hurt.injury.day) == (day(2), 4)
    assert "none is predicted" in hurt.expected_back_why
    assert hurt.comparable.median_days_lost is None
    assert hurt.comparable.why == "fewer than 5 of them"


def test_the_median_of_comparable_injuries_is_over_all_athletes(board):
    """Chest injuries of 1, 2, 3 and 4 days, one of 18 so far: half were back within 3."""
    others = [
        injury(f"i{n}", "A", day(20), returned_on=day(21 + n), reported_on=day(21))
        for n in range(1, 5)
    ]
    answer = ask(board(drawn(ROSTER, injuries=others)), through=through(40))
    (hurt,) = (a for a in answer.athletes if a.athlete == "C")
    assert (
        hurt.comparable.injuries,
        hurt.comparable.still_open,
        hurt.comparable.median_days_lost,
    ) == (5, 1, 3)
    assert "half of such injuries were back within 3 days lost (5 injuries, 1 still open)" in (
        REPORT.as_text(answer)
    )


def guard_states(board, season, number):
    answer = ask(board(season), through=through(number))
    return {g.guard: g for a in answer.athletes for g in a.guards}, answer


def test_guards_in_every_state(board):
    """One guard each: made, to be fitted, in hand, unworn, hurt at its site, being remade."""
    season = drawn("""
            A    B    C    E    F    H    I
        P1  .    .    g    g    g    g    g
        P2  .    .    g    .    g*   .    g
        P3  .    .    g    .    o    .    .
        P4  .    .    .    .    o    .    .
    """)
    season.guards += [build.guard(f"new-{who}", who) for who in "ABI"]
    season.guards[-1] |= {"remake_of": "g-I", "remake_reason": "fit"}
    season.stages = [
        *stamps("new-A", 2, "requested", "scanned"),
        *stamps("new-B", 1, "requested", "printed", "delivered"),
        *(row for who in "CEFI" for row in stamps(f"g-{who}", 0, "requested", "fitted")),
        *stamps("new-I", 3, "requested"),
    ]
    for row in season.stages:
        if row["stage"] == "fitted":
            row["reached_at"] = datetime.combine(day(1), time(8))
    guards, answer = guard_states(board, season, 4)
    assert {key: guard.state for key, guard in guards.items()} == {
        "new-A": GuardState.MAKING, "new-B": GuardState.FIT_CHECK, "g-C": GuardState.IN_HAND,
        "g-E": GuardState.UNWORN, "g-F": GuardState.CHECK, "g-H": GuardState.IN_HAND,
        "g-I": GuardState.REMAKE, "new-I": GuardState.MAKING,
    }  # fmt: skip
    assert (guards["g-C"].worn, guards["g-C"].taken_part, guards["g-C"].worn_share) == (3, 4, 0.75)
    assert (guards["g-H"].worn_share, guards["g-H"].why) == (None, "its fitting is not recorded")
    assert (guards["new-A"].worn_share, guards["new-A"].why) == (None, "not fitted yet")
    needs = {a.athlete: a.needs for a in answer.athletes if a.needs}
    assert needs.keys() == {"B", "E", "F", "I"}
    assert needs["B"] == ("Check the fit of the chest guard: delivered on 3 Sep.",)
    assert answer.headline.guards_in_hand == 6
    assert answer.headline.athletes_with_guard == 6
    assert answer.summary.answer.endswith(
        "Guards: 2 not there yet, 1 to be fitted, 1 to be remade, "
        "1 worn when its site was hurt, 1 unworn lately."
    )


def test_an_order_is_late_when_it_is_older_than_four_in_five_of_its_department_needed(board):
    """Twenty orders took 2 days each; one is 3 days old and late, one 2 days old and not."""
    season = drawn("A  B\nP9  .  .".replace("A  B", "A B"))
    for n in range(20):
        key = f"done{n}"
        season.guards.append(build.guard(key, "A"))
        season.stages += stamps(key, 1, "requested", "scanned", "fitted", "retired")
    season.guards += [build.guard("old", "A"), build.guard("young", "B")]
    season.stages += stamps("old", 7, "requested") + stamps("young", 8, "requested")
    season.guards.append(build.guard("here", "B", kind="shin", side="left"))
    season.stages += stamps("here", 6, "requested", "delivered")
    guards, answer = guard_states(board, season, 10)
    assert answer.late_after[0].days == 2
    assert guards.keys() == {"old", "young", "here"}
    assert (guards["old"].state, guards["old"].age_days) == (GuardState.LATE, 3)
    assert (guards["young"].state, guards["young"].age_days) == (GuardState.MAKING, 2)
    assert "80 % of such orders take 2 days or fewer" in guards["old"].because
    assert (guards["here"].state, guards["here"].is_late) == (GuardState.FIT_CHECK, True)
    assert guards["here"].because == "delivered on 7 Sep, and late: asked for 4 days ago"
    ending = "Guards: 2 not there yet (1 late), 1 to be fitted (1 late)."
    assert answer.summary.answer.endswith(ending)
    assert answer.headline.late == 2
    assert [a.athlete for a in answer.athletes] == ["A", "B"]


def test_teams_whose_season_has_not_begun_or_is_over_are_told_and_left_out(board):
    season = drawn("   A\nG1  .\nG5@5  -")
    season.teams += [build.team("U"), build.team("V")]
    season.roster += [build.member("B", team="U"), build.member("C", team="V")]
    season.sessions += [
        build.session("GU", day(8), team="U"), build.session("GV", day(1), team="V"),
    ]  # fmt: skip
    answer = ask(board(season), through=through(2))
    assert [a.athlete for a in answer.athletes] == ["A"]
    assert [(g.team, g.session, g.is_listed) for g in answer.next_games] == [
        ("T", "G5", True), ("U", "GU", False), ("V", None, False),
    ]  # fmt: skip
    assert answer.next_games[2].why == "no game is recorded ahead; the last session was on 1 Sep"
    left_out = {left.why: left.count for left in answer.summary.left_out}
    assert left_out == {
        "the season of the team has not begun": 1, "no game ahead in that season": 1,
    }  # fmt: skip


def test_a_season_that_is_over_says_so_and_what_was_last_recorded(board):
    answer = ask(board("   A  B\nG1  .  o"), through=through(30))
    assert answer.next_game is None
    assert answer.summary.answer.startswith(
        "No game is ahead on 30 Sep 2026: the last session was on 1 Sep 2026. By the "
        "last record 1 of 2 could play"
    )
    assert REPORT.as_object(answer, "roster")["why"] == "no game is ahead"


def test_a_team_without_a_roster_says_that_nobody_is_on_it(board):
    season = drawn("   A\nG1  .\nG5@5  -")
    season.teams.append(build.team("U"))
    season.sessions.append(build.session("GU", day(8), team="U"))
    answer = ask(board(season), through=through(2), team="U")
    assert answer.athletes == ()
    assert answer.summary.answer == "Tue 8 Sep, 12:00. Nobody is on the roster."


def test_text_from_outside_is_shown_letter_for_letter_and_cut_to_the_table(board):
    names = {"A": "[/x] Lee", "B": "名前" * 12, "C": "a\tb\x1b[31m"}
    roster_cells = {who: {"name": name} for who, name in names.items()}
    season = drawn("   A  B  C\nP1  .  .  .\nG2  -  -  -", roster=roster_cells)
    season.session("G2")["label"] = "[bold]vs\u202e X"
    text = REPORT.as_text(ask(board(season), through=through(1)))
    assert "[/x] Lee" in text
    assert "[bold]vs X" in text
    assert "\x1b" not in text
    (wide,) = (line for line in text.splitlines() if line.startswith("名前"))
    assert wide.startswith("名前" * 4 + "名" + "…")
