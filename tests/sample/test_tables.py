"""The sample season is a sound season: keys, references, words and sense."""

import polars as pl
import pytest

from seasonboard import terms
from seasonboard.sample import LAST_DAY, TABLES
from seasonboard.stored_tables import TABLES as STORED

COLUMNS = [(table, column) for table in TABLES for column in STORED[table].columns]
REFERENCES = [(table, c.name, *c.refers) for table, c in COLUMNS if c.refers and c.name != "kind"]


@pytest.mark.parametrize("table", TABLES)
def test_keys_are_present_and_unique(season, table):
    """Of each guard each stage is reached once, which a store does not ask for."""
    key = ("guard", "stage") if table == "stages" else STORED[table].key
    keys = season[table].select(key)
    assert keys.height > 0
    assert not keys.is_duplicated().any()
    assert sum(keys.null_count().row(0)) == 0


@pytest.mark.parametrize(("table", "column", "to", "key"), REFERENCES)
def test_references_lead_somewhere(season, table, column, to, key):
    used = season[table][column].drop_nulls()
    assert len(used) > 0
    assert used.is_in(season[to][key].unique().to_list()).all()


def test_words_are_those_of_the_closed_lists(season):
    looked_at = 0
    for table, column in COLUMNS:
        if column.words and column.name in season[table].columns:
            assert set(season[table][column.name].drop_nulls()) <= {*column.words}, column.name
            looked_at += 1
    assert looked_at == 30


@pytest.mark.parametrize("table", ["guards", "offers"])
def test_kinds_are_known_and_do_what_is_usual(season, table):
    usual = {kind: function.value for kind, _, function in terms.KINDS}
    assert set(season[table]["kind"]) <= set(usual)
    functions = season["guards"]["kind"].replace_strict(usual)
    assert functions.equals(season["guards"]["function"], check_names=False)


def test_midline_areas_have_no_side(season):
    midline = pl.col("area").is_in([area.value for area in terms.MIDLINE_AREAS])
    assert season["injuries"].filter(midline != (pl.col("side") == "midline")).is_empty()


def test_it_holds_what_a_demonstration_needs(season):
    assert season["departments"]["plan"].to_list().count("weekly allotment") == 2
    assert season["departments"]["time_zone"].n_unique() >= 2
    assert season["teams"]["sport"].n_unique() == 5
    assert 370 <= season["roster"]["athlete"].n_unique() <= 450
    assert 250 <= season["injuries"].height <= 350
    assert any(not name.isascii() for name in season["roster"]["name"])
    assert season["roster"]["joined_on"].count() > 0
    assert season["roster"]["left_on"].count() > 0
    two_teams = season["roster"].unique(["athlete", "team"])["athlete"].is_duplicated()
    assert 0 < two_teams.sum() < 20
    assert season["roster"]["athlete"].str.starts_with("0").any()


def test_double_headers_are_two_sessions_of_one_team_and_day(season):
    games = season["sessions"].filter(pl.col("setting") == "game")
    day = pl.col("starts_at").str.slice(0, 10)
    assert games.group_by("team", day).len()["len"].max() == 2
    assert not season["sessions"].select("team", "starts_at").is_duplicated().any()


def test_instants_are_local_in_some_departments_and_have_an_offset_in_others(season):
    sessions = season["sessions"].join(season["teams"], on="team")
    has_offset = pl.col("starts_at").str.contains(r"[+-]\d\d:\d\d$").alias("has_offset")
    forms = sessions.select("department", has_offset).unique()
    assert forms.height == season["departments"].height
    assert set(forms["has_offset"]) == {True, False}


def test_the_offset_follows_summer_time(season):
    stated = season["sessions"].filter(pl.col("starts_at").str.len_chars() > 19)
    summer = stated.filter(pl.col("starts_at") < "2026-11-01")["starts_at"].str.slice(19)
    winter = stated.filter(pl.col("starts_at") > "2026-11-02")["starts_at"].str.slice(19)
    assert (set(summer), set(winter)) == ({"-05:00"}, {"-06:00"})


def test_nobody_is_in_two_places_at_one_instant(begun):
    assert not begun.select("athlete", "starts").is_duplicated().any()


def test_attendance_lies_within_the_time_on_the_roster(season, begun):
    rows = begun.join(season["roster"], on=["athlete", "team", "season"], how="left")
    assert rows["name"].null_count() == 0
    day = pl.col("starts").dt.date()
    assert rows.filter((day < pl.col("joined_on")) | (day > pl.col("left_on"))).is_empty()


def test_some_attendance_is_not_recorded(season, begun):
    past = season["sessions"].filter(pl.col("starts_at") < "2027-01-31")
    unrecorded = past.join(begun, on="session", how="anti")
    assert 0 < unrecorded.height < 0.05 * past.height


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("stages", "reached_at"), ("injuries", "occurred_on"), ("injuries", "reported_on"),
        ("injuries", "returned_on"), ("offers", "offered_on"), ("decisions", "decided_on"),
        ("decisions", "done_on"),
    ],
)  # fmt: skip
def test_nothing_is_recorded_after_the_last_day(season, table, column):
    days = season[table][column].drop_nulls().cast(pl.String).str.slice(0, 10)
    assert days.max() <= LAST_DAY.isoformat()


def test_games_are_still_to_come_without_attendance(season, begun):
    coming = season["sessions"].filter(pl.col("starts_at") > "2027-01-31")
    assert coming.height > 20
    assert coming.join(season["attendance"], on="session", how="semi").is_empty()
    assert begun["starts"].dt.date().max() == LAST_DAY
