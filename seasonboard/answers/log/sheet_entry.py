"""What a filled-in sheet writes: one entry, and which athlete each of its rows is about."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from seasonboard.answers.log.parts import LogAthlete, LogSession, LogSheet, Mark
from seasonboard.entries import Entry
from seasonboard.errors import Problem
from seasonboard.terms import Part

_TABLE_OF = " › "
"""What stands between an entry's label and a table's name, where it writes several."""

Marks = Mapping[str, Mark]
"""What is to be written about each athlete, by key."""


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """The entry of a sheet; `owners` lists by table whom each of its rows is about, in order."""

    entry: Entry
    owners: Mapping[str, tuple[str, ...]]

    @property
    def is_empty(self) -> bool:
        """Say whether there is nothing to write."""
        return not self.entry.tables

    def athlete_of(self, problem: Problem) -> str | None:
        """Return whom a problem of the intake is about; None where it is about no one athlete."""
        _, _, table = problem.file.rpartition(_TABLE_OF)
        if table not in self.owners:
            table = next(iter(self.owners), "")
        owners = self.owners.get(table, ())
        row = problem.row
        return owners[row - 1] if row is not None and 0 < row <= len(owners) else None


@dataclass(frozen=True, slots=True)
class Tally:
    """How many athletes of a sheet are full, limited, out and not recorded; how many wear one."""

    full: int
    limited: int
    out: int
    not_recorded: int
    wearing: int


def tally(marks: Marks) -> Tally:
    """Count a sheet."""
    parts = Counter(mark.part for mark in marks.values())
    wearing = sum(bool(mark.wears) for mark in marks.values())
    return Tally(parts[Part.FULL], parts[Part.LIMITED], parts[Part.OUT], parts[None], wearing)


def proposed(sheet: LogSheet) -> dict[str, Mark]:
    """Return what is proposed for everybody."""
    return {one.athlete: one.proposed for one in sheet.athletes}


def is_written(athlete: LogAthlete, mark: Mark, *, is_filled: bool) -> bool:
    """Say whether saving writes something about an athlete: a row that is new or changes."""
    return _part_changes(athlete, mark) or any(_wear_changes(athlete, mark, is_filled=is_filled))


def is_filled(session: LogSession, *, is_complete: bool | None) -> bool:
    """Say whether saving writes “not worn” of every guard that is not ticked and has no record."""
    return bool(is_complete) and session.wear_complete != "yes"


def _part_changes(athlete: LogAthlete, mark: Mark) -> bool:
    is_same = replace(mark, worn=athlete.recorded.worn) == athlete.recorded
    return mark.part is not None and not is_same


def _wear_changes(athlete: LogAthlete, mark: Mark, *, is_filled: bool) -> Iterator[tuple[str, str]]:
    """Give guards, and whether each was worn, where that is not what is recorded."""
    takes_part = mark.part in {Part.FULL, Part.LIMITED}
    for one in sorted(athlete.guards, key=lambda guard: guard.guard):
        if one.guard in mark.wears:
            if not one.is_worn:
                yield one.guard, "yes"
        elif one.is_worn or (one.is_worn is None and is_filled and takes_part):
            yield one.guard, "no"


def sheet_entry(sheet: LogSheet, marks: Marks, *, is_complete: bool | None = None) -> SheetEntry:
    """Return what saving a sheet writes: a new session, and rows that are new or changed.

    `is_complete` says that wear is now recorded for everybody, or is not; None: nobody says.
    """
    session = sheet.session
    fills = is_filled(session, is_complete=is_complete)
    part_rows = [
        (one.athlete, _part_row(session.session, one.athlete, marks[one.athlete]))
        for one in sheet.athletes
        if _part_changes(one, marks[one.athlete])
    ]
    wear_rows: list[tuple[str, dict[str, str | None]]] = [
        (one.athlete, {"session": session.session, "guard": guard, "worn": worn})
        for one in sheet.athletes
        for guard, worn in _wear_changes(one, marks[one.athlete], is_filled=fills)
    ]
    written = {"attendance": part_rows, "wear": wear_rows}
    tables = {name: [row for _, row in rows] for name, rows in written.items() if rows}
    owners = {name: tuple(athlete for athlete, _ in written[name]) for name in tables}
    said = {True: "yes", False: "no", None: None}[is_complete]
    told: dict[str, str | None] = {"wear_complete": said} if said else {}
    if session.is_new and tables:
        tables = {"sessions": [_session_row(session) | told], **tables}
    elif told and said != session.wear_complete and not session.is_new:
        tables = {"sessions": [{"session": session.session, **told}], **tables}
    owners = {name: owners.get(name, ()) for name in tables}
    return SheetEntry(Entry(label(session), tables), owners)


def label(session: LogSession) -> str:
    """Return what the log of loads calls the entry: `attendance, LF-WSOC, 14 Nov 18:30`."""
    return f"attendance, {session.team}, {when(session)}"


def when(session: LogSession) -> str:
    """Return the start in words, by the department's clock: `14 Nov 18:30`."""
    at = session.local_start
    return f"{at.day} {at:%b %H:%M}"


def _session_row(session: LogSession) -> dict[str, str | None]:
    return {
        "session": session.session,
        "team": session.team,
        "season": session.season,
        "starts_at": f"{session.local_start:%Y-%m-%dT%H:%M}",
        "setting": session.setting,
    }


def _part_row(session: str, athlete: str, mark: Mark) -> dict[str, str | None]:
    return {
        "session": session,
        "athlete": athlete,
        "part": mark.part,
        "reason": mark.reason,
        "minutes": None if mark.minutes is None else f"{mark.minutes:g}",
        "plays": None if mark.plays is None else str(mark.plays),
    }


def mark_words(mark: Mark) -> Iterator[str]:
    """Give what is written of one's part, in words: `out`, `illness`, `45 min`, `30 plays`."""
    yield mark.part or "not recorded"
    if mark.reason:
        yield mark.reason
    if mark.minutes is not None:
        yield f"{mark.minutes:g} min"
    if mark.plays is not None:
        yield f"{mark.plays} plays"
