"""Groups of remakes that cannot be told from something else are named."""

import polars as pl
import pytest

from seasonboard.answers.remakes.mixed import mixed_up
from seasonboard.answers.remakes.options import RemakesBy

COLUMNS = ("kind", "purpose", "printer", "material", "profile", "operator", "scan_method")


def guards(*parts: tuple[int, str, str]) -> pl.DataFrame:
    """Return fitted guards: how many, their group, and their department."""
    rows = [
        {"group": group, "department": department}
        for count, group, department in parts
        for _ in range(count)
    ]
    return pl.DataFrame(rows).with_columns(pl.lit(None, pl.String).alias(name) for name in COLUMNS)


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        ([(12, "phone", "D"), (20, "scanner", "E")], 2),
        ([(12, "phone", "D"), (12, "scanner", "E"), (8, "scanner", "D")], 1),
        ([(12, "phone", "D"), (10, "scanner", "E"), (10, "scanner", "D")], 0),
        ([(9, "phone", "D"), (20, "scanner", "E"), (4, "scanner", "D")], 0),
        ([(18, "phone", "D"), (2, "phone", "E"), (20, "scanner", "F")], 2),
        ([(17, "phone", "D"), (3, "phone", "E"), (11, "scanner", "F"), (9, "scanner", "D")], 0),
    ],
    ids=["one each", "one of both", "half of the others", "under ten", "nine in ten", "fewer"],
)
def test_nearly_all_of_a_group_and_under_half_of_the_others(parts, told):
    assert len(mixed_up(guards(*parts), RemakesBy.SCAN_METHOD)) == told


def test_the_sentence_counts_both_and_what_the_groups_are_is_not_told_of_itself():
    frame = guards((12, "phone", "D"), (12, "scanner", "E"), (8, "scanner", "D"))
    assert mixed_up(frame, RemakesBy.SCAN_METHOD) == [
        "12 of 12 guards of “phone” have department D, of all others 40 %: one cannot be told from "
        "the other."
    ]
    assert mixed_up(frame, RemakesBy.DEPARTMENT) == []
