"""What Games says beside its two curves: other ends, repeats, one mix, the misleading tally."""

from dataclasses import replace

import pytest

from seasonboard.answers.games.parts import GamesOptions
from seasonboard.answers.questions import GAMES
from seasonboard.ui.games.curves import misleading_picture, survival_picture
from seasonboard.ui.games.page import WHY_WRONG, WRONG, games_page
from seasonboard.ui.games.screen import GamesScreen
from seasonboard.ui.layout.blocks import Paper
from tests.ui.board import LARGE, SMALL, check, opened, page, press, text
from tests.ui.counted import both_kinds
from tests.ui.stand_in import StandIn, frames, ticks

PAPER = Paper(78, 19)


def _mixed():
    return StandIn(frames(games_ticks=both_kinds(ticks())))


def _answer(answer_source=None, options=None):
    shown = answer_source or StandIn()
    return shown.ask(GAMES, shown.opening_scope(), options or GamesOptions())


def _page(answer):
    lines = (line.plain for block in games_page(answer, PAPER) for line in block.lines)
    return " ".join(" ".join(lines).split())


def test_each_cause_has_its_share_by_the_horizon_and_they_add_up_to_one():
    answer = _answer()
    rows = [b for b in games_page(answer, PAPER) if b.card == "other ends"]
    shares = [b.lines[0].plain.removeprefix(b.name[4:]) for b in rows]
    guarded = [float(share.split(" %")[0].split()[-1]) for share in shares]
    assert [b.name for b in rows] == [
        "ends injury",
        "ends another injury to the site",
        "ends injury elsewhere",
        "ends left the roster",
        "ends none of these yet",
    ]
    assert sum(guarded) == pytest.approx(100, abs=0.3)
    earlier = _page(_answer(options=GamesOptions(horizon=4)))
    assert "share of sites by 4" in earlier


def test_ends_without_a_curve_say_why():
    told = _page(_answer(StandIn(frames(games_ticks=ticks(3, of_guarded=2, of_bare=30)))))
    assert "guarded not known: never 5 at risk at once" in told


def test_shares_of_those_who_came_so_far_say_so():
    answer = _answer()
    late = tuple(replace(found, start=3) for found in answer.incidence)
    told = _page(replace(answer, incidence=(late[0], answer.incidence[1])))
    assert "guarded: of those still followed at 3" in told


def test_repeats_are_told_with_limits_or_why_not():
    assert "mean injuries per site to 12, repeats counted: guarded 0.119 (0.018" in _page(_answer())
    few = _page(_answer(StandIn(frames(games_ticks=ticks(3, of_guarded=2, of_bare=30)))))
    assert "repeats counted: guarded not known (never 5 at risk at once)" in few


def test_one_mix_is_a_difference_or_a_reason():
    assert "no curves at the same mix of athletes: too few guarded" in _page(_answer())
    mixed = _page(_answer(_mixed()))
    assert "at the same mix of athletes, mean to 12: guarded 11.72; bare 10.82" in mixed
    alone = replace(_answer(), one_mix=None)
    assert "one kind of athlete only" in _page(alone)


def test_same_mix_picture_says_what_it_is():
    answer = _answer(_mixed())
    shown = [line.plain for line in survival_picture(answer, PAPER, is_same_mix=True)]
    assert shown[:-5] != [line.plain for line in survival_picture(answer, PAPER)][:-4]
    assert "at the same mix of athletes, drawn to 12" in shown[-1]
    assert all(len(line) <= PAPER.width for line in shown)


def test_misleading_tally_is_dotted_labelled_and_off_unless_asked():
    assert misleading_picture(_answer(), PAPER) == []
    assert WRONG not in _page(_answer())
    answer = _answer(options=GamesOptions(naive=True))
    drawn = "".join(line.plain for line in misleading_picture(answer, PAPER)[:-4])
    assert {"┅", "┄", "┆"} <= set(drawn)
    assert not {"━", "─", "┃"} & set(drawn)
    told = _page(answer)
    assert WRONG in told
    assert WHY_WRONG in told


async def test_w_asks_for_the_misleading_tally_shows_it_and_takes_it_away():
    answer_source = StandIn()
    async with opened(answer_source, screen="games", size=SMALL) as pilot:
        await press(pilot, "w")
        assert answer_source.asked[-1][2] == GamesOptions(naive=True)
        check(text(pilot), "games-80x24-misleading")
        block = page(pilot).block
        assert block is not None
        assert block.card == "ever never"
        await press(pilot, "k")
        assert WRONG in text(pilot)
        await press(pilot, "k", "k", "w")
        assert answer_source.asked[-1][2] == GamesOptions()
        assert WRONG not in text(pilot)


async def test_a_changes_between_as_played_and_same_mix():
    async with opened(_mixed(), screen="games", size=LARGE) as pilot:
        before = text(pilot)
        assert "a as played" in before
        await press(pilot, "a")
        check(text(pilot), "games-120x40-same-mix")
        await press(pilot, "a")
        assert text(pilot) == before


async def test_a_says_why_there_is_no_same_mix_and_leaves_the_curves():
    async with opened(screen="games", size=LARGE) as pilot:
        screen = pilot.app.screen
        await press(pilot, "a")
        assert "No curves at the same mix: too few guarded" in text(pilot)
        assert isinstance(screen, GamesScreen)
        assert not screen.is_same_mix
