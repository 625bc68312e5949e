"""What each side changed meets in the middle; what both changed is a person's to decide."""

import shutil

import pytest

from seasonboard.errors import IntakeError
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_last_load
from seasonboard.store.store import open_store
from tests.bundles.pair import TEAMS, Place, changed
from tests.reused import ReusedStore


def sport(word: str) -> str:
    return f"team,department,sport,sex\nT1,D1,{word},women\n"


def roster(name: str, jersey: str) -> str:
    return f"athlete,team,season,name,jersey\nA1,T1,2026,{name},{jersey}\n"


def told_sport(place: Place) -> object:
    return place.cell("teams", "sport", team="T1")


def test_different_cells_of_one_row_go_together(both):
    maker, trainer = both
    maker.load(roster=roster("Ana Reid", "07"))
    trainer.load(roster=roster("Ana Reed", "70"))
    plan = trainer.take(maker.bundle())
    assert changed(plan) == [("A1 · T1 · 2026", "name", "Ana Reed", "Ana Reid")]
    assert changed(maker.take(trainer.bundle())) == [("A1 · T1 · 2026", "jersey", "07", "70")]
    assert maker.content == trainer.content
    assert maker.cell("roster", "name", athlete="A1") == "Ana Reid"
    assert maker.cell("roster", "jersey", athlete="A1") == "70"


@pytest.fixture
def apart(both: tuple[Place, Place]) -> tuple[Place, Place]:
    """Return two places that changed one cell each in their way."""
    maker, trainer = both
    maker.load(teams=sport("judo"))
    trainer.load(teams=sport("golf"))
    return both


def test_a_cell_that_both_changed_is_listed_and_nothing_is_written(apart):
    maker, trainer = apart
    maker.load(departments="department,name,plan,time_zone\nD9,New,onsite printer,Asia/Tokyo\n")
    before = trainer.everything()
    with pytest.raises(IntakeError, match="1 cell was changed both here and there") as refused:
        trainer.take(maker.bundle())
    (problem,) = refused.value.problems
    assert "› teams, T1, column sport: was “soccer”; here it is “golf”" in problem.sentence()
    assert "there “judo”" in problem.sentence()
    assert "--keep mine" in refused.value.hint
    assert trainer.everything() == before


@pytest.mark.long
@pytest.mark.parametrize(("wish", "word"), [("mine", "golf"), ("theirs", "judo")])
def test_a_decision_for_one_side_holds_on_both(apart, wish, word):
    maker, trainer = apart
    plan = trainer.take(maker.bundle(), conflicts=wish)
    assert [one.column for one in plan.notes] == ["sport"]
    assert told_sport(trainer) == word
    maker.take(trainer.bundle())
    assert told_sport(maker) == word
    assert maker.content == trainer.content


@pytest.mark.long
@pytest.mark.parametrize("later", ["maker", "trainer"])
def test_the_newest_wins_when_it_is_wished(both, later):
    maker, trainer = both
    for place, word in [(maker, "judo"), (trainer, "golf")][:: 1 if later == "trainer" else -1]:
        place.load(teams=sport(word))
    trainer.take(maker.bundle(), conflicts="newest")
    assert told_sport(trainer) == ("judo" if later == "maker" else "golf")
    maker.take(trainer.bundle())
    assert maker.content == trainer.content


def test_opposite_decisions_are_a_conflict_again_not_two_truths(apart):
    maker, trainer = apart
    to_trainer, to_maker = maker.bundle(), trainer.bundle()
    trainer.take(to_trainer, conflicts="mine")
    maker.take(to_maker, conflicts="mine")
    assert (told_sport(maker), told_sport(trainer)) == ("judo", "golf")
    with pytest.raises(IntakeError, match="1 cell was changed both"):
        trainer.take(maker.bundle())
    trainer.take(maker.bundle(), conflicts="mine")
    maker.take(trainer.bundle())
    assert (told_sport(maker), told_sport(trainer)) == ("golf", "golf")
    assert trainer.take(maker.bundle()).is_empty


def test_a_decision_can_be_taken_back(apart):
    maker, trainer = apart
    before = trainer.everything()
    trainer.take(maker.bundle(), conflicts="mine")
    undo_last_load(trainer.store)
    assert trainer.everything() == before


def test_the_same_change_on_both_sides_is_no_conflict(both):
    maker, trainer = both
    maker.load(teams=sport("judo"))
    trainer.load(teams=sport("judo"))
    assert changed(trainer.take(maker.bundle())) == []
    trainer.load(teams=sport("golf"))
    maker.take(trainer.bundle())
    assert told_sport(maker) == "golf"


def test_going_back_to_an_old_value_is_a_change_like_any_other(both):
    maker, trainer = both
    maker.load(teams=sport("judo"))
    trainer.take(maker.bundle())
    maker.load(teams=sport("soccer"))
    assert changed(trainer.take(maker.bundle())) == [("T1", "sport", "judo", "soccer")]
    trainer.load(teams=sport("judo"))
    assert changed(maker.take(trainer.bundle())) == [("T1", "sport", "soccer", "judo")]


def test_both_loaded_the_same_files_before_they_met(maker, trainer):
    """Neither has seen a load of the other; what a value was changed from tells who is newer."""
    trainer.load(**TEAMS)
    maker.load(teams=sport("judo"))
    trainer.load(roster=roster("Ana Reid", "07"))
    assert changed(trainer.take(maker.bundle())) == [("T1", "sport", "soccer", "judo")]
    plan = maker.take(trainer.bundle())
    assert changed(plan) == [("A1 · T1 · 2026", "name", "Ana Reed", "Ana Reid")]
    assert maker.content == trainer.content


