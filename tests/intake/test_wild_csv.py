"""CSV files as spreadsheets and people leave them: what is no record is left out, and told."""

import csv
import io

import pytest

from tests.intake.desk import SMALL_SEASON, Desk

HEADER = "team,department,sport,sex\n"
ROWS = "T8,D1,judo,men\nT9,D1,golf,women\n"


def said(notes) -> str:
    return " ".join(note.sentence() for note in notes)


@pytest.mark.parametrize(
    "above",
    ["North College\n", "North College,,,\nprinted 2 Nov 2026,,,\n,,,\n", '"A title, long"\n\n'],
    ids=["one", "three", "quoted"],
)
def test_title_lines_above_the_headings_are_left_out_and_told(loaded: Desk, above: str) -> None:
    plan = loaded.plan(teams=above + HEADER + ROWS)
    assert plan.tables[0].new == 2
    assert "stands above the headings" in said(plan.notes)


def test_rows_below_titles_keep_the_number_the_editor_shows(loaded: Desk) -> None:
    problem = loaded.problem(teams="North\n\n" + HEADER + ROWS + "T7,D1,chess,mem\n")
    assert (problem.row, problem.value) == (6, "mem")


@pytest.mark.parametrize("last", ["Total,2,,\n", "TOTAL,,2\n", "Grand total:,2,,\n\n,,,\n"])
def test_a_totals_line_below_is_left_out_and_told(loaded: Desk, last: str) -> None:
    plan = loaded.plan(teams=HEADER + ROWS + last)
    assert plan.tables[0].new == 2
    assert "is a totals line" in said(plan.notes)


PLAYED = "session,athlete,part,minutes\nS1,A1,full,90\nS2,A1,full,30\n"


@pytest.mark.parametrize(
    ("total", "word"), [("Total,,,120\n", "agrees"), ("Total,,,121\n", "is not the sum")]
)
def test_a_totals_line_is_held_against_the_rows_above(loaded: Desk, total: str, word: str) -> None:
    assert word in said(loaded.plan(attendance=PLAYED + total).notes)


def test_a_record_that_begins_with_total_but_is_whole_stays(loaded: Desk) -> None:
    plan = loaded.plan(teams=HEADER + ROWS + "Total,D1,judo,men\n")
    assert "Total" in plan.rows["teams"]["team"].to_list()


def test_a_totals_word_in_the_middle_is_a_row_like_any_other(loaded: Desk) -> None:
    problems = loaded.refusal(teams=HEADER + "Total,,,\n" + ROWS).problems
    assert {problem.row for problem in problems} == {2}


def test_headings_repeated_further_down_are_left_out_and_told(loaded: Desk) -> None:
    plan = loaded.plan(teams=HEADER + "T8,D1,judo,men\n" + HEADER + "T9,D1,golf,women\n")
    assert plan.tables[0].new == 2
    assert "the heading stands again in row 3" in said(plan.notes)


def test_empty_columns_and_rows_around_the_table_are_passed_over(loaded: Desk) -> None:
    text = ",,,,,,\n,team,department,sport,sex,,\n,T8,D1,judo,men,,\n,,,,,,\n,,,,,,\n"
    plan = loaded.plan(teams=text)
    assert plan.tables[0].new == 1
    assert plan.notes == ()


def test_empty_cells_beyond_the_last_heading_are_passed_over(loaded: Desk) -> None:
    assert loaded.plan(teams=HEADER + "T8,D1,judo,men,,\nT9,D1,golf,women\n").tables[0].new == 2


def test_a_semicolon_file_with_decimal_commas(loaded: Desk) -> None:
    text = "session;athlete;part;minutes\nS2;A1;full;22,5\nS3;A3;full;90\n"
    rows = loaded.plan(attendance=text).rows["attendance"]
    assert rows["minutes"].to_list() == [22.5, 90.0]


def test_cells_with_blanks_around_them_are_counted(loaded: Desk) -> None:
    plan = loaded.plan(teams=HEADER + "T8 ,D1,\u00a0judo,men\u200b\n")
    (note,) = plan.notes
    assert note.expected.startswith("3 cells had blanks")


def _written_otherwise(text: str, mark: str, ending: str, encoding: str) -> bytes:
    out = io.StringIO()
    rows = list(csv.reader(io.StringIO(text)))
    csv.writer(out, delimiter=mark, lineterminator=ending).writerows(rows)
    return out.getvalue().encode(encoding)


@pytest.mark.long
@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["lf", "crlf"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_the_same_season_in_another_writing_changes_nothing(
    loaded: Desk, mark: str, ending: str, encoding: str
) -> None:
    for name, text in SMALL_SEASON.items():
        loaded.put(**{name: _written_otherwise(text, mark, ending, encoding)})
    plan = loaded.plan()
    assert plan.is_empty
    assert sum(one.same for one in plan.tables) == sum(
        text.count("\n") - 1 for text in SMALL_SEASON.values()
    )


def test_a_file_of_another_separator_by_the_name_tsv(loaded: Desk) -> None:
    (loaded.folder / "teams.tsv").write_text((HEADER + ROWS).replace(",", "\t"))
    assert loaded.plan().tables[0].new == 2
