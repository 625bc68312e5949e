"""A corrected file changes every cell it corrects, and is then the same."""

from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

CORRECTED = {
    "kinds": "kind,area,function\nwrist,wrist,impact\n",
    "departments": """\
department,name,plan,prints_per_week,time_zone,since,look_after_sessions,look_after_weeks
D1,North Hall,onsite printer,8,America/Denver,2025-09-01,40,12
""",
    "teams": "team,department,sport,sex\nT1,D2,football,men\n",
    "roster": """\
athlete,team,season,name,jersey,position,position_group,joined_on,left_on
A1,T1,2026,Ana Reid,7,back,defence,2026-08-02,2026-12-01
""",
    "sessions": """\
session,team,season,starts_at,setting,season_part,label,wear_complete
S1,T2,2025,2026-09-05T19:00,practice,preseason,warm-up,yes
""",
    "attendance": """\
session,athlete,part,reason,minutes,plays
S1,A1,limited,illness,45,12
""",
    "guards": """\
guard,athlete,kind,side,purpose,function,scan_method,material,shell_mm,liner_mm,contact_pct,\
mass_g,printer,print_hours,remake_of,remake_reason,lot,profile,operator,scan_id,scan_quality,\
model_version,infill_pct,inspected_on,inspected_by,inspection,promised_on
G1,A2,hip,right,return,impact,phone,PA12,2.4,3,88,61.5,P2,7.25,G2,lost,PA12-01,fine,Di,S9,usable,\
v2,30,2026-08-09,Ed,failed,2026-08-14
""",
    "stages": "guard,stage,reached_at,note,timed\nG1,fitted,2026-08-10T20:00Z,loose,no\n",
    "wear": "session,guard,kept_on,worn\nS1,G1,part,yes\n",
    "injuries": """\
injury,athlete,occurred_on,session,area,side,tissue,pathology,onset,mechanism,history,\
reported_on,returned_on,note,was_on
I1,A1,2026-09-07,S2,knee,left,ligament/joint capsule,joint sprain,acute sudden,non-contact,new,\
2026-09-08,2026-09-20,better,yes
""",
    "offers": """\
offer,athlete,kind,offered_on,answer,reason
O1,A2,hip,2026-08-16,accepted,likes it
""",
    "decisions": """\
decision,decided_on,department,text,due_on,done_on
X1,2026-09-09,D2,Scan the front line,2026-09-16,2026-09-14
""",
}


def test_every_cell_of_every_table_can_be_corrected(own: Desk) -> None:
    """But of turns and questions, which are fixed in advance."""
    plan = own.load(**CORRECTED)
    corrected = set(plan.changes.select("table_name", "column_name").iter_rows())
    assert corrected == {
        (table.name, name)
        for table in TABLES.values()
        for name in table.names
        if table.name in CORRECTED and name not in table.key
    }
    again = own.plan()
    assert again.is_empty
    assert [one.same for one in again.tables] == [1] * len(CORRECTED)


def test_a_correction_and_its_reverse_lead_back(own: Desk, small_season: dict[str, str]) -> None:
    own.load(teams=CORRECTED["teams"])
    own.load(teams=small_season["teams"])
    logged = own.store._connection.execute(
        "SELECT load_no, old_value, new_value FROM store.changes WHERE column_name = 'sport'"
    )
    assert logged.fetchall() == [(2, "soccer", "football"), (3, "football", "soccer")]
    assert own.plan(teams=small_season["teams"]).is_empty
