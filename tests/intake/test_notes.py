"""What of one file is read all the same or left out, and told: a case a line, with its words."""

import pytest

from tests.intake.desk import Desk, said

TEAMS = "team,department,sport,sex\n"
ROWS = "T8,D1,judo,men\nT9,D1,golf,women\n"
PLAYED = "session,athlete,part,minutes\nS1,A1,full,90\nS2,A1,full,30\n"
GUARDS = "guard,athlete,kind,side,purpose\n"
HIP = GUARDS + "G9,A1,hip,left,preventive\n"
STAGES = "guard,stage,reached_at\n"
INJURIES = "injury,athlete,occurred_on,session,area,side\n"
SESSIONS = "session,team,season,starts_at,setting\n"
WORN = "session,guard\nS1,G9\n"
CHAIN = "".join(f"H{i},A1,wrist,left,preventive,H{i - 1}\n" for i in range(1, 40))
REMAKES = f"guard,athlete,kind,side,purpose,remake_of\nH0,A1,wrist,left,preventive,\n{CHAIN}"
YOKES = "kind,area,function\nyoke,shoulder,impact\nyoke,chest,impact\n"

CASES = {  # name: (tables, new rows of the last of them, words in the notes: none for no note)
    "a title above": ({"teams": f"North College\n{TEAMS}{ROWS}"}, 2, ["stands above the headings"]),
    "three title lines": (
        {"teams": f"North College,,,\nprinted 2 Nov 2026,,,\n,,,\n{TEAMS}{ROWS}"}, 2,
        ["stands above the headings"]),
    "a quoted title": (
        {"teams": f'"A title, long"\n\n{TEAMS}{ROWS}'}, 2, ["stands above the headings"]),
    "a totals line": ({"teams": f"{TEAMS}{ROWS}Total,2,,\n"}, 2, ["is a totals line"]),
    "a totals line in capitals": ({"teams": f"{TEAMS}{ROWS}TOTAL,,2\n"}, 2, ["is a totals line"]),
    "a grand total and blank rows": (
        {"teams": f"{TEAMS}{ROWS}Grand total:,2,,\n\n,,,\n"}, 2, ["is a totals line"]),
    "totals that agree": ({"attendance": f"{PLAYED}Total,,,120\n"}, 0, ["agrees"]),
    "totals that do not": ({"attendance": f"{PLAYED}Total,,,121\n"}, 0, ["is not the sum"]),
    "a record that begins with total but is whole": (
        {"teams": f"{TEAMS}{ROWS}Total,D1,judo,men\n"}, 3, []),
    "headings repeated further down": (
        {"teams": f"{TEAMS}T8,D1,judo,men\n{TEAMS}T9,D1,golf,women\n"}, 2,
        ["the heading stands again in row 3"]),
    "empty columns and rows around the table": (
        {"teams": ",,,,,,\n,team,department,sport,sex,,\n,T8,D1,judo,men,,\n,,,,,,\n,,,,,,\n"},
        1, []),
    "empty cells beyond the last heading": (
        {"teams": f"{TEAMS}T8,D1,judo,men,,\nT9,D1,golf,women\n"}, 2, []),
    "blanks around cells": (
        {"teams": f"{TEAMS}T8 ,D1,\u00a0judo,men\u200b\n"}, 1, ["3 cells had blanks"]),
    "headings with capitals and outer blanks": (
        {"teams": " Team,DEPARTMENT,sport ,Sex\nT9,D1,judo,men\n"}, 1, []),
    "the same row twice": (
        {"teams": f"{TEAMS}{ROWS}T8,D1,judo,men\n"}, 2, ["row 4, column team: “T8”", "same con"]),
    "a thousand repeats": ({"teams": TEAMS + "T8,D1,judo,men\n" * 1000}, 1, ["999 rows"]),
    "one stage at two instants, one of them twice": (
        {"stages": f"{STAGES}G1,retired,2026-10-01T10:00\nG1,retired,2026-10-02T10:00\n"
                   "G1,retired,2026-10-01T15:00Z\n"}, 2, ["same content"]),
    "a kind that comes in the same load": (
        {"kinds": "kind,area,function\ncalf,lower leg,\n",
         "guards": GUARDS + "G9,A1,calf,left,preventive\n"}, 1, []),
    "a long chain of remakes": ({"guards": REMAKES}, 40, []),
    "a guard over midline and limb, of a side": (
        {"kinds": YOKES, "guards": GUARDS + "G9,A1,yoke,left,preventive\n"}, 1, []),
    "a guard over midline and limb, of the midline": (
        {"kinds": YOKES, "guards": GUARDS + "G9,A1,yoke,midline,preventive\n"}, 1, []),
    "spellings are told with counts": (
        {"injuries": INJURIES + "I7,A3,2026-09-11,,knee,L\nI8,A3,2026-09-12,,knee,rt.\n"
                     "I9,A3,2026-09-13,,knee,L\n"}, 3, ["“L” as left (2), “rt.” as right (1)"]),
    "a side on the midline": (
        {"injuries": INJURIES + "I9,A1,2026-09-05,,head,left\n"}, 1, ["the side of the head"]),
    "two sessions of one team at one instant": (
        {"sessions": SESSIONS + "S9,T1,2026,2026-09-05T23:00Z,game\n"}, 1,
        ["“S9” starts at the same instant"]),
    "two teams at one instant": (
        {"sessions": SESSIONS + "S9,T2,2026,2026-09-05T23:00Z,game\n"}, 1, []),
    "wear by an athlete marked out": ({"wear": "session,guard\nS2,G2\n"}, 1, ["was out of"]),
    "wear by an athlete who is not recorded": (
        {"sessions": SESSIONS + "S9,T1,2026,2026-09-09T18:00,game\n",
         "wear": "session,guard\nS9,G1\n"}, 1, ["without an attendance row"]),
    "wear before delivery": (
        {"guards": HIP, "stages": STAGES + "G9,delivered,2026-09-08T10:00\n", "wear": WORN}, 1,
        ["before it was delivered or fitted"]),
    "wear before fitting": (
        {"guards": HIP, "stages": STAGES + "G9,fitted,2026-09-08T10:00\n", "wear": WORN}, 1,
        ["before it was delivered or fitted"]),
    "wear of a guard that was only printed": (
        {"guards": HIP, "stages": STAGES + "G9,printed,2026-09-01T10:00\n", "wear": WORN}, 1,
        ["do not say that it was delivered"]),
    "wear after delivery, though fitted later": (
        {"guards": HIP, "wear": WORN, "stages": STAGES + "G9,delivered,2026-09-05T09:00\n"
                                      "G9,fitted,2026-09-06T09:00\n"}, 2, []),
    "an injury before the athlete joined": (
        {"injuries": INJURIES + "I9,A1,2026-07-30,,knee,left\n"}, 1,
        ["column occurred_on", "2026-08-01"]),
    "an injury in a session the athlete was out of": (
        {"injuries": INJURIES + "I9,A2,2026-09-07,S2,knee,left\n"}, 1,
        ["column session: “S2”", "not recorded as taking part"]),
    "an injury in a session the athlete was not at": (
        {"injuries": INJURIES + "I9,A3,2026-09-07,S2,knee,left\n"}, 1,
        ["column session: “S2”", "not recorded as taking part"]),
    "attendance with a team that does not list the athlete": (
        {"attendance": "session,athlete,part\nS1,A3,full\n"}, 1, ["column athlete: “A3”"]),
    "attendance in a season that does not": (
        {"sessions": SESSIONS + "S9,T1,2027,2027-09-09T18:00,game\n",
         "attendance": "session,athlete,part\nS9,A1,full\n"}, 1, ["column athlete: “A1”"]),
    "the same day of injury, report and return": (
        {"injuries": "injury,athlete,occurred_on,area,side,reported_on,returned_on\n"
                     "I9,A1,2026-09-05,knee,left,2026-09-05,2026-09-05\n"}, 1, []),
    "an injury twice under two keys": (
        {"injuries": INJURIES + "I9,A3,2026-09-10,,shoulder,right\n"}, 1, ["(I2, I9)"]),
    "one athlete under two keys": (
        {"roster": "athlete,team,season,name,jersey\nZ1,T1,2026,REED ANA,07\n"
                   'Z2,T1,2026,"Reed, Ana",07\n'}, 2, ["(A1, Z2); are they one"]),
    **{f"stages in order: {row}": ({"stages": f"{STAGES}{row}\n"}, 1, []) for row in (
        "G1,scanned,2026-08-04T09:00", "G1,requested,2026-08-12T09:00",
        "G1,printed,2026-08-10T15:00", "G3,scanned,2026-09-20T09:00")},
    **{f"stages out of order: {row}": ({"stages": f"{STAGES}{row}\n"}, 1, ["usual order", row[:2]])
       for row in ("G1,scanned,2026-08-06T09:00", "G1,cancelled,2026-08-04T09:00",
                   "G2,scanned,2026-08-19T09:00")},
    **{f"sides that fit: {pair}": (
        {"injuries": f"{INJURIES}I9,A1,2026-09-05,,{pair}\n"}, 1, []) for pair in (
        "head,midline", "knee,both", "multiple,left", "region unspecified,midline")},
    **{f"within a day of the session: {day}": (
        {"injuries": f"{INJURIES}I9,A1,{day},S1,knee,left\n"}, 1, []) for day in (
        "2026-09-04", "2026-09-06")},
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_it_is_read_and_told(loaded: Desk, name: str) -> None:
    tables, new, words = CASES[name]
    plan = loaded.plan(**tables)
    *_, last = tables
    assert {one.table: one.new for one in plan.tables}[last] == new
    assert [one for one in words if one not in said(plan.notes)] == []
    assert words or plan.notes == ()


def test_many_doubtful_rows_are_one_note_with_a_count(loaded: Desk) -> None:
    roster = "athlete,team,season,name\n" + "".join(f"B{i:04},T2,2026,x\n" for i in range(3000))
    rows = "".join(f"S1,B{i:04},full\n" for i in range(3000))
    (note,) = loaded.plan(roster=roster, attendance="session,athlete,part\n" + rows).notes
    assert note.row == 2
    assert "3,000 rows" in note.expected
    assert "2, 3, 4, 5, 6, …" in note.expected


@pytest.mark.parametrize(("area", "side"), [("head", "left"), ("lumbosacral", "both")])
def test_a_side_given_on_the_midline_is_kept_in_the_note(loaded: Desk, area, side) -> None:
    plan = loaded.plan(injuries=f"{INJURIES}I9,A1,2026-09-05,,{area},{side}\n")
    row = plan.rows["injuries"].row(0, named=True)
    assert (row["side"], row["note"]) == ("midline", f"side given: {side}")
