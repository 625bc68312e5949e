"""Loading on the board by choosing: a file of a folder, an answer, a sheet, a column's meaning."""

import os
from datetime import date

from openpyxl import Workbook
from textual.widgets import Input, OptionList

from seasonboard.errors import IntakeError, OpenQuestion
from seasonboard.load_dialog import FirstRows
from seasonboard.load_options import LoadOptions
from seasonboard.ui.forms.fields import Choices
from seasonboard.ui.loading.file_list import FileList, lines_in
from seasonboard.ui.loading.first_rows import first_rows_lines
from seasonboard.ui.loading.load_questions import FILL, question_of
from seasonboard.ui.loading.screen import LoadStep
from tests.ui.board import check, press, text
from tests.ui.kept import rows, typing
from tests.ui.test_loading import lines, load, step

PLAYERS = ("Zoë Abbott", "Bo Reyes")


def add_grid(book, name, days, marks):
    """Add a sheet with a day in each column; `marks` are those of each player."""
    sheet = book.create_sheet(name)
    sheet.append([f"T practices {name} 2026"])
    sheet.append(["Player", *days])
    for player, own in zip(PLAYERS, marks, strict=True):
        sheet.append([player, *own])


def write_book(path, **sheets):
    """Write a workbook of attendance grids: name → days and marks."""
    book = Workbook()
    book.remove(book.active)
    for name, (days, marks) in sheets.items():
        add_grid(book, name, days, marks)
    book.save(path)


async def go_to_line(pilot, part):
    """Put the cursor on the line that holds a text."""
    choices = pilot.app.screen.query_one(Choices)
    place = next(n for n, line in enumerate(lines(pilot)) if part in line)
    by = place - choices.cursor
    await press(pilot, *(["down"] * by if by > 0 else ["up"] * -by))


SEPTEMBER = [date(2026, 9, day) for day in (7, 8, 9, 10)]
OCTOBER = [date(2026, 10, day) for day in (5, 6, 7, 8)]


async def test_an_attendance_grid_is_chosen_from_the_folder_and_asks_one_question(
    board, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "squads").mkdir()
    write_book(tmp_path / "squads" / "daily.xlsx", fall=(SEPTEMBER, ["PPP ", "P PP"]))
    async with typing(board) as pilot:
        await press(pilot, "l", "f", *"squ", "enter")
        assert pilot.app.screen.query_one(FileList).folder.name == "squads"
        await press(pilot, *"dai", "enter")
        assert step(pilot) is LoadStep.ASKED, text(pilot)
        assert "2 cells are blank" in " ".join(text(pilot).split())
        assert "--" not in text(pilot)
        check(text(pilot), "load-question-80x24")
        await go_to_line(pilot, "no row")
        await press(pilot, "enter")
        assert step(pilot) is LoadStep.PLAN, text(pilot)
        check(text(pilot), "load-grid-80x24")
        await press(pilot, "enter")  # the plan is plain, so the cursor stands on writing it
        assert "Written as load 2" in text(pilot)
    assert len(rows(board, "sessions")) == 2 + 4
    assert len(rows(board, "attendance")) == 4 + 6


async def test_a_sheet_is_left_out_with_one_key_and_read_after_all_with_esc(board, tmp_path):
    file = tmp_path / "daily.xlsx"
    write_book(file, fall=(SEPTEMBER, ["PXPP", "PXPP"]), winter=(OCTOBER, ["PPXP", "PPXP"]))
    async with typing(board) as pilot:
        await load(pilot, file)
        assert step(pilot) is LoadStep.PLAN, text(pilot)
        await go_to_line(pilot, "› winter")
        await press(pilot, "minus")
        choices = pilot.app.screen.query_one(Choices)
        assert ("daily.xlsx › winter", "→ left out") in choices.lines
        await press(pilot, "escape")
        assert ("daily.xlsx › winter", "→ attendance") in choices.lines
        await go_to_line(pilot, "› winter")
        await press(pilot, "minus", "ctrl+s")
        assert "Written as load 2" in text(pilot)
    days = {str(row["starts_at"])[:10] for row in rows(board, "sessions")}
    assert max(days) < "2026-10"


