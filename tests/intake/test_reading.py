"""Bytes become rows of text, or a clear reason why not."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.errors import IntakeError
from seasonboard.store.intake.plan import plan_load
from tests.intake.desk import SMALL_SEASON, Desk

HEADER = "team,department,sport,sex\n"


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "with mark"])
def test_utf8_is_read_with_or_without_a_byte_order_mark(loaded: Desk, mark: bytes) -> None:
    plan = loaded.plan(teams=mark + (HEADER + "T9,D1,fútbol,men\n").encode())
    assert plan.rows["teams"]["sport"].to_list() == ["fútbol"]


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
@pytest.mark.parametrize("last", [True, False], ids=["ended", "open"])
def test_every_line_ending_reads_the_same(loaded: Desk, ending: str, *, last: bool) -> None:
    text = HEADER + "T8,D1,judo,men\nT9,D1,judo,women" + ("\n" if last else "")
    assert loaded.plan(teams=text.replace("\n", ending)).rows["teams"].height == 2


TEXT = HEADER + "T8,D1,judo,men\nT9,D1,fútbol,men\n"


@pytest.mark.parametrize(
    ("encoding", "called"),
    [
        ("cp1252", "Windows-1252"),
        ("utf-16", "UTF-16"),
        ("utf-16-le", "UTF-16"),
        ("utf-16-be", "UTF-16"),
    ],
)
def test_other_encodings_are_read_and_told(loaded: Desk, encoding: str, called: str) -> None:
    plan = loaded.plan(teams=TEXT.encode(encoding))
    assert plan.rows["teams"]["sport"].to_list() == ["judo", "fútbol"]
    (note,) = plan.notes
    assert note.file == "teams.csv"
    assert f"read as {called}" in note.expected


def test_windows_quotation_marks_and_dashes_are_read(loaded: Desk) -> None:
    text = "athlete,team,season,name\nB1,T1,2026,Renée O’Dell – left\n"
    plan = loaded.plan(roster=text.encode("cp1252"))
    assert plan.rows["roster"]["name"].to_list() == ["Renée O’Dell – left"]


@pytest.mark.parametrize(
    "data",
    [b"\x00" * 50, b"PK\x03\x04" + b"x" * 90, bytes(range(256)) * 4, b"\x89PNG\r\n\x1a\n"],
    ids=["nul", "workbook", "any byte", "picture"],
)
def test_what_is_not_text_is_not_a_csv_file(loaded: Desk, data: bytes) -> None:
    assert "is not a CSV file" in loaded.problem(teams=data).expected


@pytest.mark.parametrize("data", [b"", b"\xef\xbb\xbf", b"\n \n"], ids=["0", "mark", "blank"])
def test_an_empty_file_is_refused(loaded: Desk, data: bytes) -> None:
    assert "is empty" in loaded.problem(teams=data).expected


@pytest.mark.parametrize("text", [HEADER, HEADER.strip(), HEADER + "\n\n,,,\n"])
def test_a_header_alone_is_a_table_of_no_rows(loaded: Desk, text: str) -> None:
    plan = loaded.plan(teams=text)
    assert [(one.new, one.changed, one.same) for one in plan.tables] == [(0, 0, 0)]
    assert plan.is_empty


def test_quoted_commas_breaks_and_quotes_stay_in_their_cell(loaded: Desk) -> None:
    text = (
        "injury,athlete,occurred_on,area,side,note\n"
        'I5,A1,2026-09-05,knee,left,"Rolled it\r\nin warm-up, iced"\n'
        'I6,A1,2026-09-12,knee,left,"Said ""fine"", then limped"\n'
        'I7,A1,2026-09-19,knee,left,"line one\nline two\n"\n'
    )
    assert loaded.plan(injuries=text).rows["injuries"]["note"].to_list() == [
        "Rolled it\nin warm-up, iced",
        'Said "fine", then limped',
        "line one\nline two",
    ]


@pytest.mark.parametrize(
    ("row", "said"),
    [("T9,D1,judo", "has 3 cells, too few"), ("T9,D1,judo,men,x", "has 5 cells, too many")],
)
@pytest.mark.parametrize("first", ["T8,D1,judo,men", 'T8,D1,12" judo,men'])
def test_a_row_with_too_few_or_too_many_cells_is_told(loaded, first, row, said) -> None:
    problems = loaded.refusal(teams=f"{HEADER}{first}\n{row}\n").problems
    ragged = next(problem for problem in problems if problem.column is None)
    assert ragged.row == 3
    assert said in ragged.expected
    assert "names 4 columns" in ragged.expected


def test_a_quote_inside_a_bare_cell_is_an_ordinary_letter(loaded: Desk) -> None:
    plan = loaded.plan(teams=HEADER + 'T8,D1,12" ball,men\nT9,D1,"x",men\n')
    assert plan.rows["teams"]["sport"].to_list() == ['12" ball', "x"]


def test_a_totals_word_in_the_middle_is_a_row_like_any_other(loaded: Desk) -> None:
    problems = loaded.refusal(teams=HEADER + "Total,,,\nT8,D1,judo,men\n").problems
    assert {problem.row for problem in problems} == {2}


def test_a_semicolon_file_with_decimal_commas(loaded: Desk) -> None:
    text = "session;athlete;part;minutes\nS2;A1;full;22,5\nS3;A3;full;90\n"
    rows = loaded.plan(attendance=text).rows["attendance"]
    assert rows["minutes"].to_list() == [22.5, 90.0]


def test_a_file_of_another_separator_by_the_name_tsv(loaded: Desk) -> None:
    (loaded.folder / "teams.tsv").write_text(TEXT.replace(",", "\t"))
    assert loaded.plan().tables[0].new == 2


@pytest.mark.parametrize("mark", [";", "\t", "|"], ids=["semicolon", "tab", "bar"])
@pytest.mark.parametrize("cell", ["judo", '"two; words\tand | more, quoted"', '12" ball'])
def test_other_separators_are_read(loaded: Desk, mark: str, cell: str) -> None:
    text = HEADER.replace(",", mark) + mark.join(["T9", "D1", cell, "men"]) + "\n"
    plan = loaded.plan(teams=text)
    assert plan.rows["teams"].select("team", "sex").row(0) == ("T9", "men")
    assert plan.rows["teams"]["sport"][0].startswith(cell.strip('"')[:3])


def test_a_row_of_the_long_file_with_another_look_is_read_like_all_others(loaded: Desk) -> None:
    """Nothing is guessed from the first rows: keys stay text, half minutes stay half."""
    roster = ["athlete,team,season,name"] + [f"{i:05d},T1,2026,n" for i in range(300)]
    roster += [f"N{i:04d},T1,2026,n" for i in range(300)]
    rows = [f"S1,{i:05d},full,60" for i in range(300)] + [
        f"S1,N{i:04d},full,60" for i in range(300)
    ]
    rows[299] = "S1,00299,full,60.5"
    text = "session,athlete,part,minutes\n" + "\n".join(rows)
    frame = loaded.plan(attendance=text, roster="\n".join(roster)).rows["attendance"]
    assert frame["minutes"].sum() == 60 * 599 + 60.5
    assert frame["athlete"][0] == "00000"
    assert frame["athlete"][-1] == "N0299"


JUNK = [b'"', b",", b"\n", b"\r", b"\x00", b"\xff", b"{x}", b"[/x]", b"-1", b"\xe2\x80\xae", b""]


@settings(max_examples=20)
@given(data=st.data())
def test_a_damaged_file_is_read_or_refused_but_never_crashes(loaded_store, data) -> None:
    name = data.draw(st.sampled_from(sorted(SMALL_SEASON)))
    content = SMALL_SEASON[name].encode()
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(content)))
        cut = data.draw(st.integers(0, 12))
        content = content[:place] + data.draw(st.sampled_from(JUNK)) + content[place + cut :]
    with TemporaryDirectory() as folder:
        file = Path(folder) / f"{name}.csv"
        file.write_bytes(content)
        try:
            told = plan_load(loaded_store, [file]).notes
        except IntakeError as refused:
            told = refused.problems
            assert told
    assert all(one.sentence() for one in told)
