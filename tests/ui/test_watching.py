"""What Compare says beside its five ratios: by athlete, peek-proof, week by week, per hour."""

from dataclasses import replace
from datetime import date, timedelta

import polars as pl
import pytest

from seasonboard.answers.compare.comparisons import DECLINERS, ORDER
from seasonboard.answers.compare.report import evidence_words, needed_words
from seasonboard.answers.compare.weekly_looks import WHY, Look, Watched
from seasonboard.answers.questions import COMPARE
from seasonboard.stats.anytime_valid import AnytimeValid
from seasonboard.stats.sample_size import SampleSize
from seasonboard.ui.compare.forest import Axis, forest
from seasonboard.ui.compare.page import compare_page
from seasonboard.ui.compare.week_by_week import LEVELS, week_by_week
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.windows.method_card import CardScreen
from tests.ui.board import LARGE, check, go_to, opened, page, press, resize, text, words
from tests.ui.counted import hours
from tests.ui.stand_in import StandIn, frames, lines_of, without_injuries

EIGHT = Axis(8, 25)
SMALL, WIDE = Paper(78, 19), Paper(118, 34)


def _answer():
    return StandIn().answered(COMPARE)


def _page(answer, paper):
    return lines_of(compare_page(answer, paper))


def test_five_comparisons_stand_in_their_order_the_headline_marked():
    rows = forest(_answer(), "95 %", SMALL).rows
    names = [row[0].plain[:17].strip() for row in rows]
    assert names == [f"{ORDER[0]}  ▸", *ORDER[1:]]


def test_an_interval_with_one_end_gets_an_arrow_and_its_reason_in_words():
    row = forest(_answer(), "95 %", SMALL).rows[ORDER.index("other side")]
    assert "◂─" in row[0].plain
    assert row[1].plain.strip() == "no guarded injury"


def test_peek_proof_limits_have_strokes_of_their_own_under_a_dashed_line():
    drawn = forest(_answer(), "95 %", SMALL)
    dashes, row, *_ = (line.plain for line in drawn.anytime_valid)
    assert set(dashes.strip()) == {"╌"}
    assert {"═", "▪", "╡"} <= set(row)
    assert not {"─", "■", "┤"} & set(row)
    assert row.endswith("e 2.1")


def test_limits_by_athlete_are_a_column_where_it_fits_and_a_table_elsewhere():
    answer = _answer()
    assert forest(answer, "95 %", WIDE).by_athlete
    assert not forest(answer, "95 %", SMALL).by_athlete
    small, wide = _page(answer, SMALL), _page(answer, WIDE)
    assert "  Limits by athlete"[1:] in small
    assert "  Limits by athlete"[1:] not in wide
    for shown in (small, wide):
        assert any("0.087–1.16" in line and "0.10–0.97" in line for line in shown)
        assert any("no injury in one of the groups" in line for line in shown)
        assert " ".join(" ".join(shown).split()).count(WHY) == 1, "why they are peek-proof"


def test_control_sites_stand_under_the_decliners_with_what_they_mean():
    far, beside = forest(_answer(), "95 %", SMALL).controls
    assert far[0].plain.startswith(" control sites")
    assert "■" in far[0].plain
    assert " ".join(line.plain.strip() for line in far[1:]).startswith("This proves nothing")
    assert beside[1].plain.strip() == "Harm there is neither shown nor ruled out."


async def test_control_sites_open_to_the_injuries_and_have_a_card():
    async with opened(StandIn()) as pilot:
        await go_to(pilot, "control sites")
        await press(pilot, "enter")
        shown = text(pilot)
        assert "Injuries at sites that no guard in scope covers" in shown
        assert "foot" in shown
        await press(pilot, "escape", "m")
        assert "Compare › Control sites" in text(pilot)


async def test_what_gates_a_claim_stands_on_the_page_with_its_cards():
    async with opened(StandIn()) as pilot:
        for name, told, card in (
            ("attendance", "At practices attendance is recorded", "Is attendance recorded alike?"),
            ("wear of the injured", "4 injured owners", "Is wear of the injured recorded alike?"),
            ("claims", "Not shown. Missing for a claim", "What we may say"),
        ):
            await go_to(pilot, name)
            assert told in words(pilot)
            await press(pilot, "m")
            assert card in words(pilot)
            await press(pilot, "escape")


def _watched(weeks):
    now = replace(_answer().watched.now, value=0.5, low=0.2, high=1.0)
    ratios = [8.0, 0.01, 0.0, None, 1.0]
    looks = [
        Look(date(2026, 1, 5) + timedelta(days=7 * n), replace(now, value=ratios[n % 5], why=WHY))
        for n in range(weeks)
    ]
    return Watched(now, tuple(looks))


