"""A guard recorded as not worn stays so: exported, loaded elsewhere, changed and taken back."""

from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.undo import undo_last_load
from tests.intake.desk import Desk

WEAR = "session,guard,worn\nS1,G1,no\nS1,G2,\n"


def worn(desk: Desk) -> list[tuple[str, str, str | None]]:
    rows = export_tables(desk.store)["wear"].select("session", "guard", "worn")
    return sorted(rows.rows(), key=lambda row: row[:2])


def test_not_worn_survives_an_export(own: Desk) -> None:
    own.load(wear=WEAR)
    assert worn(own) == [("S1", "G1", "no"), ("S1", "G2", None), ("S2", "G1", None)]
    text = export_tables(own.store)["wear"].write_csv()
    plan = own.plan(wear=text)
    assert [(one.new, one.changed, one.same) for one in plan.tables] == [(0, 0, 3)]


def test_undo_takes_not_worn_back(own: Desk) -> None:
    before = worn(own)
    own.load(wear=WEAR)
    undo_last_load(own.store)
    assert worn(own) == before
