"""A bundle is an ordinary load: planned, checked, the same twice, and taken back."""

import pytest

from seasonboard.errors import IntakeError, StoreError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.load_options import LoadOptions
from seasonboard.store.bundles.packing import packed_bundle, since_load, write_bundle
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.undo import undo_last_load
from tests.bundles.pair import changed
from tests.intake.desk import SMALL_SEASON
from tests.intake.test_corrections import CORRECTED

JUDO = "team,department,sport,sex\nT1,D1,judo,women\n"
NEW = "team,department,sport,sex\nT9,D1,golf,men\n"
ATHLETE = "athlete,team,season,name\nA9,T9,2026,Di\n"


def test_a_whole_season_arrives_cell_for_cell(season, trainer):
    plan = trainer.take(season.bundle())
    assert {one.table: one.new for one in plan.tables} == {
        name: text.count("\n") - 1 for name, text in SMALL_SEASON.items()
    }
    assert trainer.content == season.content


@pytest.mark.long
def test_every_cell_that_can_change_arrives_changed_and_is_taken_back(season, trainer):
    trainer.take(season.bundle())
    before = trainer.everything()
    season.load(**CORRECTED)
    bundle = season.bundle(since=1)
    trainer.take(bundle)
    assert trainer.content == season.content
    undo_last_load(trainer.store)
    assert trainer.everything() == before
    trainer.take(bundle)
    assert trainer.content == season.content


def test_the_same_bundle_twice_changes_nothing(both):
    maker, trainer = both
    bundle = maker.bundle()
    before = trainer.everything()
    plan = trainer.take(bundle)
    assert plan.is_empty
    assert trainer.everything() == before


def test_ones_own_bundle_changes_nothing(maker):
    bundle = maker.bundle()
    maker.load(teams=JUDO)
    plan = maker.take(bundle)
    assert plan.is_empty
    assert "this store or a copy of it" in plan.summary.sentences[0]


def test_only_what_is_new_or_changed_since_is_carried(maker):
    after = maker.last
    maker.load(teams=JUDO + NEW.splitlines()[1] + "\n")
    _, packed = packed_bundle(maker.store, after)
    assert packed.tables == (("teams", 1, 1),)
    assert (packed.since, packed.until) == (1, 2)
    assert packed_bundle(maker.store, 2)[1].tables == ()


def test_a_bundle_without_rows_still_says_what_its_store_knows(both):
    maker, trainer = both
    maker.load(teams=JUDO)
    trainer.load(teams=JUDO)
    plan = trainer.take(maker.bundle(since=1))
    assert (plan.tables[0].new, plan.tables[0].changed, plan.is_empty) == (0, 0, False)
    maker.load(teams=NEW)
    assert trainer.take(maker.bundle(since=2)).tables[0].new == 1


def test_changes_are_logged_under_the_bundle(both):
    maker, trainer = both
    maker.load(teams=JUDO)
    plan = trainer.take(maker.bundle())
    assert plan.summary.changes[0].file.endswith(".bundle › teams")
    assert changed(plan) == [("T1", "sport", "soccer", "judo")]


def test_a_bundle_that_counts_on_an_earlier_one_waits_for_it(both):
    maker, trainer = both
    maker.load(teams=NEW)
    first = maker.bundle(since=1)
    maker.load(roster=ATHLETE)
    second = maker.bundle(since=2)
    before = trainer.everything()
    with pytest.raises(IntakeError, match="counts on 1 load before that") as refused:
        trainer.take(second)
    assert "Load the bundle with those first" in refused.value.hint
    assert trainer.everything() == before
    trainer.take(first)
    trainer.take(second)
    assert trainer.content == maker.content


def test_an_older_bundle_after_a_newer_one_changes_nothing(both):
    maker, trainer = both
    maker.load(teams=JUDO)
    first = maker.bundle()
    maker.load(teams=JUDO.replace("judo", "golf"))
    trainer.take(maker.bundle())
    plan = trainer.take(first)
    assert plan.is_empty
    assert trainer.content == maker.content


