"""The drawn turns of the sample season: drawn as the board draws, jumped where made too early."""

import datetime as dt

import polars as pl
import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.answers.turns.planning import DrawOptions
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.scope import read_scope
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.store import open_store

DRAWN = ("athlete", "kind", "side", "stratum", "turn", "week", "starts_on", "earlier_injury")


@pytest.fixture(scope="module")
def undrawn(season, tmp_path_factory):
    """Give a board over the sample season without its turns."""
    folder = tmp_path_factory.mktemp("undrawn")
    for name, table in season.items():
        if name != "turns":
            table.write_csv(folder / f"{name}.csv")
    load_paths(folder / "season.store", [folder], UnattendedLoad())
    with open_store(folder / "season.store") as store:
        yield AnswerSource(store, "the sample without turns")


@pytest.mark.parametrize(("draw", "turns", "jumped"), [("T01", 16, 5), ("T02", 4, 1)])
def test_the_board_draws_the_same_turns_from_those_who_waited_that_day(
    season, undrawn, draw, turns, jumped
):
    rows = season["turns"].filter(draw=draw)
    first = rows.row(0, named=True)
    parts = {"department": "SW", "through": first["drawn_on"].isoformat()}
    own = {name: first[name] for name in ("draw", "seed", "prints_per_week", "ready_days")}
    options = DrawOptions(**own, board_number=first["board_number"])
    plan = undrawn.plan_draw(read_scope(parts, undrawn.scope_values), options)
    again = pl.DataFrame(plan.entry().tables["turns"]).select(DRAWN)
    assert sorted(again.rows()) == sorted(rows.select(pl.col(DRAWN).cast(pl.String)).rows())
    assert (rows.height, rows["jumped_on"].count()) == (turns, jumped)


def test_a_turn_is_jumped_with_a_reason_where_the_guard_was_printed_before_its_week(season):
    printed = season["stages"].filter(pl.col("stage") == "printed")
    on = printed.select("guard", on=pl.col("reached_at").str.slice(0, 10).str.to_date())
    first = season["guards"].filter(purpose="preventive").join(on, on="guard")
    turns = season["turns"].join(
        first.group_by("athlete", "kind").agg(pl.col("on").min()),
        on=["athlete", "kind"],
        how="left",
    )
    for turn in turns.iter_rows(named=True):
        week = turn["starts_on"] + dt.timedelta(weeks=turn["week"] - 1)
        early = turn["on"] is not None and turn["on"] < week
        assert (turn["jumped_on"] == turn["on"]) if early else turn["jumped_on"] is None
        assert (turn["jump_reason"] is None) == (turn["jumped_on"] is None)
