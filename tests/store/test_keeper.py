"""Entries typed on the board: the checks, the log and the undo of a load."""

from datetime import date

import pytest

from seasonboard.entries import Entry
from seasonboard.errors import IntakeError, StoreError
from seasonboard.store.backups import list_backups
from seasonboard.store.entry_writer import StoreEntryWriter
from seasonboard.store.intake.export import export_tables


@pytest.fixture
def entry_writer(held):
    return StoreEntryWriter(held)


def entry(label="typed", **tables):
    return Entry(label, tables)


def rows(held, table):
    return held.ask(lambda store: export_tables(store)[table])


def hurt(**cells):
    base = {"injury": "I1", "athlete": "A", "occurred_on": "2026-09-02", "area": "knee"}
    return base | {"side": "left"} | cells


def practice(key, starts_at="2026-09-03T18:30"):
    season = {"team": "T", "season": "2026", "setting": "practice"}
    return season | {"session": key, "starts_at": starts_at}


def test_an_entry_is_written_as_a_load_under_its_label_and_taken_back(held, entry_writer):
    before = rows(held, "injuries")
    done = entry_writer.write(entry("injury of A, 2 Sep", injuries=[hurt()]))
    assert (done.load_no, done.new, done.changed) == (2, 1, 0)
    assert rows(held, "injuries").height == 1
    last = entry_writer.last()
    assert (last.load_no, last.labels, last.new) == (2, ("injury of A, 2 Sep",), 1)
    assert entry_writer.take_back(2).load_no == 2
    assert rows(held, "injuries").equals(before)


def test_the_week_calls_an_entry_by_its_label_and_a_load_by_its_files(held, entry_writer):
    entry_writer.write(entry("hurt, 2 Sep", injuries=[hurt()], sessions=[practice("007")]))
    days = {"since": date(2000, 1, 1), "until": date(9999, 1, 1)}
    files, typed = held.read("week/loads", **days)["what"].to_list()
    assert files.startswith("attendance.csv, departments.csv, guards.csv")
    assert typed == "hurt, 2 Sep"


def test_only_what_is_given_changes_and_what_is_given_empty_is_emptied(held, entry_writer):
    entry_writer.write(entry(injuries=[hurt(note="iced", tissue="bone")]))
    done = entry_writer.write(
        entry(injuries=[{"injury": "I1", "returned_on": "2026-09-09", "note": ""}])
    )
    assert (done.new, done.changed) == (0, 1)
    (row,) = rows(held, "injuries").to_dicts()
    assert (str(row["returned_on"]), row["note"], row["tissue"]) == ("2026-09-09", None, "bone")
    assert (row["area"], row["athlete"]) == ("knee", "A")


def test_rows_of_one_table_may_give_different_columns(held, entry_writer):
    parts = [
        {"session": "G2", "athlete": "A", "part": "out", "reason": "illness"},
        {"session": "G2", "athlete": "B", "part": "limited"},
    ]
    assert entry_writer.write(entry(attendance=parts)).changed == 2
    found = rows(held, "attendance").sort("athlete").select("part", "reason").rows()
    assert found == [("out", "illness"), ("limited", None)]


def test_a_wrong_cell_is_told_by_label_row_and_column_and_nothing_is_written(held, entry_writer):
    wrong = entry("attendance, G2", attendance=[
        {"session": "G2", "athlete": "A", "part": "full"},
        {"session": "G2", "athlete": "Z", "part": "full"},
    ])  # fmt: skip
    for act in (entry_writer.look, entry_writer.write):
        with pytest.raises(IntakeError) as refused:
            act(wrong)
        (told,) = refused.value.problems
        assert (told.file, told.row, told.column) == ("attendance, G2", 2, "athlete")
    assert entry_writer.last().load_no == 1


def test_looking_writes_nothing_and_the_same_entry_twice_changes_nothing(held, entry_writer):
    one = entry(injuries=[hurt()])
    assert (entry_writer.look(one).load_no, entry_writer.look(one).new) == (0, 1)
    assert rows(held, "injuries").height == 0
    entry_writer.write(one)
    again = entry_writer.write(one)
    assert (again.load_no, again.new, again.changed) == (0, 0, 0)


def test_a_sitting_is_backed_up_once_before_its_first_entry(held, entry_writer):
    for number in (1, 2, 3):
        entry_writer.write(
            entry(injuries=[hurt(injury=f"I{number}", occurred_on=f"2026-09-0{number}")])
        )
    assert [one.backup.cause for one in list_backups(held.path)] == ["before entries"]


def test_only_the_last_entry_is_taken_back(held, entry_writer):
    entry_writer.write(entry(injuries=[hurt()]))
    entry_writer.write(entry(injuries=[hurt(injury="I2", area="hand")]))
    with pytest.raises(StoreError, match="Another load"):
        entry_writer.take_back(2)
    assert rows(held, "injuries").height == 2


def test_a_time_is_one_of_the_department_and_zeros_of_a_key_are_kept(held, entry_writer):
    entry_writer.write(entry(sessions=[practice("007")]))
    row = rows(held, "sessions").filter(session="007").to_dicts()[0]
    assert str(row["starts_at"]) == "2026-09-03 18:30:00+00:00"


def test_a_row_without_a_key_makes_the_one_that_a_file_without_keys_would(held, entry_writer):
    keyless = {name: cell for name, cell in hurt().items() if name != "injury"}
    entry_writer.write(entry(injuries=[keyless]))
    assert rows(held, "injuries")["injury"].to_list() == ["A 2026-09-02 knee left"]
    assert entry_writer.write(entry(injuries=[keyless])).load_no == 0


def test_a_row_that_lacks_more_than_its_key_is_refused(held, entry_writer):
    lacking = {name: cell for name, cell in hurt().items() if name not in {"injury", "area"}}
    with pytest.raises(IntakeError, match="2 problems"):
        entry_writer.write(entry(injuries=[lacking]))


def test_an_unknown_table_or_column_is_refused(entry_writer):
    for wrong in ({"shoes": [{"size": "9"}]}, {"injuries": [hurt(colour="red")]}):
        with pytest.raises(StoreError, match=r"no (table|column)"):
            entry_writer.look(Entry("x", wrong))
