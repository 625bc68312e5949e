"""What Games says beside its two curves: other ends, repeats, one mix, the misleading tally."""

from dataclasses import replace

import pytest

from seasonboard.answers.games.parts import GamesOptions
from seasonboard.answers.questions import GAMES
from seasonboard.ui.games.curves import misleading_picture, survival_picture
from seasonboard.ui.games.page import WHY_WRONG, WRONG, games_page
from seasonboard.ui.layout.blocks import Paper
from tests.ui.board import LARGE, check, opened, page, press, text
from tests.ui.counted import both_kinds
from tests.ui.stand_in import StandIn, frames, lines_of, ticks

PAPER = Paper(78, 19)


FEW = {"of_guarded": 2, "of_bare": 30}


def _answer(games_ticks=None, **options):
    shown = StandIn() if games_ticks is None else StandIn(frames(games_ticks=games_ticks))
    return shown.answered(GAMES, GamesOptions(**options))


def _page(answer):
    return " ".join(" ".join(lines_of(games_page(answer, PAPER))).split())


def test_each_cause_has_its_share_by_the_horizon_and_they_add_up_to_one():
    answer = _answer()
    rows = [b for b in games_page(answer, PAPER) if b.card == "other ends"]
    shares = [b.lines[0].plain.removeprefix(b.name[4:]) for b in rows]
    guarded = [float(share.split(" %")[0].split()[-1]) for share in shares]
    assert [b.name.removeprefix("ends ") for b in rows] == [
        *("injury", "another injury to the site", "injury elsewhere", "left the roster"),
        "none of these yet",
    ]
    assert sum(guarded) == pytest.approx(100, abs=0.3)
    assert "share of sites by 4" in _page(_answer(horizon=4))
    late, bare = answer.incidence
    since = _page(replace(answer, incidence=(replace(late, start=3), bare)))
    assert "guarded: of those still followed at 3" in since


def test_ends_and_repeats_are_told_with_limits_or_why_not():
    assert "mean injuries per site to 12, repeats counted: guarded 0.119 (0.018" in _page(_answer())
    few = _page(_answer(ticks(3, **FEW)))
    assert "guarded not known: never 5 at risk at once" in few
    assert "repeats counted: guarded not known (never 5 at risk at once)" in few


def test_one_mix_is_a_difference_or_a_reason():
    why = "no curves at the same mix of athletes: no guarded site had a bare one alike beside it"
    assert why in _page(_answer())
    mixed = _page(_answer(both_kinds(ticks())))
    assert "at the same mix of athletes, mean to 12: guarded 11.72; bare 10.82" in mixed


def test_same_mix_picture_says_what_it_is():
    answer = _answer(both_kinds(ticks()))
    shown = [line.plain for line in survival_picture(answer, PAPER, is_same_mix=True)]
    assert shown[:-5] != [line.plain for line in survival_picture(answer, PAPER)][:-4]
    assert "at the same mix of athletes; at risk: those with others alike" in shown[-1]
    assert "as played, not of like athletes" in survival_picture(answer, PAPER)[-1].plain
    assert all(len(line) <= PAPER.width for line in shown)


def test_misleading_tally_is_dotted_labelled_and_off_unless_asked():
    assert misleading_picture(_answer(), PAPER) == []
    assert WRONG not in _page(_answer())
    answer = _answer(naive=True)
    drawn = "".join(line.plain for line in misleading_picture(answer, PAPER)[:-4])
    assert "⠂⠂⠂" in drawn or "⠐⠐⠐" in drawn
    assert not {"⠒", "⠇", "⠸"} & set(drawn)
    assert WRONG in _page(answer)
    assert WHY_WRONG in _page(answer)


async def test_w_asks_for_the_misleading_tally_shows_it_and_takes_it_away(games, answer_source):
    await press(games, "w")
    assert answer_source.asked[-1][2] == GamesOptions(naive=True)
    check(text(games), "games-80x24-misleading")
    assert page(games).block.card == "ever never"
    await press(games, "k")
    assert WRONG in text(games)
    await press(games, *"kkkk", "w")
    assert answer_source.asked[-1][2] == GamesOptions()
    assert WRONG not in text(games)


async def test_a_changes_between_as_played_and_same_mix():
    async with opened(
        StandIn(frames(games_ticks=both_kinds(ticks()))), screen="games", size=LARGE
    ) as pilot:
        check(text(pilot), "games-120x40-same-mix")
        await press(pilot, "a")
        assert "a as played" in text(pilot)
        assert "as played, not of like athletes" in text(pilot)
        await press(pilot, "a")
        check(text(pilot), "games-120x40-same-mix")


@pytest.mark.parametrize("size", [LARGE])
async def test_a_says_why_there_is_no_same_mix_and_leaves_the_curves(games):
    await press(games, "a")
    assert "No curves at the same mix: no guarded site had" in text(games)
    assert "a as played" in text(games)
