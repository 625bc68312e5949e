"""A prospect's small table: read in any shape a load is read in, refused with words."""

import openpyxl
import pytest

from seasonboard.errors import IntakeError
from seasonboard.prospect import COLUMNS, Prospect, ProspectTeam, prospect_of
from seasonboard.wiring import make_tools

TABLE = """\
sport,sex,position_group,athletes,games,practices
soccer,women,goalkeeper,3,18,60
soccer,women,midfielder,9,,
soccer,women,defender,8,18,
ice hockey,men,,26,34,90
"""
READ = (
    ProspectTeam(
        "soccer", "women", 20, (("goalkeeper", 3), ("midfielder", 9), ("defender", 8)), 18, 60
    ),
    ProspectTeam("ice hockey", "men", 26, (), 34, 90),
)
read_prospect = make_tools().read_prospect


@pytest.fixture
def put(tmp_path):
    def write(content, name="prospect.csv"):
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return write


def refusal(*lines):
    """Return what is said of lines that are written in the order of the columns."""
    with pytest.raises(IntakeError) as caught:
        prospect_of([dict(zip(COLUMNS, line.split(","), strict=False)) for line in lines])
    return [problem.sentence() for problem in caught.value.problems]


def test_last_season_may_be_told_or_left_out(put):
    told = TABLE.replace("practices\n", "practices,injuries_last_season,games_missed_last_season\n")
    told = told.replace("34,90", "34,90,7,12").replace("3,18,60", "3,18,60,4,")
    told = told.replace("9,,", "9,,,,").replace("8,18,", "8,18,,,")
    teams = read_prospect(put(told)).teams
    assert [(team.injuries, team.games_missed) for team in teams] == [(4, None), (7, 12)]


def test_lines_of_position_groups_make_one_team(put):
    assert read_prospect(put(TABLE)) == Prospect(READ)
    assert read_prospect(put(TABLE)).athletes == 46


WRITINGS = {
    "semicolons": TABLE.replace(",", ";"),
    "utf-16 tabs": TABLE.replace(",", "\t").encode("utf-16"),
    "bom crlf": b"\xef\xbb\xbf" + TABLE.replace("\n", "\r\n").encode(),
    "titles": "Quarry College,,,,,\n,,,,,\n" + TABLE + "Total,,,46,,\n",
    "spellings": TABLE.replace("women", "W").replace(",men", ",Male").replace("soccer", " Soccer "),
    "headings": TABLE.replace("sex,", "Gender,").replace("athletes,games", "Head count,MATCHES"),
    "marks": TABLE.replace("men,,26", "men,n/a,26.0"),
    "sex": TABLE.replace("soccer,women", "Women's soccer,").replace(
        "ice hockey,men", "Men’s Ice Hockey,"
    ),
}


@pytest.mark.parametrize("name", WRITINGS)
def test_the_same_table_as_people_write_it(put, name):
    assert read_prospect(put(WRITINGS[name])).teams == READ


def test_the_same_table_as_a_workbook_beside_another_sheet(tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["what", "we", "play"])
    sheet = book.create_sheet("next year")
    for line in TABLE.splitlines():
        sheet.append([int(cell) if cell.isdigit() else cell or None for cell in line.split(",")])
    book.save(tmp_path / "prospect.xlsx")
    prospect = read_prospect(tmp_path / "prospect.xlsx")
    assert prospect.teams == READ
    assert "was left out" in prospect.notes[0]


def test_what_is_left_aside_is_told(put):
    table = TABLE.replace("practices", "practices,coach").replace("90\n", "90,Lee\n")
    table = table.replace("60\n", "60,\n").replace(",,\n", ",,,\n").replace("18,\n", "18,,\n")
    (note,) = read_prospect(put(table)).notes
    assert note == "prospect.csv, row 1: “coach” is not a column of a prospect; it was left out."


