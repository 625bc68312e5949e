"""What would undo the headline, in words: from small strata counted by eye."""

import re

import polars as pl
import pytest

from seasonboard.answers.compare.undo import GATES_NOTHING, what_would_undo
from seasonboard.answers.questions import COMPARE
from seasonboard.scope import read_scope
from seasonboard.stats.ratios import Strata, mantel_haenszel
from tests.answers.wording import nulls_without_why, plain

COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")


def undoing(cells, owners=()):
    """Return what would undo the ratio of strata called S00, S01 …, with rows of owners."""
    strata = pl.DataFrame([("same session", f"S{n:02}", *cell) for n, cell in enumerate(cells)],
                          schema=("comparison", "stratum", *COUNTS), orient="row")  # fmt: skip
    kinds = {"stratum": pl.String} | dict.fromkeys(
        ("injuries", "unrecorded", "exposures"), pl.Int64
    )
    frame = pl.DataFrame(list(owners), schema=kinds, orient="row")
    headline = mantel_haenszel(Strata(*map(list, zip(*cells, strict=True))))
    return what_would_undo(strata, frame, headline, 0.95)


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
def test_every_sentence_is_short_with_one_interval_and_every_null_says_why(cells, owners):
    found = undoing(cells, owners)
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
    found = run(*asked, "--format", "json").json["undo"]
    assert {"e_value", "e_value_of_limit", "wear_flips", "attendance_share", "bounds"} <= {*found}
    assert found["e_value"] > 1
    assert GATES_NOTHING in " ".join(run(*asked).out.split())
    assert "What would undo this" in run(*asked, "--explain").out
