"""What injuries cost, in words: who has most of them, which are open, what is set aside."""

import pytest

from seasonboard.answers.compare.burden_report import burden_notes
from seasonboard.answers.questions import COMPARE
from tests.queries.build import day, drawn, injury

QUESTION = COMPARE
SCOPE = {"kind": "chest"}
GRID = """
        A    B    C
    G1  g!   .*   .
    G2  g    .    .!
    G3  g    o    .
"""


def told(answer):
    return COMPARE.report().as_object(answer, "compare")


def test_days_injuries_and_bins_stand_by_group_and_open_ones_are_a_lower_bound(ask):
    """A lost 9 days guarded, in 1 exposure; C 9 days, B 29 so far by day 30, bare, in 3: what
    follows an injury is set aside."""
    answer = ask(drawn(GRID), through=str(day(30)))
    guarded, bare = told(answer)["burden"]
    assert (guarded["exposures"], bare["exposures"]) == (1, 3)
    assert (guarded["days_per_1000"], bare["days_per_1000"]) == (9000, pytest.approx(38000 / 3))
    assert (guarded["is_lower_bound"], bare["is_lower_bound"]) == (False, True)
    bins = {one["name"]: one["returned"] + one["still_open"] for one in bare["severity"]["bins"]}
    assert bins == {"0 days": 0, "1–7 days": 0, "8–28 days": 1, "over 28 days": 1}
    assert guarded["onsets"] == {"not recorded": 1}
    assert told(answer)["burden_ratio"]["value"] == pytest.approx(9000 / (38000 / 3))
    assert "Some injuries are open: their days so far are a lower bound." in answer.summary.caveats
    for group in answer.burden.groups:
        for sentence in " ".join(burden_notes(group)).split(". "):
            assert len(sentence.split()) <= 30
    text = COMPARE.report().as_text(answer)
    assert "at least 38" in text
    assert "over 28 days (1 open)" in text


def test_one_athlete_with_most_of_a_groups_injuries_is_told(ask):
    """Under view all A is hurt guarded four times, B once: four of five."""
    season = drawn(
        "\n".join(["A B C", *(f"G{n} {'g!' if n < 5 else 'g'} . ." for n in range(1, 7))])
    )
    season.injuries.append(injury("B-1", "B", day(2), session="G2", returned_on=day(5)))
    said = ask(season, purpose="all").summary.caveats
    assert "One athlete has 4 of 4 guarded injuries." in said
    assert not [line for line in said if line.endswith("bare injuries.")]


def test_how_many_injuries_of_each_group_inform_the_ratio_is_told(ask):
    """In G1 and G2 some are guarded and some bare; G3 is bare alone."""
    answer = ask(
        drawn("""
            A    B    C    E
        G1  g!   .!   .    .
        G2  .    .    g    .!
        G3  .    .    .!   .
    """)
    )
    headline = told(answer)["comparisons"][0]
    assert (headline["injuries_guarded"], headline["injuries_unguarded"]) == (1, 3)
    assert (headline["informing_guarded"], headline["informing_unguarded"]) == (1, 2)
    assert any("3 of 4 injuries (1 guarded, 2 bare)" in one for one in answer.summary.caveats)