async def test_a_mark_is_given_another_meaning_and_the_kept_mapping_too(board, tmp_path):
    file = tmp_path / "daily.xlsx"
    write_book(file, fall=(SEPTEMBER, ["PXPP", "PXPP"]))

    def parts_on_the_second_day():
        return {row["part"] for row in rows(board, "attendance") if "09-08" in row["session"]}

    async with typing(board) as pilot:
        await load(pilot, file)
        assert {"  mark p is full in all rows", "  mark x is full in all rows"} <= set(lines(pilot))
        await go_to_line(pilot, "mark x")
        await press(pilot, "enter", *"limited", "enter")
        assert "  mark x is limited in all rows" in lines(pilot), text(pilot)
        await press(pilot, "ctrl+s")
        assert "Written as load 2" in text(pilot)
        assert parts_on_the_second_day() == {"limited"}
        pilot.app.screen.query_one(Input).value = str(file)
        await press(pilot, "enter")
        await go_to_line(pilot, "mark x is limited")
        await press(pilot, "enter", *"out inj", "enter")
        assert "  mark x is out injury in all rows" in lines(pilot), text(pilot)
        await press(pilot, "ctrl+s")
    assert parts_on_the_second_day() == {"out"}


async def test_sessions_are_marked_as_completely_recorded_from_the_plan(board, tmp_path):
    file = tmp_path / "daily.xlsx"
    write_book(file, fall=(SEPTEMBER, ["PPPP", "PPPP"]))
    async with typing(board) as pilot:
        await load(pilot, file)
        await go_to_line(pilot, "wear is complete: no")
        await press(pilot, "enter")
        await go_to_line(pilot, "wear is complete: yes")
        await press(pilot, "minus")
        await go_to_line(pilot, "wear is complete: no")
        await press(pilot, "enter")
        check(text(pilot), "load-wear-complete-80x24")
        await press(pilot, "ctrl+s")
        assert "Written as load 2" in text(pilot)
    said = {row["wear_complete"] for row in rows(board, "sessions") if "-09-" in row["session"]}
    assert said == {"yes"}


async def test_a_column_is_given_another_meaning_and_the_plan_shows_it(board, tmp_path):
    file = tmp_path / "squad.csv"
    file.write_text("Name,Number,Locker\nIda Moor,4,17\nUma Falk,5,18\n")
    async with typing(board) as pilot:
        await load(pilot, file)
        assert step(pilot) is LoadStep.PLAN, text(pilot)
        assert "  “Number” → jersey" in lines(pilot)
        await go_to_line(pilot, "“Locker”")
        await press(pilot, "enter", *"jersey", "enter")
        assert {"  “Locker” → jersey", "  “Number” → left out"} <= set(lines(pilot))
        await press(pilot, "ctrl+s")
    assert {row["jersey"] for row in rows(board, "roster")} >= {"17", "18"}


async def test_a_guessed_team_is_changed_from_the_plan_and_the_kept_mapping_too(board, tmp_path):
    file = tmp_path / "squad.csv"
    file.write_text("Name,Number\nIda Moor,4\nUma Falk,5\n")
    async with typing(board) as pilot:
        await press(pilot, "l", "f")
        pilot.app.screen.query_one(Input).value = str(file)
        await press(pilot, "enter")
        assert "  team is T in all rows" in lines(pilot)
        await go_to_line(pilot, "team is")
        await press(pilot, "enter", *"type", "enter")
        assert step(pilot) is LoadStep.FILL
        await press(pilot, "escape")
        assert step(pilot) is LoadStep.PLAN
        await press(pilot, "enter", *"type", "enter")
        pilot.app.screen.query_one(Input).value = "Old Quarry, women, golf, America/Denver"
        await press(pilot, "enter")
        assert "  team is OQ-WGOL in all rows" in lines(pilot)
        check(text(pilot), "load-settled-80x24")
        await press(pilot, "ctrl+s")
        pilot.app.screen.query_one(Input).value = str(file)
        await press(pilot, "enter")
        assert "There is nothing to write: 2 rows are there already." in text(pilot)
        await go_to_line(pilot, "team is OQ-WGOL")
        await press(pilot, "enter", "home", *"T", "enter")
        assert "  team is T in all rows" in lines(pilot), text(pilot)
        await go_to_line(pilot, "“Number”")
        await press(pilot, "minus", "ctrl+s")
        assert "Written as load 3" in text(pilot)
    new = {
        (row["team"], row["jersey"]) for row in rows(board, "roster") if row["name"][:3] == "Ida"
    }
    assert new == {("OQ-WGOL", "4"), ("T", None)}


