"""Orders given row by row, to be checked by eye."""

from datetime import UTC, date, datetime

from tests.queries import build
from tests.queries.asking import put
from tests.queries.build import at, drawn, order, with_orders

GRID = """
       A B C
G1     . . .
G2@4   . - o
G3@8   g . .
G4@12  - - -
"""


def season(*orders, grid=GRID):
    return with_orders(drawn(grid), *orders)


def orders(store, through=8, **parts):
    rows = put(store, "orders/orders", build.day(through), **parts).to_dicts()
    return {row["guard"]: row for row in rows}


def test_an_order_is_as_it_was_known_that_day(load):
    """Requested on day 2, scanned on day 5, fitted on day 9."""
    made = order("X", "B", {"requested": at(2), "scanned": at(5), "fitted": at(9)})
    store = load(season(made))
    assert orders(store, 1) == {}
    known = {n: orders(store, n)["X"] for n in (2, 5, 8, 9)}
    assert [known[n]["stage"] for n in known] == ["requested", "scanned", "scanned", "fitted"]
    assert [known[n]["state"] for n in known] == ["open", "open", "open", "fitted"]
    assert known[5]["as_of"] == datetime(2026, 9, 6, tzinfo=UTC)
    assert known[5]["fitted_at"] is None


def test_the_games_an_order_waits_for(load):
    """The first game after the request, and the next one from the last day known on."""
    made = order("X", "B", {"requested": at(2)})
    store = load(season(made))
    one = orders(store, 5)["X"]
    assert one["first_game_at"] == at(4, 12)
    assert (one["next_session"], one["next_game_on"]) == ("G3", build.day(8))
    assert orders(store, 8)["X"]["next_session"] == "G4", "game 3 was played: it is recorded"
    assert orders(store, 12)["X"]["next_session"] == "G4", "nobody's attendance is recorded yet"
    assert orders(store, 13)["X"]["next_session"] is None


def test_sessions_played_bare_meanwhile(load):
    """A waits for a remake and wears the old guard in game 3; C was out in game 2."""
    made = [order(f"X{who}", who, {"requested": at(2)}) for who in "ABC"]
    found = orders(load(season(*made)))
    counts = {who: (found[f"X{who}"]["exposures"], found[f"X{who}"]["bare"]) for who in "ABC"}
    assert counts == {"A": (2, 1), "B": (1, 1), "C": (1, 1)}


def test_one_bare_leg_of_two_is_bare(load):
    """Both shins are waited for; the left one has an old guard on."""
    plain = build.legs([("A", "left")])
    pair = order("X", "A", {"requested": at(0)}, kind="shin", side="both")
    found = orders(load(with_orders(plain, pair)), kinds=["shin"])
    assert (found["X"]["exposures"], found["X"]["bare"], found["X"]["worn"]) == (1, 1, 0)


def test_a_guard_worn_before_it_was_fitted_is_told(load):
    plain = season(order("g-B", "A", {"requested": at(1)}, purpose="return"))
    plain.wear.append({"session": "G3", "guard": "g-B"})
    assert orders(load(plain))["g-B"]["worn"] == 1


def test_the_first_of_two_stamps_counts_and_is_told(load):
    made = order("X", "B", {"requested": at(2), "fitted": at(6)})
    plain = season(made)
    plain.stages.append({"guard": "X", "stage": "fitted", "reached_at": at(7)})
    found = orders(load(plain))["X"]
    assert (found["fitted_at"], found["stamped_twice"]) == (at(6), 1)


def test_a_remake_of_a_cancelled_order_is_an_order_of_its_own(load):
    first = order("X", "B", {"requested": at(1), "cancelled": at(3)})
    second = order("Y", "B", {"requested": at(3)}, remake_of="X", remake_reason="fit")
    found = orders(load(season(first, second)))
    assert {k: (o["state"], o["remake_of"]) for k, o in found.items()} == {
        "X": ("cancelled", None),
        "Y": ("open", "X"),
    }


def test_days_are_those_of_the_department(load):
    """23:30 in Denver on day 2 is day 3 in UTC; on day 2 it is known in Denver."""
    made = order("X", "B", {"requested": at(3, 5, 30)})
    plain = season(made)
    plain.departments = [build.department("D", time_zone="America/Denver")]
    assert "X" in orders(load(plain), 2)


def test_guards_without_a_stage_are_counted(load):
    store = load(season(order("X", "B", {"requested": at(2)})))
    unstaged = put(store, "orders/unstaged", date(2026, 9, 30))
    assert unstaged.item() == 1, "A's guard of the grid"


def test_the_orders_of_one_group_and_those_of_which_the_group_is_not_recorded(load):
    """X was scanned with a phone, Y with a scanner, of Z nobody wrote down how."""
    store = load(
        season(
            order("X", "A", {"requested": at(1)}, scan_method="phone"),
            order("Y", "B", {"requested": at(1)}, scan_method="scanner"),
            order("Z", "C", {"requested": at(1)}),
        )
    )

    def keys(by, member):
        rows = put(store, "orders/of_group", build.day(8), by=by, member=member)
        return rows["guard"].to_list()

    assert [keys("scan-method", how) for how in ("phone", "scanner", "")] == [["X"], ["Y"], ["Z"]]
    assert keys("department", "D") == keys("plan", "onsite printer") == ["X", "Y", "Z"]
    assert keys("kind", "vest") == []
