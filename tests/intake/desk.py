"""A desk to lay CSV tables on, and a small invented season that loads without a word."""

from collections.abc import Sequence
from pathlib import Path

import pytest
import xlsxwriter

from seasonboard.errors import IntakeError, Problem
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from tests.person import Person

SMALL_SEASON = {
    "departments": """\
department,name,plan,prints_per_week,time_zone,since
D1,North,weekly allotment,6,America/Chicago,2025-08-01
D2,South,onsite printer,,America/Phoenix,
""",
    "teams": """\
team,department,sport,sex
T1,D1,soccer,women
T2,D2,volleyball,men
""",
    "roster": """\
athlete,team,season,name,jersey,position,position_group,joined_on,left_on
A1,T1,2026,Ana Reed,07,keeper,goal,2026-08-01,
A2,T1,2026,Bo Lind,10,back,defence,2026-08-01,
A3,T2,2026,Cy Moss,1,setter,front,,
""",
    "sessions": """\
session,team,season,starts_at,setting,season_part,label
S1,T1,2026,2026-09-05T18:00,game,regular,opener
S2,T1,2026,2026-09-07T16:00,practice,regular,
S3,T2,2026,2026-09-06T19:30,game,regular,
""",
    "attendance": """\
session,athlete,part,reason,minutes,plays
S1,A1,full,,90,
S1,A2,limited,injury,22.5,
S2,A1,full,,,
S2,A2,out,injury,,
S3,A3,full,,,41
""",
    "guards": """\
guard,athlete,kind,side,purpose,function,contact_pct,remake_of,remake_reason
G1,A1,wrist,left,preventive,support,82.5,,
G2,A2,lower back,midline,return,,,,
G3,A1,wrist,left,preventive,support,90,G1,fit
""",
    "stages": """\
guard,stage,reached_at,note
G1,requested,2026-08-03T09:00,
G1,printed,2026-08-05T12:00,
G1,fitted,2026-08-10T15:00,snug
G2,requested,2026-08-20T09:00Z,
G2,delivered,2026-08-28T10:00-05:00,
G3,requested,2026-09-20T09:00,
""",
    "wear": """\
session,guard,kept_on
S1,G1,all
S1,G2,part
S2,G1,
""",
    "injuries": """\
injury,athlete,occurred_on,session,area,side,tissue,pathology,reported_on,returned_on,note
I1,A2,2026-09-05,S1,lumbosacral,midline,,,2026-09-05,2026-09-19,"stiff, then sore"
I2,A3,2026-09-10,,shoulder,right,,,,,
""",
    "offers": """\
offer,athlete,kind,offered_on,answer,reason
O1,A3,shoulder,2026-08-15,declined,too warm
""",
    "decisions": """\
decision,decided_on,department,text,due_on,done_on
X1,2026-09-08,D1,Scan the whole back line,2026-09-15,
X2,2026-09-08,,Buy more liner,,
""",
}


def said(notes: Sequence[Problem]) -> str:
    """Return notes or problems as one text, a line each."""
    return "\n".join(one.sentence() for one in notes)


class Desk:
    """A folder for CSV tables and a store in memory; a shared store is only read."""

    def __init__(self, folder: Path, store: Store, *, shared: bool = False) -> None:
        self.folder = folder
        self.store = store
        self.shared = shared
        folder.mkdir()

    def put(self, **tables: str | bytes) -> Path:
        """Write tables, by name, into the folder."""
        for name, content in tables.items():
            data = content if isinstance(content, bytes) else content.encode()
            (self.folder / f"{name}.csv").write_bytes(data)
        return self.folder

    def plan(self, *paths: Path, **tables: str | bytes) -> LoadPlan:
        """Plan the folder, after writing `tables` into it."""
        self.put(**tables)
        return plan_load(self.store, paths or [self.folder])

    def load(self, *paths: Path, **tables: str | bytes) -> LoadPlan:
        """Plan and write."""
        assert not self.shared, "use the fixture `own`"
        plan = self.plan(*paths, **tables)
        write_load(self.store, plan)
        return plan

    def refusal(self, *paths: Path, **tables: str | bytes) -> IntakeError:
        """Plan, and return why it was refused."""
        with pytest.raises(IntakeError) as refused:
            self.plan(*paths, **tables)
        return refused.value

    def problem(self, **tables: str | bytes) -> Problem:
        """Plan, and return the one reason it was refused for."""
        refusal = self.refusal(**tables)
        assert len(refusal.problems) == 1, [one.sentence() for one in refusal.problems]
        return refusal.problems[0]

    def season_with(self, **tables: str | bytes) -> None:
        """Lay out the small season, with some tables replaced."""
        self.put(**(SMALL_SEASON | tables))

    def count(self, table: str) -> int:
        """Count the rows the store holds."""
        return self.store.read(f"store/{table}").height


class Source:
    """A folder of files from elsewhere, beside a store that has the small season."""

    def __init__(self, desk: Desk, store: Path) -> None:
        self.desk = desk
        self.store = store
        self.person = Person()

    def file(self, text: str, name: str = "injury log.csv") -> Path:
        path = self.desk.folder / name
        path.write_text(text, "utf-8")
        return path

    def workbook(self, sheets, hidden=()) -> Path:
        """Write a workbook; `hidden` are rows, counted from 1, that each sheet hides."""
        path = self.desk.folder / "book.xlsx"
        with xlsxwriter.Workbook(path) as book:
            for name, rows in sheets.items():
                sheet = book.add_worksheet(name)
                for place, cells in enumerate(rows):
                    sheet.write_row(place, 0, cells)
                for row in hidden:
                    sheet.set_row(row - 1, None, None, {"hidden": True})
        return path

    def plan(self, *files: Path, confirm: bool = True, **options: object) -> LoadPlan:
        self.person.takes_mappings = confirm
        self.person.options = LoadOptions(store=self.store, propose=True, **options)
        return plan_load(self.desk.store, files, dialog=self.person)

    def refusal(self, *files: Path, **options: object) -> IntakeError:
        with pytest.raises(IntakeError) as refused:
            self.plan(*files, **options)
        return refused.value

    def kept(self, name: str = "injury-log") -> Path:
        return self.store.with_name(f"{self.store.name}.mappings") / f"{name}.toml"
