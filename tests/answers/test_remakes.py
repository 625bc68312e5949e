"""What came back, and why: figures that can be checked by hand."""

import math

import pytest

from seasonboard.answers.remakes.groups import Reading
from seasonboard.errors import ScopeError
from seasonboard.stats.control_charts import ControlLimits
from tests.answers.made_guards import Made


@pytest.fixture
def made():
    return Made()


def by_name(answer):
    return {group.group: group for group in answer.groups}


def test_limits_of_two_groups_worked_by_hand(made, tmp_path):
    """20 of 40 phone scans and 0 of 40 scanner scans: p = 0.25 ± 3 √(0.25 × 0.75 / 40)."""
    made.fitted("p", 40, scan_method="phone")
    made.fitted("s", 40, scan_method="scanner")
    made.back("p", 20, on=10)
    answer = made.ask(tmp_path, "scan-method")
    found, half = by_name(answer), 3 * math.sqrt(0.25 * 0.75 / 40)
    for name, remade, reading in (("phone", 20, Reading.ABOVE), ("scanner", 0, Reading.BELOW)):
        group = found[name]
        assert (group.fitted, group.remakes, group.share.value) == (40, remade, remade / 40)
        limits = group.control_limits
        assert (limits.low, limits.high) == pytest.approx((0.25 - half, 0.25 + half))
        assert (limits.is_outside, group.reading) == (True, reading)
    summary = answer.summary.answer
    assert "20 of 80 fitted guards were remade (25 %, 17 to 35 %)" in summary
    assert "Most often for fit (20 of 20)." in summary
    assert summary.endswith(
        "Above its control limits by scan method: phone (50 %, control limits 4 to 46 %). "
        "Below its control limits by scan method: scanner (0 %, control limits 4 to 46 %)."
    )


def test_a_small_group_is_too_small_to_tell_wherever_it_lies(made, tmp_path):
    """Three of three came back, far beyond the limits of three: no verdict, and words."""
    made.fitted("p", 3, scan_method="phone")
    made.fitted("s", 60, scan_method="scanner")
    made.back("p", 3, on=10)
    answer = made.ask(tmp_path, "scan-method")
    phone = by_name(answer)["phone"]
    assert phone.share.value > phone.control_limits.high
    assert (phone.control_limits.is_outside, phone.reading) == (None, Reading.TOO_FEW)
    assert phone.control_limits.why.startswith("fewer than ten guards were fitted")
    assert "limits" not in answer.summary.answer
    assert "Too few guards to call different (phone)" in " ".join(answer.summary.caveats)


def test_one_group_has_no_limits_to_be_compared_with(made, tmp_path):
    made.fitted("p", 20)
    made.back("p", 4, on=10)
    (group,) = made.ask(tmp_path).groups
    why = "fewer than two groups to compare"
    assert group.control_limits == ControlLimits(None, None, None, why)
    assert group.reading is Reading.NO_LIMITS


def test_remakes_and_replacements_are_counted_apart(made, tmp_path):
    made.fitted("p", 20)
    made.back("p", 3, on=10, why="damage")
    for number, why in ((5, "lost"), (6, "worn out"), (7, "body change"), (8, None)):
        cells = {"remake_of": f"p{number}", "remake_reason": why}
        made.guard(f"p{number}-b", {"requested": 12}, **cells)
    answer = made.ask(tmp_path)
    whole = answer.whole
    assert (whole.remakes, whole.replacements, whole.reason_not_recorded) == (3, 3, 1)
    assert [(r.reason, r.counts_as, r.count) for r in answer.reasons] == [
        ("damage", "remake", 3), ("body change", "replacement", 1), ("lost", "replacement", 1),
        ("not recorded", "neither", 1), ("worn out", "replacement", 1),
    ]  # fmt: skip
    assert sum(r.share for r in answer.reasons) == pytest.approx(1)
    assert "1 guard asked for anew without a reason" in " ".join(answer.summary.caveats)


def test_reasons_of_guards_never_fitted_stand_apart_from_those_that_came_back(made, tmp_path):
    """Two prints failed before anybody was fitted; one guard came back for its fit."""
    made.fitted("p", 12)
    made.back("p", 1, on=10)
    for number in range(2):
        made.guard(f"u{number}", {"requested": 1, "cancelled": 4})
        cells = {"remake_of": f"u{number}", "remake_reason": "print fault"}
        made.guard(f"u{number}-b", {"requested": 4}, **cells)
    answer = made.ask(tmp_path)
    assert [(r.reason, r.count, r.share, r.before_fitting) for r in answer.reasons] == [
        ("fit", 1, 1.0, 0),
        ("print fault", 0, 0.0, 2),
    ]
    assert "Most often for fit (1 of 1)" in answer.summary.answer
    assert ("the guard they replace was not fitted", 2) in [
        (left.why, left.count) for left in answer.summary.left_out
    ]


