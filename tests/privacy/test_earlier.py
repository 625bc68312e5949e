"""What two handouts give away together, and the folder that keeps them."""

import json
import os
import stat
from datetime import UTC, date, datetime

import pytest

from seasonboard.disclosure.count_definition import CountDefinition, narrowed_in
from seasonboard.disclosure.differencing import small_differences
from seasonboard.disclosure.ledger import Ledger, LedgerEntry, LedgerError, PublishedCount
from seasonboard.scope import Scope, View

OCTOBER, NOVEMBER = date(2026, 10, 31), date(2026, 11, 30)
ALL = CountDefinition("injuries")


def injuries(**parts: object) -> CountDefinition:
    return CountDefinition.within("injuries", parts)


A, B, C = (injuries(department=d) for d in "ABC")


def handout(
    cells: dict[CountDefinition, int], through: date = OCTOBER, day: int = 1
) -> LedgerEntry:
    told = tuple(PublishedCount(definition, value) for definition, value in cells.items())
    made = datetime(through.year, through.month, day, 18, tzinfo=UTC)
    return LedgerEntry(made, "pitch", "All departments", through, 11, "f", told)


@pytest.mark.parametrize(("then", "now"), [(40, 41), (40, 50), (41, 40), (0, 3)])
def test_the_same_count_twice_tells_what_came_small_differences(then, now):
    (found,) = small_differences([handout({ALL: then})], handout({ALL: now}, NOVEMBER))
    assert found.value == abs(now - then)
    assert "pitch of 2026-10-01 18:00 (through 2026-10-31)" in found.sentence()
    assert "Wait until it changed by more" in found.sentence()


@pytest.mark.parametrize(("then", "now"), [(40, 40), (40, 51), (0, 0), (0, 11)])
def test_no_change_or_a_large_one_may_be_told(then, now):
    assert small_differences([handout({ALL: then})], handout({ALL: now}, NOVEMBER)) == ()


def test_all_departments_without_all_but_one():
    """A and B went out one by one; now the total of A, B and C gives C."""
    earlier = [handout({A: 30}), handout({B: 25}, day=2)]
    (found,) = small_differences(earlier, handout({ALL: 60}))
    assert found.value == 5
    assert "injuries (department A)" in found.rest
    assert "injuries (department B)" in found.rest
    assert small_differences(earlier, handout({ALL: 66})) == ()


GUARDS = CountDefinition.within("guards", {"department": "A"})


@pytest.mark.parametrize(
    ("earlier", "now", "told"),
    [
        ({ALL: 60}, {A: 30, B: 25}, [5]),  # a whole that is out, and all its parts but one
        ({ALL: 90}, {injuries(season="2026 fall"): 84}, [6]),
        ({injuries(department=["A", "B"]): 40}, {A: 33}, [7]),
        ({}, {ALL: 60, A: 30, B: 25}, [5]),  # within one document
        ({}, {ALL: 60, A: 30, B: 30}, []),
        ({GUARDS: 33, B: 33}, {A: 35}, []),  # what lies apart is not compared
    ],
)
def test_a_whole_without_its_parts_is_told(earlier, now, told):
    found = small_differences([handout(earlier)] if earlier else [], handout(now))
    assert [one.value for one in found] == told
    assert not any(one.is_change for one in found)


def test_a_part_of_a_later_day_says_nothing_of_the_rest_then():
    assert small_differences([handout({ALL: 60})], handout({A: 55}, NOVEMBER)) == ()
    (found,) = small_differences([handout({A: 55})], handout({ALL: 60}, NOVEMBER))
    assert "at most 5" in found.sentence()


def test_counts_are_known_again_by_what_they_count():
    scope = Scope(OCTOBER, departments=("LF", "MC"), purpose=View.ALL)
    later = Scope(NOVEMBER, departments=("MC", "LF"), purpose=View.ALL, level=0.9)
    whole = CountDefinition.of("injuries", scope)
    assert whole == CountDefinition.of("injuries", later)
    part = CountDefinition.of("injuries", scope, department="LF", position_group="keeper")
    assert narrowed_in(part, whole) == ("department", "position group")
    assert narrowed_in(whole, part) is None
    assert narrowed_in(part, CountDefinition("injuries")) is not None


def test_a_handout_is_kept_and_read_again(tmp_path):
    ledger = Ledger(tmp_path / "my_season.duckdb")
    assert ledger.read().entries == ()
    first, second = handout({ALL: 60, A: 30}), handout({ALL: 71, A: 41}, NOVEMBER)
    path = ledger.add(second)
    ledger.add(first)
    assert path.parent == tmp_path / "my_season.duckdb.handouts"
    assert ledger.read().entries == (first, second)
    assert ledger.read().warnings == ()
    if os.name == "posix":
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
        assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert not list(path.parent.glob("*.part"))


@pytest.mark.parametrize(
    "damage",
    [
        b"", b"{", b"\xff\xfe", b"[]", b"null", b'{"form": "seasonboard handout 2"}',
        b'{"form": "seasonboard handout 1"}',
    ],
)  # fmt: skip
def test_a_damaged_or_foreign_file_is_told_and_left_alone(tmp_path, damage):
    ledger = Ledger(tmp_path / "s.duckdb")
    ledger.add(handout({ALL: 60}))
    bad = ledger.folder / "bad.json"
    bad.write_bytes(damage)
    kept = ledger.read()
    assert len(kept.entries) == 1
    (warning,) = kept.warnings
    assert str(bad) in warning
    assert "not compared" in warning
    assert bad.read_bytes() == damage


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("made_at", "2026-10-01"),
        ("through", "last week"),
        ("threshold", "11"),
        ("cells", [{"what": "injuries", "of": {}, "value": -1}]),
        ("cells", [{"what": "injuries", "of": [], "value": 3}]),
        ("cells", {"a": 1}),
    ],
)
def test_each_field_is_looked_at(tmp_path, field, value):
    ledger = Ledger(tmp_path / "s.duckdb")
    path = ledger.add(handout({ALL: 60}))
    path.write_text(json.dumps({**json.loads(path.read_text()), field: value}))
    assert ledger.read().entries == ()
    assert len(ledger.read().warnings) == 1


def test_a_folder_that_cannot_be_written_is_told(tmp_path):
    ledger = Ledger(tmp_path / "s.duckdb")
    ledger.folder.write_text("a file stands where the folder should be")
    with pytest.raises(LedgerError, match=r"s\.duckdb\.handouts"):
        ledger.add(handout({ALL: 60}))
