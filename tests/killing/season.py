"""A season of any length: what stands in a store before, and a load that comes on top of it."""

from pathlib import Path

ATHLETES = 50


def write_before(folder: Path, sessions: int) -> Path:
    """Write the tables that stand in the store before the load."""
    folder.mkdir(parents=True)
    heading = "department,name,plan,time_zone"
    _write(folder, "departments", heading, ["D1,North,weekly allotment,America/Chicago"])
    _write(folder, "teams", "team,department,sport,sex", ["T1,D1,soccer,women"])
    _write(folder, "roster", "athlete,team,season,name", _roster("Before"))
    starts = [f"S{n},T1,2026,2026-{_day(n)}T18:00,game" for n in range(sessions)]
    _write(folder, "sessions", "session,team,season,starts_at,setting", starts)
    return folder


def write_load(folder: Path, sessions: int) -> Path:
    """Write a load with new rows in a long table and changed cells in a short one."""
    folder.mkdir(parents=True)
    _write(folder, "roster", "athlete,team,season,name", _roster("After"))
    present = [f"S{n},A{a},full" for n in range(sessions) for a in range(ATHLETES)]
    _write(folder, "attendance", "session,athlete,part", present)
    return folder


def _roster(name: str) -> list[str]:
    return [f"A{n},T1,2026,{name} {n}" for n in range(ATHLETES)]


def _day(n: int) -> str:
    return f"{n // 28 % 12 + 1:02d}-{n % 28 + 1:02d}"


def _write(folder: Path, table: str, heading: str, rows: list[str]) -> None:
    (folder / f"{table}.csv").write_text("\n".join([heading, *rows, ""]))
