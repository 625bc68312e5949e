"""What printers printed of late and how guards were made, by eye."""

from tests.queries import build
from tests.queries.build import at, day, order, session, with_orders

UNTIL = {"until": day(40)}


def season():
    made = build.Season(departments=[build.department("D"), build.department("E", time_zone="UTC")])
    made.teams.append(build.team("U", department="E"))
    made.roster = [build.member("A"), build.member("B", team="U")]
    made.printers = [
        {"printer": "own", "department": "D", "hours_per_week": 84.0},
        {"printer": "bench", "department": None, "hours_per_week": None},
        {"printer": "idle", "department": "E", "hours_per_week": 10.0},
    ]
    made.sessions = [session("G5", day(5)), session("G9", day(9)), session("P2", day(2))]
    return with_orders(
        made,
        order(
            "early", "A", {"requested": at(1), "printed": at(11)}, printer="own", print_hours=4.0
        ),
        order("late", "A", {"requested": at(6), "printed": at(12)}, printer="own", print_hours=5.5),
        order("bare", "A", {"requested": at(10), "printed": at(39)}, printer="own"),
        order("other", "B", {"requested": at(2), "printed": at(30)}, printer="bench"),
        order("new", "B", {"requested": at(2), "printed": at(40)}, printer="unlisted"),
        order("far", "B", {"requested": at(3), "printed": at(31)}, printer="spare"),
    )


def test_printers_of_the_last_four_weeks_listed_or_named(tmp_path):
    """Day 12 is the first of 28 before day 40; what is printed on day 40 is not known yet."""
    with season().load(tmp_path) as store:
        rows = store.read("capacity/printers", **UNTIL, departments=None).to_dicts()
        own = store.read("capacity/printers", **UNTIL, departments=["D"]).to_dicts()
    found = {row.pop("printer"): row for row in rows}
    assert found["own"] == {
        "department": "D",
        "hours_per_week": 84.0,
        "is_listed": True,
        "used_by": ["D"],
        "prints": 2,
        "hours": 5.5,
        "without_hours": 1,
    }
    assert (found["idle"]["used_by"], found["idle"]["prints"]) == ([], 0)
    assert (found["spare"]["is_listed"], found["spare"]["used_by"]) == (False, ["E"])
    assert found["bench"]["hours_per_week"] is None
    assert "unlisted" not in found
    assert [row["printer"] for row in own] == ["own"]


def test_the_making_of_every_order_with_the_first_game_it_waited_for(tmp_path):
    with season().load(tmp_path) as store:
        rows = store.read("orders/histories", **UNTIL).to_dicts()
    games = {
        row["requested_at"].day: row["first_game_at"] for row in rows if row["department"] == "D"
    }
    assert [(on, at and at.day) for on, at in sorted(games.items())] == [(1, 5), (6, 9), (10, None)]
    assert {row["first_game_at"] for row in rows if row["department"] == "E"} == {None}
    assert [row["print_hours"] for row in rows if row["requested_at"].day == 6] == [5.5]
    assert sum(row["printed_at"] is None for row in rows) == 1
    assert {row["as_of"].day for row in rows} == {day(40).day}