TEXTS = ["=1+1", "'=1+1", "''@x", "-pain", "+1 knee", "0042", "a, b; c", 'said "no"', "Total", "NA"]
TEXTS += [
    "[bold]x[/]", "{x}", "é 李 🏐", "1e5", "1.10", "2026-01-02", "-", "null", "a · b", "%s \\n",
]  # fmt: skip


def test_text_passes_letter_for_letter(maker, trainer):
    lines = [
        f'"{text}",2026-09-08,"{text}"'.replace('"no"', '""no""') for text in (*TEXTS, "Sum 3")
    ]
    guarded = [line.replace("\"'", "\"''").replace('"=', "\"'=") for line in lines]
    maker.load(decisions="decision,decided_on,text\n" + "\n".join(guarded) + "\n")
    assert maker.cell("decisions", "text", decision="'=1+1") == "'=1+1"
    trainer.take(maker.bundle())
    assert trainer.content["decisions"] == maker.content["decisions"]
    assert {row[0] for row in trainer.content["decisions"]} >= set(TEXTS)


def test_a_bundle_goes_alone_and_whole(maker, trainer):
    bundle = maker.bundle()
    with pytest.raises(IntakeError, match="loaded by itself"):
        plan_load(trainer.store, [bundle, maker.folder / "teams.csv"])
    with pytest.raises(IntakeError, match="taken whole"):
        trainer.take(bundle, keep_good=True)
    with pytest.raises(IntakeError, match="there is none"):
        plan_load(trainer.store, [maker.folder], LoadOptions(conflicts="mine"))


@pytest.mark.parametrize(
    ("since", "load"), [(None, 0), ("0", 0), ("2", 2), ("2020-01-01", 0), ("2099-01-01", 2)]
)
def test_since_is_a_load_or_a_day(maker, since, load):
    maker.load(teams=JUDO)
    assert since_load(maker.store, since) == load


@pytest.mark.parametrize("since", ["3", "yesterday", "-1", "2026-13-01", "", "1.5", "²"])
def test_since_something_else_is_told(maker, since):
    maker.load(teams=JUDO)
    with pytest.raises(StoreError):
        since_load(maker.store, since)


def test_a_bundle_makes_a_store_where_there_is_none(maker, tmp_path):
    made = tmp_path / "made.duckdb"
    load_paths(made, [maker.bundle()], UnattendedLoad())
    packed = write_bundle(made, tmp_path / "back.bundle")
    assert [table for table, *_ in packed.tables] == [
        one.table for one in plan_load(maker.store, [tmp_path / "back.bundle"]).tables
    ]
    assert plan_load(maker.store, [tmp_path / "back.bundle"]).is_empty
    assert sorted(one.name for one in tmp_path.glob("*.*")) == ["back.bundle", "made.duckdb"]


def test_a_bundle_is_written_whole_or_not_at_all(maker, tmp_path):
    made = tmp_path / "made.duckdb"
    load_paths(made, [maker.bundle()], UnattendedLoad())
    with pytest.raises(StoreError, match="is not a name for a bundle"):
        write_bundle(made, tmp_path / "out.zip")
    with pytest.raises(StoreError, match="does not exist"):
        write_bundle(made, tmp_path / "nowhere" / "out.bundle")
    (tmp_path / "diary.bundle").write_text("mine")
    with pytest.raises(StoreError, match="is no bundle; it was left as it is"):
        write_bundle(made, tmp_path / "diary.bundle")
    assert (tmp_path / "diary.bundle").read_text() == "mine"
    (tmp_path / "folder.bundle").mkdir()
    with pytest.raises(StoreError, match="is a folder"):
        write_bundle(made, tmp_path / "folder.bundle")
    assert list(tmp_path.glob(".*")) == []
