"""On Compare one key shows the rates per hour, and shows them per exposure again."""

import polars as pl

from tests.ui.board import LARGE, check, opened, page, press, resize, text
from tests.ui.counted import hours
from tests.ui.stand_in import StandIn, frames


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