@pytest.mark.long
def test_values_that_each_side_had_and_left_are_put_to_a_person(maker, trainer):
    """Neither has seen a load of the other, and each has been where the other is now."""
    trainer.load(**TEAMS)
    trainer.load(teams=sport("judo"))
    maker.load(teams=sport("judo"))
    maker.load(teams=sport("soccer"))
    with pytest.raises(IntakeError, match="1 cell was changed both"):
        trainer.take(maker.bundle())


@pytest.mark.long
def test_rows_whose_keys_look_alike_when_joined_are_kept_apart(both):
    maker, trainer = both
    head = "athlete,team,season,name,jersey\n"
    rows = ("A · B,C,2026,Di,{}\n", "A,B · C,2026,Ed,{}\n", "A ·,· C,2026,Flo,{}\n")
    teams = "".join(f"{team},D1,judo,women\n" for team in ("C", "B · C", "· C"))
    maker.load(teams=f"team,department,sport,sex\n{teams}")
    maker.load(roster=head + "".join(row.format(1) for row in rows))
    trainer.take(maker.bundle())
    maker.load(roster=head + rows[0].format(2))
    trainer.load(roster=head + rows[1].format(3) + rows[2].format(4))
    trainer.take(maker.bundle())
    maker.take(trainer.bundle())
    assert maker.content == trainer.content
    jerseys = [trainer.cell("roster", "jersey", athlete=key) for key in ("A · B", "A", "A ·")]
    assert jerseys == ["2", "3", "4"]


def test_one_new_row_with_two_contents_is_a_conflict(both):
    maker, trainer = both
    maker.load(teams="team,department,sport,sex\nT9,D1,judo,women\n")
    trainer.load(teams="team,department,sport,sex\nT9,D1,golf,women\n")
    with pytest.raises(IntakeError) as refused:
        trainer.take(maker.bundle())
    (problem,) = refused.value.problems
    assert "was not known; here it is “golf”" in problem.sentence()


def test_a_row_that_came_by_way_of_another_place_is_still_its_makers(both):
    maker, trainer = both
    with ReusedStore() as store:
        clinic = Place(store, maker.folder.parent / "clinic")
        clinic.take(maker.bundle())
        clinic.load(teams="team,department,sport,sex\nT9,D1,golf,women\n")
        maker.load(teams="team,department,sport,sex\nT9,D1,judo,women\n")
        trainer.take(maker.bundle())
        with pytest.raises(IntakeError, match="1 cell was changed both"):
            clinic.take(trainer.bundle())


def test_a_copied_store_knows_what_it_has_in_common(maker, tmp_path):
    load_paths(tmp_path / "one.duckdb", [maker.folder], UnattendedLoad())
    shutil.copy(tmp_path / "one.duckdb", tmp_path / "two.duckdb")
    with (
        open_store(tmp_path / "one.duckdb", read_only=False) as first,
        open_store(tmp_path / "two.duckdb", read_only=False) as second,
    ):
        one, two = Place(first, tmp_path / "one"), Place(second, tmp_path / "two")
        one.load(teams=sport("judo"))
        two.load(roster=roster("Ana Reid", "70"))
        bundle = one.bundle(since=1)
        assert changed(two.take(bundle)) == [("T1", "sport", "soccer", "judo")]
        one.take(two.bundle(since=1))
        assert one.content == two.content


def test_an_undone_load_that_was_sent_comes_back_with_the_others_bundle(both):
    maker, trainer = both
    maker.load(teams=sport("judo"))
    trainer.take(maker.bundle())
    undo_last_load(maker.store)
    assert changed(trainer.take(maker.bundle())) == []
    assert changed(maker.take(trainer.bundle())) == [("T1", "sport", "soccer", "judo")]


@pytest.mark.long
def test_three_places_agree_whatever_way_bundles_go(both):
    maker, trainer = both
    with ReusedStore() as store:
        clinic = Place(store, maker.folder.parent / "clinic")
        maker.load(teams=sport("judo"))
        trainer.load(roster=roster("Ana Reid", "70"))
        first, second = maker.bundle(), trainer.bundle()
        clinic.take(second)
        clinic.take(first)
        trainer.take(clinic.bundle())
        maker.take(trainer.bundle())
        assert maker.content == trainer.content == clinic.content
        assert told_sport(clinic) == "judo"
        for place in (maker, trainer):
            assert changed(clinic.take(place.bundle())) == []


def test_a_question_fixed_in_advance_is_carried_and_no_bundle_changes_it(both):
    maker, trainer = both
    heads = "asked_on,kind,area,outcome,setting,horizon,comparison\n"
    kinds = "kind,area\nwrist,wrist\n"
    maker.load(kinds=kinds, questions=f"{heads}2026-08-01,wrist,,time loss,both,8,same session\n")
    trainer.take(maker.bundle())
    assert trainer.content == maker.content
    undo_last_load(trainer.store)
    assert trainer.content["questions"] == []
    trainer.load(kinds=kinds, questions=f"{heads}2026-08-01,wrist,,any,both,8,same session\n")
    with pytest.raises(IntakeError, match="changed both here and there"):
        trainer.take(maker.bundle())
    with pytest.raises(IntakeError, match="A fixed question never changes"):
        trainer.take(maker.bundle(), conflicts="theirs")
    trainer.take(maker.bundle(), conflicts="mine")
    assert trainer.cell("questions", "outcome", kind="wrist") == "any"