def test_every_group_has_its_own_reasons(made, tmp_path):
    made.fitted("p", 10, scan_method="phone")
    made.fitted("s", 10, scan_method="scanner")
    made.back("p", 2, on=10, why="scan fault")
    made.back("s", 1, on=10, why="damage")
    found = by_name(made.ask(tmp_path, "scan-method"))
    assert [(r.reason, r.count) for r in found["phone"].reasons] == [("scan fault", 2)]
    assert [(r.reason, r.count) for r in found["scanner"].reasons] == [("damage", 1)]


def test_a_remake_belongs_to_the_group_of_the_guard_that_came_back(made, tmp_path):
    """Scanned by phone, remade by scanner: the phone's guard came back."""
    made.fitted("p", 10, scan_method="phone")
    cells = {"remake_of": "p0", "remake_reason": "fit", "scan_method": "scanner"}
    made.guard("p0-b", {"requested": 5, "fitted": 9}, **cells)
    found = by_name(made.ask(tmp_path, "scan-method"))
    assert (found["phone"].fitted, found["phone"].remakes) == (10, 1)
    assert (found["scanner"].fitted, found["scanner"].remakes) == (1, 0)


def test_bands_of_contact_take_their_lower_end(made, tmp_path):
    for number, pct in enumerate((60.0, 84.9, 85.0, 91.9, 92.0, 100.0, None)):
        made.guard(f"c{number}", {"requested": 1, "fitted": 2}, contact_pct=pct)
    answer = made.ask(tmp_path, "contact")
    assert {name: group.fitted for name, group in by_name(answer).items()} == {
        "under 85 %": 2, "85 to 92 %": 2, "92 % up": 2, "not recorded": 1,
    }  # fmt: skip
    assert "our own choice: under 85 %, 85 to 92 %, 92 % up" in " ".join(answer.summary.caveats)


@pytest.mark.parametrize(
    ("by", "name"),
    [("side", "midline"), ("purpose", "preventive"), ("department", "College D"),
     ("printer", "[/x] Lee"), ("kind", "chest")],
)  # fmt: skip
def test_groups_are_named_as_recorded(made, tmp_path, by, name):
    made.fitted("p", 2, printer="[/x] Lee")
    assert list(by_name(made.ask(tmp_path, by))) == [name]


def test_a_guard_of_the_right_side_is_not_of_the_left(made, tmp_path):
    made.fitted("l", 3, kind="shin", side="left")
    made.fitted("r", 2, kind="shin", side="right")
    made.back("r", 1, on=9)
    found = by_name(made.ask(tmp_path, "side"))
    assert {n: (g.fitted, g.remakes) for n, g in found.items()} == {"left": (3, 0), "right": (2, 1)}


def test_two_asked_for_in_one_place_are_one_guard_that_came_back(made, tmp_path):
    """One of twelve came back, for its fit and then, not yet fitted, for damage: told."""
    made.fitted("p", 12)
    made.back("p", 1, on=10)
    made.guard("p0-c", {"requested": 14}, remake_of="p0", remake_reason="damage")
    made.worn("p0", range(3, 8))
    answer = made.ask(tmp_path)
    assert (answer.whole.remakes, answer.chains.units) == (1, 2)
    assert answer.whole.per_100_worn == 100 * 2 / 5
    assert "1 guard asked for anew more than once" in " ".join(answer.summary.caveats)


def test_months_are_followed_for_the_whole_window(made, tmp_path):
    """Fitted in September and October; through 31 October no October guard is known 30 days."""
    made.fitted("p", 20, on=3)
    made.fitted("q", 20, on=35)
    made.back("p", 4, on=20)
    made.back("q", 9, on=40)
    (only,) = made.ask(tmp_path, through=61).months
    assert (f"{only.month:%b}", only.fitted, only.remakes) == ("Sep", 20, 4)
    why = "fewer than two months are known for the whole window"
    assert only.control_limits == ControlLimits(None, None, None, why)
    months = made.ask(tmp_path, through=90).months
    assert [(m.fitted, m.remakes) for m in months] == [(20, 4), (20, 9)]
    half = 3 * math.sqrt(13 / 40 * 27 / 40 / 20)
    assert months[0].control_limits.high == pytest.approx(13 / 40 + half)


def test_a_remake_after_the_window_is_not_in_its_month(made, tmp_path):
    made.fitted("p", 20, on=3)
    made.back("p", 1, on=33)
    assert made.ask(tmp_path, window=30).months[0].remakes == 1, "day 30 counts"
    assert made.ask(tmp_path, window=29).months[0].remakes == 0


def test_a_window_of_no_day_is_refused(made, tmp_path):
    made.fitted("p", 1)
    with pytest.raises(ScopeError, match="window of 0 days"):
        made.ask(tmp_path, window=0)
