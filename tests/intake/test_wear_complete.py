"""`--wear-complete`: the sessions of attendance and wear of a load are marked, and no others."""

from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.undo import undo_last_load
from seasonboard.store.intake.write import write_load
from tests.intake.desk import Desk

SESSIONS = """\
session,team,season,starts_at,setting,wear_complete
S8,T1,2026,2026-09-12T18:00,game,
S9,T1,2026,2026-09-13T18:00,game,no
"""


def marked(desk: Desk) -> dict[str, str | None]:
    rows = export_tables(desk.store)["sessions"].select("session", "wear_complete")
    return dict(rows.sort("session").iter_rows())


def test_sessions_that_are_there_and_those_that_come_are_marked(own: Desk) -> None:
    own.put(
        sessions=SESSIONS,
        attendance="session,athlete,part\nS1,A1,full\nS8,A1,full\nS9,A1,full\n",
        wear="session,guard\nS2,G1\n",
    )
    plan = plan_load(own.store, [own.folder], LoadOptions(wear_complete=True))
    write_load(own.store, plan)
    assert marked(own) == {"S1": "yes", "S2": "yes", "S3": None, "S8": "yes", "S9": "no"}
    counts = {(one.table, one.file): (one.new, one.changed) for one in plan.tables}
    assert counts["sessions", "wear is complete"] == (0, 2)
    undo_last_load(own.store)
    assert set(marked(own).values()) == {None}