async def test_a_plan_with_a_doubt_is_not_written_by_enter(board, tmp_path):
    file = tmp_path / "roster.csv"
    file.write_text("athlete,team,season,name,jersey\nA1,T,2026,Zoë Abbott,9\n")
    async with typing(board) as pilot:
        await load(pilot, file)
        assert "roster.jersey: 7 → 9" in text(pilot)
        await press(pilot, "enter")
        assert step(pilot) is LoadStep.PATH
    assert board.entry_writer.last().load_no == 1


async def test_a_whole_path_can_still_be_typed_and_the_list_follows_it(board, tmp_path):
    (tmp_path / "deep").mkdir()
    (tmp_path / "deep" / "one.csv").touch()
    (tmp_path / "deep" / "notes.pdf").touch()
    async with typing(board) as pilot:
        await press(pilot, "l", "f")
        pilot.app.screen.query_one(Input).value = f"{tmp_path}/deep/"
        await press(pilot, "down")
        shown = [str(one.prompt) for one in pilot.app.screen.query_one(OptionList).options]
        assert len(shown) == 2
        assert shown[1].startswith("one.csv")


def test_a_folder_lists_what_can_be_loaded_newest_first(tmp_path):
    for age, name in enumerate(("c.csv", "b.xlsx", "a.bundle", ".hidden.csv", "letter.docx")):
        (tmp_path / name).touch()
        os.utime(tmp_path / name, (1e9 - age, 1e9 - age))
    (tmp_path / "folder").mkdir()
    shown = [line.shown for line in lines_in(tmp_path, "")]
    assert shown == ["../", "all 2 tables of this folder", "folder/", "c.csv", "b.xlsx", "a.bundle"]
    assert [line.shown for line in lines_in(tmp_path, "B X")] == ["b.xlsx"]
    assert [line.shown for line in lines_in(tmp_path, f"{tmp_path}/a.")] == ["a.bundle"]


def ask(column, expected, choices, **constants):
    question = OpenQuestion("f.xlsx", None, column, None, expected, None, "value", "attendance",
                            choices, may_fill=True)  # fmt: skip
    return question_of(IntakeError("Open.", [question]), LoadOptions(constants=constants))


def test_a_value_is_answered_under_the_name_of_its_column_alone():
    question = ask("team", "which? Say it with --value team='Hill, women, golf, UTC'.", ("T", "U"))
    first, _, typed = question.answers
    assert first.options.constants == {"team": "T"}
    assert (typed.fills, typed.example) == ("team", "Hill, women, golf, UTC")
    assert "--" not in " ".join(question.sentences)


def test_each_mark_that_is_answered_goes_with_those_before():
    expected = "what? Say it with --value marks='q=full' (full)."
    question = ask("marks", expected, ("q=full",), marks="z=out")
    assert question.answers[0].options.constants == {"marks": "z=out, q=full"}


def test_first_rows_without_room_go_on_below_with_their_numbers():
    first = FirstRows("roster", 2, ("athlete", "name"), (("A1", "Ida"), ("A2", None)))
    assert first_rows_lines(first, 80) == ["   athlete name", " 1 A1      Ida", " 2 A2      –"]
    assert first_rows_lines(first, 12) == [
        "   athlete", " 1 A1", " 2 A2", "   name", " 1 Ida", " 2 –",
    ]  # fmt: skip


def column_answers(column, expected):
    question = OpenQuestion("f.csv", 1, column, None, expected, None, "column", "guards",
                            ("Need by",), may_fill=True)  # fmt: skip
    return [one.shown for one in question_of(IntakeError("", [question]), LoadOptions()).answers]


def test_a_heading_comes_first_only_where_it_is_likely():
    assert column_answers("purpose", "which?") == ["preventive", "return", "Need by", FILL]
    assert column_answers("kind", "which?") == [FILL, "Need by"]
    assert column_answers("kind", "which? Is it “Need by”?") == ["Need by", FILL]
