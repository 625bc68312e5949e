"""Three exports as they come out of offices, invented: a workbook and two text files."""

from datetime import datetime
from pathlib import Path

import openpyxl

PLAYERS = ("Søren-Mae Abbott", "Zoë Nuñez", "Ana Null", "Bo Reyes", "李小龙", "Renée O’Dell")
WORDS = ("Full", "LTD", "Full - modified drills", "Excused", "full ", "Did not dress")


def write_ugly(folder: Path) -> tuple[Path, Path, Path]:
    """Write them and return their paths: the set-up, the attendance, the injuries."""
    folder.mkdir(parents=True, exist_ok=True)
    return _set_up(folder), _attendance(folder), _injuries(folder)


def _set_up(folder: Path) -> Path:
    """A workbook: merged titles, a totals line, real dates, a date apart from its time, a hidden
    sheet, an empty column."""
    book = openpyxl.Workbook()
    clients = book.active
    assert clients is not None
    clients.title = "Clients"
    clients.append(["Clients of the season"])
    clients.merge_cells("A1:D1")
    clients.append([])
    clients.append(["Code", "Client name", "Print plan", "Prints / week", "Time zone", None])
    clients.append(["ELM", "Elmcrest College", "allotment", 8, "America/Chicago", None])
    teams = book.create_sheet("Teams")
    teams.append(["Team", "Client", "Sport", "Gender"])
    teams.append(["ELM-WSOC", "ELM", "soccer", "W"])
    squad = book.create_sheet("Squad list")
    squad.append(["Squad list, printed 12/08/2026"])
    squad.append([])
    squad.append(["Athlete ID", "Player", "Squad", "Season", "No.", "Pos", "Joined"])
    for number, player in enumerate(PLAYERS, 1):
        joined = datetime(2026, 8, 12)  # noqa: DTZ001 - a spreadsheet's day has no zone
        cells = [f"00{number}", player, "ELM-WSOC", "2026 fall", number, "MF", joined]
        squad.append(cells)
    squad.append(["Total", None, None, None, len(PLAYERS), None, None])
    schedule = book.create_sheet("Schedule")
    schedule.append(["Session ID", "Date", "Kick-off", "Event", "Squad", "Season", "Opponent"])
    for week in range(1, 5):
        on = datetime(2026, 9, 1 + 7 * week)  # noqa: DTZ001
        event = "Game" if week % 2 else "Practice"
        cells = [f"S{week}", on, "18:30", event, "ELM-WSOC", "2026 fall", f"vs Oxbow {week}"]
        schedule.append(cells)
    old = book.create_sheet("old list")
    old.append(["Athlete ID", "Player"])
    old.append(["099", "Nobody"])
    old.sheet_state = "hidden"
    path = folder / "Elmcrest set-up.xlsx"
    book.save(path)
    return path


def _attendance(folder: Path) -> Path:
    """UTF-16, semicolons, decimal commas, keys without their zeros, other words, totals."""
    lines = [
        "Exported by: office;;;;;",
        ";;;;;",
        "Session ID;Athlete ID;Player;Status;Min;Comment;",
    ]
    for week in range(1, 5):
        for number, player in enumerate(PLAYERS, 1):
            word = WORDS[(number + week) % len(WORDS)]
            minutes = "62,5" if word.strip() == "Full" else ""
            said = '"said: ""fine""; ok"'
            lines.append(f"S{week};{number};{player};{word};{minutes};{said};")
    lines.append("Total;;;;;;")
    path = folder / "attendance export 2026-11-14.csv"
    path.write_bytes(("\r\n".join(lines) + "\r\n").encode("utf-16"))
    return path


def _injuries(folder: Path) -> Path:
    """Windows letters, a title, names for keys, days that can be read two ways, a broken line."""
    lines = [
        "Injury log,,,,,,",
        "",
        "Player,Date of injury,Body part,Side,Return,Diagnosis,Notes",
        'Søren-Mae Abbott,03/10/2026,Lower leg,L,08/10/2026,,"came off,\r\niced at once"',
        "Zoë Nuñez,11/09/2026,knee,Rt.,,sprain,=1+1",
        "Ana Null,05/10/2026,hand,left,06/10/2026,N/A,n/a",
    ]
    path = folder / "injury log.csv"
    path.write_bytes(("\r\n".join(lines) + "\r\n").encode("cp1252"))
    return path
