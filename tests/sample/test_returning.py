"""Return guards shorten nothing in the shipped season; a season can be made in which they do."""

import polars as pl
import pytest

from seasonboard.answers.questions import RETURN
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.sample import make_season, write_season
from seasonboard.scope import read_scope
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from tests.reused import ReusedStore


@pytest.fixture(scope="module")
def seasons():
    return {ratio: make_season(seed=3, size=1.0, return_ratio=ratio) for ratio in (1.0, 3.0)}


def test_only_returns_after_the_guard_come_sooner_and_nothing_else_is_drawn_anew(seasons):
    plain, sooner = seasons[1.0], seasons[3.0]
    assert plain["injuries"].equals(make_season(seed=3, size=1.0)["injuries"])
    for same in ("roster", "sessions", "guards", "stages", "offers"):
        assert plain[same].equals(sooner[same]), same
    both = plain["injuries"].join(sooner["injuries"], on=["injury", "athlete", "area"])
    assert len(both) == len(plain["injuries"]) == len(sooner["injuries"])
    early = both.filter(pl.col("returned_on_right") < pl.col("returned_on"))
    assert not len(both.filter(pl.col("returned_on_right") > pl.col("returned_on")))
    fitted = plain["stages"].filter(pl.col("stage") == "fitted")
    returning = plain["guards"].filter(pl.col("purpose") == "return")
    athletes = returning.join(fitted, on="guard")["athlete"]
    assert 0 < len(early) < len(both)
    assert early["athlete"].is_in(athletes.implode()).all()


@pytest.mark.parametrize("ratio", [0.5, 11])
def test_a_ratio_out_of_range_is_refused(ratio):
    with pytest.raises(SeasonboardError, match="out of range"):
        make_season(size=0.3, return_ratio=ratio)


@pytest.mark.long
@pytest.mark.parametrize("ratio", [1.0, 2.5])
@pytest.mark.parametrize("seed", [1, 2])
def test_the_answer_holds_the_planted_ratio_in_its_interval(tmp_path, seed, ratio):
    store = ReusedStore()
    files = write_season(tmp_path / "season", seed=seed, size=4.0, return_ratio=ratio)
    write_load(store, plan_load(store, [one for one in files if one.suffix == ".csv"]))
    source = AnswerSource(store, "a test")
    back, again = source.ask(RETURN, read_scope({}, source.scope_values)).contrasts
    assert back.ratio.low <= ratio <= back.ratio.high
    assert (back.ratio.low > 1) == (ratio > 1), "and says so where there is an effect"
    assert again.ratio.low <= 1, "nothing is planted on being hurt again"
    store.close()
