"""What one file is refused for: a case a line, with the place, the value and the words."""

import pytest

from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

TEAMS = "team,department,sport,sex\n"
ROSTER = "athlete,team,season,name\n"
PLAYED = "session,athlete,part\n"
GUARDS = "guard,athlete,kind,side,purpose,remake_of\n"
INJURIES = "injury,athlete,occurred_on,session,area,side,reported_on,returned_on\n"
SESSIONS = "session,team,season,starts_at,setting\n"
OFFERS = "offer,athlete,kind,offered_on,answer\n"
LEFT = "athlete,team,season,name,joined_on,left_on\nB1,T1,2026,Di,2026-09-05,2026-09-04\n"
NEW = "department,name,plan,time_zone\nD1,North,weekly allotment,Chicago time\n"


def injury(area="knee", side="left", session="", day="2026-09-05", reported="", returned=""):
    return f"{INJURIES}I9,A1,{day},{session},{area},{side},{reported},{returned}\n"


def guard(kind="wrist", side="left", remake_of="", key="G9", athlete="A1"):
    return f"{GUARDS}{key},{athlete},{kind},{side},preventive,{remake_of}\n"


CASES = {  # name: (tables, (row, column, value), words of what was expected)
    "rows are numbered as a spreadsheet does, blank ones too": (
        {"teams": TEAMS + "T8,D1,judo,men\n\n,,,\nT9,D1,judo,mem\n"}, (5, "sex", "mem"), ""),
    "a cell with line breaks is one row": (
        {"teams": TEAMS + 'T8,D1,"two\nlines",men\n\n,,,\nT9,D1,judo,mem\n'},
        (5, "sex", "mem"), ""),
    "rows below titles keep their number": (
        {"teams": f"North\n\n{TEAMS}T8,D1,judo,men\nT9,D1,golf,women\nT7,D1,chess,mem\n"},
        (6, "sex", "mem"), ""),
    "a quote that never closes": (
        {"teams": TEAMS + 'T8,D1,judo,men\nT9,D1,"judo,men\nT7,D1,judo,men\n'},
        (3, None, None), "does not end well"),
    "text after a closing quote": ({"teams": TEAMS + 'T8,D1,"ju"do,men\n'}, (2, None, None), ""),
    "an unknown column": (
        {"teams": "team,department,sport,sex,sprt\nT9,D1,judo,men,x\n"},
        (1, None, "sprt"), "is not a column of teams"),
    "a doubled column": (
        {"teams": "team,department,sport,sport,sex\nT9,D1,judo,golf,men\n"},
        (1, None, "sport"), "stands twice"),
    "values without a heading": (
        {"teams": "team,department,sport,sex,\nT9,D1,judo,men,x\n"},
        (1, None, None), "column 5 has values but no heading"),
    "a heading that would steer a terminal is clean in its message": (
        {"roster": ROSTER.strip() + ",\x1b[31mred\nB1,T1,2026,Ana,x\n"}, (1, None, "[31mred"), ""),
    "braces in data do not disturb messages": (
        {"roster": ROSTER + "{season},{0},2026,Ana\n"}, (2, "team", "{0}"), ""),
    "one key with two contents names both rows": (
        {"teams": TEAMS + "T8,D1,judo,men\nT8,D1,golf,men\n"},
        (3, "team", "T8"), "teams.csv, row 2"),
    "a missing key is a missing cell": (
        {"teams": TEAMS + ",D1,judo,men\n"}, (2, "team", None), "is empty"),
    "a row refused for another reason is still known": (
        {"sessions": SESSIONS + "S9,T1,2026,2026-09-05T10:00,gamme\n",
         "attendance": PLAYED + "S9,A1,full\n"}, (2, "setting", "gamme"), ""),
    "an unreadable table is told once": (
        {"sessions": b"\x00\x00\x00", "attendance": PLAYED + "S9,A1,full\n"},
        (None, None, None), "is not a CSV file"),
    "a bad zone is told once, not for every time": (
        {"departments": NEW, "sessions": SESSIONS + "S9,T1,2026,2026-07-01T09:00,game\n",
         "injuries": injury(session="S9", day="2026-07-01")}, (2, "time_zone", "Chicago time"), ""),
    "a time the clock skips": (
        {"sessions": SESSIONS + "S9,T1,2026,2026-03-08T02:30,game\n"},
        (2, "starts_at", "2026-03-08 02:30:00"), "does not exist in America/Chicago"),
    "no return before the injury": (
        {"injuries": injury(returned="2026-09-04")}, (2, "returned_on", "2026-09-04"),
        "lies before occurred_on, 2026-09-05"),
    "no report before the injury": (
        {"injuries": injury(reported="2026-09-04")}, (2, "reported_on", "2026-09-04"),
        "lies before occurred_on, 2026-09-05"),
    "nobody leaves before joining": (
        {"roster": LEFT}, (2, "left_on", "2026-09-04"), "lies before joined_on, 2026-09-05"),
    "a guard is no remake of itself": (
        {"guards": guard(remake_of="G9")}, (2, "remake_of", "G9"), "itself"),
    "a circle of remakes through stored guards": (
        {"guards": guard(key="G1", remake_of="G3")}, (2, "remake_of", "G3"), "leads back"),
    "a knee has no midline": (
        {"injuries": injury("knee", "midline")}, (2, "side", "midline"), "knee"),
    "a hip has no midline": (
        {"injuries": injury("hip/groin", "midline")}, (2, "side", "midline"), "hip/groin"),
    "a chest guard has no side": (
        {"guards": guard("chest", "left")}, (2, "side", "left"), "a chest guard covers"),
    "a back guard has no sides": (
        {"guards": guard("lower back", "both")}, (2, "side", "both"), "a lower back guard covers"),
    "a wrist guard has one": (
        {"guards": guard("wrist", "midline")}, (2, "side", "midline"), "a wrist guard covers"),
    "an injury two days before its session": (
        {"injuries": injury(session="S1", day="2026-09-03")}, (2, "occurred_on", "2026-09-03"),
        "2026-09-05"),
    "an injury two days after its session": (
        {"injuries": injury(session="S1", day="2026-09-07")}, (2, "occurred_on", "2026-09-07"),
        "2026-09-05"),
    "an area that names the other side": (
        {"injuries": injury("left knee", "R")}, (2, "area", "left knee"), "says left"),
    "a side that is misspelt": (
        {"injuries": injury(side="Rihgt")}, (2, "side", "Rihgt"), "is not one of"),
    "a side that is none": ({"injuries": injury(side="LX")}, (2, "side", "LX"), "is not one of"),
    "a side with too much in it": (
        {"injuries": injury(side="left hand knee")}, (2, "side", "left hand knee"), ""),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_it_is_told_once_with_its_place_and_value(loaded: Desk, name: str) -> None:
    tables, place, words = CASES[name]
    problem = loaded.problem(**tables)
    assert (problem.row, problem.column, problem.value) == place
    assert words in problem.expected


NEAREST = {
    "men": {"teams": TEAMS + "T9,D1,judo,mem\n"},
    "right": {"injuries": injury(side="Rihgt")},
    "shoulder": {"offers": OFFERS + "O9,A1,shouldr,2026-09-05,accepted\n"},
    "sport": {"teams": "team,department,sprt,sex\nT9,D1,judo,men\n"},
    "offered_on": {"offers": "offer,athlete,kind,offred_on,answer\n"},
}


@pytest.mark.parametrize("word", NEAREST)
def test_the_nearest_known_word_is_offered(loaded: Desk, word: str) -> None:
    assert loaded.refusal(**NEAREST[word]).problems[0].nearest == word


TURN = """\
draw,athlete,kind,side,stratum,turn,week,drawn_on,starts_on,prints_per_week,ready_days,seed,\
earlier_injury,board_number
T01,{},{},left,T1 back,1,1,2026-09-05,2026-09-07,4,9,1,no,B 1
"""
RULE = """\
department,sport,kind,purpose,rule,source,checked_on
{},soccer,{},return,allowed,asked,2026-09-05
"""
REFERENCES = {
    ("teams", "department"): TEAMS + "T9,Q1,judo,men\n",
    ("roster", "team"): ROSTER + "B1,Q1,2026,Di\n",
    ("sessions", "team"): SESSIONS + "S9,Q1,2026,2026-09-05T10:00,game\n",
    ("attendance", "session"): PLAYED + "Q1,A1,full\n",
    ("attendance", "athlete"): PLAYED + "S1,Q1,full\n",
    ("guards", "athlete"): guard(athlete="Q1"),
    ("guards", "kind"): guard(kind="Q1"),
    ("guards", "remake_of"): guard(remake_of="Q1"),
    ("stages", "guard"): "guard,stage,reached_at\nQ1,fitted,2026-09-05T10:00\n",
    ("wear", "session"): "session,guard\nQ1,G1\n",
    ("wear", "guard"): "session,guard\nS1,Q1\n",
    ("injuries", "athlete"): injury().replace("A1", "Q1"),
    ("injuries", "session"): injury(session="Q1"),
    ("offers", "athlete"): OFFERS + "O9,Q1,wrist,2026-09-05,accepted\n",
    ("offers", "kind"): OFFERS + "O9,A1,Q1,2026-09-05,accepted\n",
    ("turns", "athlete"): TURN.format("Q1", "wrist"),
    ("turns", "kind"): TURN.format("A1", "Q1"),
    ("questions", "kind"): "asked_on,kind,outcome,setting,comparison\n"
    "2026-09-05,Q1,any,both,same session\n",
    ("printers", "department"): "printer,department\nP9,Q1\n",
    ("agreements", "department"): "department,agreed_on,words\nQ1,2026-09-05,A letter\n",
    ("release_blocks", "release"): "release,kind,made_in,departments\nQ1,wrist,R01,3\n",
    ("release_counts", "release"): "release,kind,count,value,told,few_departments\n"
    "Q1,wrist,orders,30,shown,no\n",
    ("release_figures", "release"): "release,kind,figure\nQ1,wrist,median\n",
    ("decisions", "department"): "decision,decided_on,text,department\nX9,2026-09-05,Go,Q1\n",
    ("marked_guards", "decision"): "decision,guard,to_do\nQ1,G1,inspect\n",
    ("marked_guards", "guard"): "decision,guard,to_do\nX1,Q1,inspect\n",
    ("rules", "department"): RULE.format("Q1", "wrist"),
    ("rules", "kind"): RULE.format("D1", "Q1"),
}


@pytest.mark.parametrize(("table", "column"), REFERENCES)
def test_a_key_that_points_nowhere_is_refused(loaded: Desk, table: str, column: str) -> None:
    problem = loaded.problem(**{table: REFERENCES[table, column]})
    assert (problem.row, problem.column, problem.value) == (2, column, "Q1")
    assert "is not a known" in problem.expected


def test_every_reference_of_the_tables_has_its_example() -> None:
    columns = [(table.name, one) for table in TABLES.values() for one in table.columns]
    assert REFERENCES.keys() == {(name, one.name) for name, one in columns if one.refers}


@pytest.mark.parametrize("length", [2, 3, 7])
def test_remakes_do_not_go_round_in_a_circle(loaded: Desk, length: int) -> None:
    rows = [f"H{i},A1,wrist,left,preventive,H{(i + 1) % length}\n" for i in range(length)]
    problems = loaded.refusal(guards=GUARDS + "".join(rows)).problems
    assert [problem.column for problem in problems] == ["remake_of"] * length


def test_a_date_the_file_leaves_out_is_checked_as_stored(loaded: Desk) -> None:
    """I1 returned on 19 September; a file without that column cannot move the injury past it."""
    text = "injury,athlete,occurred_on,area,side\nI1,A2,2026-09-25,lumbosacral,midline\n"
    columns = {problem.column for problem in loaded.refusal(injuries=text).problems}
    assert columns == {"reported_on", "returned_on", "occurred_on"}


def test_missing_columns_are_named(loaded: Desk) -> None:
    problems = loaded.refusal(teams="team,sport\nT9,judo\n").problems
    assert [(problem.row, problem.column) for problem in problems] == [
        (1, "department"),
        (1, "sex"),
    ]
