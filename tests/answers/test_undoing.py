"""What would undo the headline, in words: from small strata counted by eye."""

import re

import polars as pl
import pytest

from seasonboard.answers.compare.recording_checks import AttendanceCheck, Recording, WearCheck
from seasonboard.answers.compare.undo import GATES_NOTHING, what_would_undo
from seasonboard.answers.questions import COMPARE
from seasonboard.scope import read_scope
from seasonboard.stats.clustered_ratio import ClusteredRatio
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.answers.wording import nulls_without_why, plain

COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")


NOBODY = WearCheck(0, 0, 0, None, None, "no owner of a guard was hurt where it covers")
UNLIKE = AttendanceCheck(9, 10, 8, 10, ClusteredRatio(1.25, 1.1, 1.4, std_error=0.06, athletes=20))
NO_PRACTICE = AttendanceCheck(0, 0, 0, 0, ClusteredRatio(None, why="no practice", athletes=0))


def undoing(cells, owners=(), attendance=UNLIKE):
    """Return what would undo the ratio of strata called S00, S01 …, with rows of owners."""
    strata = pl.DataFrame([("same session", f"S{n:02}", *cell) for n, cell in enumerate(cells)],
                          schema=("comparison", "stratum", *COUNTS), orient="row")  # fmt: skip
    kinds = {"stratum": pl.String} | dict.fromkeys(
        ("injuries", "unrecorded", "exposures"), pl.Int64
    )
    frame = pl.DataFrame(list(owners), schema=kinds, orient="row")
    headline = mantel_haenszel(Strata(*map(list, zip(*cells, strict=True))))
    value, times = headline.value, attendance.ratio.value
    differs = None if value is None or times is None else value * times
    return what_would_undo(strata, frame, headline, Recording(attendance, NOBODY, differs))


LESS = [(0, 1, 4, 8)] * 20 + [(1, 0, 4, 8)] * 2
MORE = [(b, a, t0, t1) for a, b, t1, t0 in LESS]
OWNERS = [(f"S{n:02}", 1, n % 2, 3) for n in range(7)]


def test_seven_bare_owners_one_of_whom_would_do():
    found = undoing(LESS, OWNERS)
    assert (found.flips.needed, found.flips.candidates, found.unrecorded) == (1, 7, 3)
    assert found.lost == "bare"
    assert found.all_flipped.value > 1, "9 guarded and 13 bare"
    assert found.sentences[2:5] == (
        "1 of 7 bare injuries of guard owners, had the guard been on, would undo this.",
        "For 3 of the 7 nobody recorded whether it was on.",
        "So would 14.4 % of bare attendance that nobody recorded, in every session.",
    )
    alike = "With attendance of all recorded alike the ratio would be 0.25."
    assert found.sentences[6] == alike, "0.2 times 1.25"
    assert found.sentences[-1] == GATES_NOTHING


def test_a_harm_is_undone_by_guarded_injuries_as_its_mirror_image_is_by_bare_ones():
    less, more = undoing(LESS, [(f"S{n:02}", 1, 0, 3) for n in range(20)]), undoing(MORE)
    assert more.e_value.of_limit == pytest.approx(less.e_value.of_limit)
    assert (more.flips.needed, more.flips.candidates) == (1, 20)
    assert more.attendance_share == less.attendance_share
    assert (less.all_flipped.value, more.all_flipped.value) == (None, 0), "one group is left"
    assert more.all_flipped.high == pytest.approx(1 / less.all_flipped.low)
    assert (more.lost, more.unrecorded) == ("guarded", 0)
    assert "1 of 20 guarded injuries, had the guard been off, would undo this." in more.sentences


def test_nothing_would_undo_it_where_no_owner_was_bare():
    found = undoing(LESS)
    assert "on at all 0 bare injuries of guard owners, this would not be undone." in " ".join(
        found.sentences
    )


@pytest.mark.parametrize(
    ("cells", "owners"),
    [
        (LESS, OWNERS), (LESS, ()), (MORE, OWNERS), ([(0, 0, 4, 8)], ()), ([(1, 0, 4, 8)], ()),
        ([(0, 9, 9, 9)], [("S00", 9, 9, 9)]), ([(9, 0, 9, 9)], ()), ([(3, 3, 9, 9)] * 3, ()),
        ([(0, 1, 5, 5)] * 9, [("S00", 1, 0, 2)]),
    ],
)  # fmt: skip
@pytest.mark.parametrize("attendance", [UNLIKE, NO_PRACTICE])
def test_every_sentence_is_short_with_one_interval_and_every_null_says_why(
    cells, owners, attendance
):
    found = undoing(cells, owners, attendance)
    for sentence in found.sentences:
        assert len(sentence.split()) <= 30
        assert len(re.findall(r"\d to \d", sentence)) <= 1
        assert plain(sentence)
        assert sentence.endswith((".", ")."))
    told = COMPARE.report().elements
    (group,) = (one for one in told if one.name == "undo")
    from seasonboard.answers.field_output import as_json

    assert nulls_without_why(as_json(group.elements, found)) == []


def test_it_is_worked_out_only_when_asked_for(sample):
    scope = read_scope({"kind": "shin"}, sample.scope_values)
    answer = sample.ask(COMPARE, scope)
    assert answer.undo is None
    assert "undo" not in COMPARE.report().as_object(answer, "compare")


@pytest.mark.long
def test_the_command_gives_it_and_its_card_in_json_and_text(run, sample_store):
    asked = ("ask", "compare", "--store", sample_store, "--kind", "shin")
    answer = run(*asked, "--format", "json").json
    found = answer["undo"]
    assert {"e_value", "e_value_of_limit", "wear_flips", "attendance_share", "bounds"} <= {*found}
    assert found["e_value"] > 1
    assert found["bounds"]["as_it_differs"] == answer["recording"]["as_it_differs"] > 0
    assert GATES_NOTHING in " ".join(run(*asked).out.split())
    assert "What would undo this" in run(*asked, "--explain").out