def test_weeks_are_block_letters_between_the_first_and_the_last_monday():
    (line,) = week_by_week(_watched(5), EIGHT, SMALL)
    told = " ".join(line.plain.split())
    assert told == "ratio by week 5 Jan ▇▁▁·▄ 2 Feb ▁ .125 ▄ 1 ▇ 8 · e 2.1"


def test_high_paper_has_the_limits_over_and_under_the_ratio():
    upper, ratio, lower = (line.plain for line in week_by_week(_watched(5), EIGHT, WIDE))
    begin = ratio.index("▇▁▁")
    assert upper[begin : begin + 5] == LEVELS[3] * 5
    assert lower[begin : begin + 5] == LEVELS[1] * 5
    assert upper.endswith("upper limit")


def test_more_weeks_than_room_are_thinned_and_the_last_one_stays():
    line, told = (line.plain for line in week_by_week(_watched(100), EIGHT, SMALL))
    assert len(line) <= SMALL.width
    assert "29 Nov" in line
    assert told.strip() == "every 5 weeks with an injury, the last one included"


def test_without_an_injury_there_is_no_week_to_show():
    answer = StandIn(frames(compare_strata=without_injuries())).answered(COMPARE)
    (line,) = week_by_week(answer.watched, EIGHT, SMALL)
    assert "no week with an injury yet" in line.plain


@pytest.mark.parametrize(
    ("value", "told"),
    [(1.0, "1.0"), (1.27, "1.3"), (0.0841, "0.084"), (123.4, "120"), (9876, "9,900")],
)
def test_anytime_evidence_is_told_in_two_figures(value, told):
    assert evidence_words(AnytimeValid(1.0, anytime_evidence=value)) == told


@pytest.mark.parametrize(
    ("need", "games", "told"),
    [
        ((70_000, 64_287), 2118, "about 64,300 more guarded site-exposures, some 2,100"),
        ((70_000, 64_287), None, "no game sets a pace yet"),
        ((70_000, 0), 0, "as many guarded site-exposures as it takes are recorded"),
        ((None, None, "no guard was worn yet"), None, "not known yet, no guard"),
    ],
)
def test_what_is_needed_is_told_in_a_sentence(need, games, told):
    answer = replace(_answer(), sample_size=SampleSize(0.7, 0.8, *need), games_needed=games)
    assert needed_words(answer).startswith("To tell 0.7 from 1 with 80 % power: ")
    assert told in needed_words(answer)


async def test_comparison_opens_to_its_strata_without_asking(pilot, answer_source):
    await go_to(pilot, "by athlete crude")
    assert "0.33–1.88" in text(pilot), "the last line of the small table is reached"
    for name in (*ORDER, DECLINERS):
        await go_to(pilot, name)
        behind = pilot.app.screen.rows_of(page(pilot).block.opens)
        assert behind[1]().title == f"Strata with an injury: {name}"
    await go_to(pilot, "other side")
    await press(pilot, "enter")
    assert "Strata with an injury: other side" in text(pilot)
    assert "[/x] Lee · lower leg" in text(pilot)
    assert [what for what, *_ in answer_source.asked] == ["compare"]


async def test_t_shows_the_rates_per_hour_and_again_per_exposure(pilot, answer_source):
    await press(pilot, "t")
    check(text(pilot), "compare-80x24-per-hour")
    await press(pilot, "m")
    assert "Rate per 1000 hours" in text(pilot)
    await press(pilot, "escape", "t", "home")
    await resize(pilot, *LARGE)
    before = text(pilot)
    await press(pilot, "t")
    check(text(pilot), "compare-120x40-per-hour")
    block = page(pilot).block
    assert (block.name, block.card) == ("rate guarded", "rate per hour")
    assert len(answer_source.asked) == 1, "the answer holds both"
    await press(pilot, "t", "home")
    assert text(pilot) == before


async def test_without_minutes_it_says_so():
    known = hours(frames().read("compare/strata"))
    nothing = known.with_columns(pl.lit(0).alias(name) for name in ("minutes", "exposures"))
    async with opened(StandIn(frames(compare_hours=nothing))) as pilot:
        await press(pilot, "t")
        assert text(pilot).count("not known: no minutes recorded") == 2


async def test_a_key_says_what_would_undo_the_headline_and_another_how_that_is_made():
    async with opened(StandIn()) as pilot:
        await press(pilot, "w")
        check(text(pilot), "compare-80x24-undo")
        await press(pilot, "m")
        assert pilot.app.screen.breadcrumb_name == "What would undo this"
        assert isinstance(pilot.app.screen, CardScreen)
        await press(pilot, "escape", "escape")
        assert pilot.app.screen.answer.undo is not None
        await press(pilot, "r")
        assert pilot.app.screen.answer.undo is None, "asked again, it is not worked out"