def test_a_column_without_a_heading_is_told(put):
    table = "sport,sex,athletes,games,practices,\nsoccer,men,20,18,9,12\n"
    (note,) = read_prospect(put(table)).notes
    assert "column 6 has values but no heading" in note


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("socer,women,,20,18,60", "row 1, column sport: “socer” is not a sport that is known. Did"),
        ("hockey,men,,20,18,60", "Did you mean “ice hockey”?"),
        (
            "soccer,woman,,20,18,60",
            "“woman” is not one of: women, men, mixed. Did you mean “women”?",
        ),
        ("soccer,women,,0,18,60", "column athletes: “0” is not a whole number from 1 to 250"),
        ("soccer,women,,20,400,60", "column games: “400” is not a whole number from 1 to 100"),
        ("soccer,women,,20,18,-6", "column practices: “-6” is not a whole number from 0 to 350"),
        ("soccer,women,,2.5,18,60", "column athletes: “2.5” is not a whole number"),
        ("soccer,women,,twenty,18,60", "column athletes: “twenty” is not a whole number"),
        ("soccer,women,,,18,60", "column athletes: is empty"),
        ("soccer,women,,20,,60", "column games: is empty; write the games of the season"),
        ("men's soccer,women,,20,18,60", "says men, but the sex of the line is women"),
        (",women,,20,18,60", "column sport: is empty"),
        ("soccer,women,,20,18,60,21", "“21” is more than its 20 athletes: give the injuries to"),
        ("soccer,women,,20,18,60,-1", "is not a whole number from 0 to 250, as one team has inj"),
        ("soccer,women,,20,18,60,,5", "is games missed for injuries that are not given; give both"),
        ("soccer,women,,20,18,60,0,5", "“5” is games missed without any injury"),
        ("soccer,,,20,18,60", "column sex: is empty; write one of: women, men, mixed"),
    ],
)
def test_a_wrong_cell_is_told_once_with_its_place(line, said):
    (problem,) = refusal(line)
    assert problem.startswith("what was typed, row 1, column ")
    assert said in problem


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ("soccer,men,back,9,18,60", "soccer,men,wing,9,19,"),
            "“19” is not the 18 of row 1; games",
        ),
        (("soccer,men,back,9,18,60", "soccer,men,,9,,"), "row 2, column position_group: is empty"),
        (("soccer,men,back,9,18,60", "soccer,men,Back,9,,"), "“Back” already stands in row 1"),
        (("rowing,men,a,200,9,60", "rowing,men,b,200,,"), "“400” are the athletes of this team"),
    ],
)
def test_lines_of_one_team_have_to_agree(lines, said):
    (problem,) = refusal(*lines)
    assert said in problem


def test_every_wrong_cell_of_a_file_is_told_in_the_order_of_rows(put):
    table = TABLE.replace("26,34,90", "26,340,90").replace("goalkeeper,3", "goalkeeper,0")
    with pytest.raises(IntakeError) as caught:
        read_prospect(put(table))
    assert [(one.row, one.column, one.value) for one in caught.value.problems] == [
        (2, "athletes", "0"),
        (5, "games", "340"),
    ]
    assert "2 problems" in caught.value.what


def test_a_sport_like_no_known_one_is_taken_as_it_is_written():
    line = dict(zip(COLUMNS, ["Quidditch", "mixed", "", "14", "9", "0"], strict=False))
    assert prospect_of([line]).teams == (ProspectTeam("quidditch", "mixed", 14, (), 9, 0),)


@pytest.mark.parametrize(
    ("content", "name", "said"),
    [
        ("sport,sex,athlets,games,practices\nsoccer,men,20,18,60\n", "a.csv", "mean “athlets”?"),
        ("sport,sex,athletes,games,practices\n", "a.csv", "names no team"),
        ("", "a.csv", "is empty"),
        (b"\x89PNG..", "a.csv", "is not a CSV file"),
        ("x", "a.docx", "is not a table"),
        (TABLE + "soccer,men,20\n", "a.csv", "row 6"),
        ("sport,sex,athletes,games,games,practices\nsoccer,men,20,18,19,9\n", "a.csv", "twice"),
    ],
)
def test_a_file_that_is_no_prospect_is_refused(put, content, name, said):
    with pytest.raises(IntakeError) as caught:
        read_prospect(put(content, name))
    assert said in " ".join(problem.sentence() for problem in caught.value.problems)


def test_a_folder_or_no_file_is_refused(tmp_path):
    for path, said in ((tmp_path, "is a folder"), (tmp_path / "none.csv", "does not exist")):
        with pytest.raises(IntakeError, match="cannot be used") as caught:
            read_prospect(path)
        assert said in caught.value.problems[0].sentence()
