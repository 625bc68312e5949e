"""What is hidden of small tables: examples of the CMS policy, and two worked reports.

The rule is that of the US Centers for Medicare & Medicaid Services, Cell Size Suppression Policy
(2020): 1 to 10 may not be shown nor worked out, 0 and 11 may. Hiding more so that the first ones
cannot be worked out is secondary suppression: Hundepool et al. (2012), Statistical Disclosure
Control, chapter 4, and its handbook, section on frequency tables.
"""

import pytest

from seasonboard.disclosure.cell_suppression import cells_to_suppress, suppress
from seasonboard.disclosure.disclosure_risk import disclosures
from seasonboard.disclosure.published_figures import ShownCount, ShownInterval, ShownRate, words_of
from seasonboard.disclosure.release import Policy, PolicyError, Release, adds_up
from tests.privacy.made import FIVE, feasible, line, shown, table

SPORTS = ("soccer", "lacrosse", "rugby")
PARTS = ("knee", "ankle", "wrist")
INJURIES = ((7, 5, 2), (6, 9, 8), (11, 6, 5))


@pytest.mark.parametrize(
    ("counts", "hidden"),
    [
        ((0, 11, 25), ""),  # 0 and 11 may be shown
        ((12, 3, 25), "ab"),  # the 3, and the smallest other that is not 0
        ((12, 0, 4), "ac"),  # hiding the 0 would not help: 0 and 4 are at most 4
        ((10, 30), "ab"),
        ((40, 11, 0), ""),
        ((5, 6, 30), "ab"),  # 5 and 6 protect each other: 11 together
        ((5, 5, 30), "abc"),  # 10 together would tell that both are small
    ],
)
def test_a_line_with_its_total(counts, hidden):
    release = line(*counts)
    assert cells_to_suppress(release) == frozenset(hidden)
    assert disclosures(suppress(release, cells_to_suppress(release))) == ()


def test_the_total_is_hidden_when_nothing_else_helps():
    release = line(4, 0, 0)
    assert cells_to_suppress(release) == {"a", "total"}
    assert disclosures(suppress(release, {"a", "total"})) == ()


def test_a_percentage_of_a_small_count_is_hidden_with_it():
    """10 of 40 is 25 %: the 10, the 25 %, and one more, since 40 less the other 30 is 10."""
    cells = {"worn": 10, "bare": 30, "all": 40}
    release = Release(
        cells,
        (adds_up("all", ("worn", "bare")),),
        (*shown(cells), ShownRate("share worn", "worn", "all", 100, 0)),
    )
    hidden = cells_to_suppress(release)
    assert hidden == {"worn", "bare"}
    assert not any(isinstance(item, ShownRate) for item in suppress(release, hidden).items)


def test_one_small_count_in_a_table_of_two_by_two_takes_all_four():
    release = table("ab", "xy", [[3, 20], [30, 40]])
    assert cells_to_suppress(release) == {"a/x", "a/y", "b/x", "b/y"}


def test_a_rate_beside_its_exposures_gives_the_count():
    release = Release(
        {"injuries": 5, "exposures": 1000},
        (),
        (ShownCount("exposures"), ShownRate("rate", "injuries", "exposures")),
    )
    assert feasible(release)["injuries"] == (5, 5)
    (disclosure,) = disclosures(release)
    assert disclosure.through == ("exposures (1000)", "rate (5.0)")


def test_denominators_are_counts_as_well():
    """A position group of one athlete: also when it is only a denominator."""
    release = Release(
        {"games": 30, "keepers": 1},
        (),
        (ShownCount("games"), ShownRate("games a keeper", "games", "keepers", 1, 1)),
    )
    assert [one.cell for one in disclosures(release)] == ["keepers"]


def test_injuries_by_sport_and_part_close_the_rectangle():
    """Four hidden cells, and from what is shown soccer/wrist is 0 to 7, not one number."""
    release = table(SPORTS, PARTS, INJURIES)
    hidden = cells_to_suppress(release, FIVE)
    assert hidden == {"soccer/wrist", "soccer/ankle", "rugby/wrist", "rugby/ankle"}
    assert feasible(suppress(release, hidden))["soccer/wrist"] == (0, 7)
    assert disclosures(suppress(release, hidden), FIVE) == ()


@pytest.mark.parametrize(
    "hidden",
    [
        {"soccer/wrist"},
        {"soccer/wrist", "soccer/ankle"},
        {"soccer/wrist", "soccer/ankle", "rugby/wrist"},
        {"soccer/wrist", "soccer/all"},
        {"soccer/wrist", "soccer/all", "all/wrist"},
    ],
)
def test_fewer_hidden_cells_give_soccers_wrists_away(hidden):
    found = disclosures(suppress(table(SPORTS, PARTS, INJURIES), hidden), FIVE)
    assert [(one.cell, one.low, one.high) for one in found] == [("soccer/wrist", 2, 2)]


def test_a_leak_names_numbers_that_suffice_and_none_too_many():
    (disclosure,) = disclosures(suppress(table(SPORTS, PARTS, INJURIES), {"soccer/wrist"}), FIVE)
    assert disclosure.through in {
        ("soccer/knee (7)", "soccer/ankle (5)", "soccer/all (14)"),
        ("lacrosse/wrist (8)", "rugby/wrist (5)", "all/wrist (15)"),
    }
    assert disclosure.sentence().startswith(
        "soccer/wrist: a reader can work out that it is 2, below 5"
    )


def teams(*, rates: bool) -> Release:
    exposures = {"North": 412, "South": 655, "West": 300, "East": 90}
    counts = {"North": 1, "South": 9, "West": 2, "East": 0}
    cells = {**{f"{team} AE": n for team, n in exposures.items()}, **counts, "all": 12}
    sums = adds_up("all", tuple(counts))
    worked = [ShownRate(f"{t} rate", t, f"{t} AE", digits=6) for t in counts]
    limits = [ShownInterval(f"{t} limits", t, f"{t} AE") for t in counts]
    return Release(
        cells, (sums,), (*shown(cells), *(worked if rates else []), *(limits if rates else []))
    )


def test_counts_under_five_go_with_their_rates_and_one_of_total_and_south():
    policy = Policy(5, "The case asks for 5.", zeros_shown=False)
    hidden = cells_to_suppress(teams(rates=True), policy)
    assert {"North", "West", "East"} < hidden
    assert len(hidden & {"all", "South"}) == 1
    left = suppress(teams(rates=True), hidden)
    assert disclosures(left, policy) == ()
    words = " ".join(words_of(item, left.cells) for item in left.items)
    assert "North rate" not in words
    assert "West limits" not in words


def test_a_rate_alone_gives_the_count_away_and_so_does_the_rest():
    whole = teams(rates=True)
    only_counts = {
        i for i in whole.items if isinstance(i, ShownCount) and i.cell in {"North", "West"}
    }
    left = Release(
        whole.cells, whole.equations, tuple(i for i in whole.items if i not in only_counts)
    )
    small = {one.cell: (one.low, one.high) for one in disclosures(left, FIVE)}
    assert small == {"North": (1, 1), "West": (2, 2)}
    plain = suppress(teams(rates=False), {"North", "West"})
    found = {one.cell: one for one in disclosures(plain, FIVE)}
    assert (found["North"].low, found["North"].high) == (1, 2)
    assert found["North"].through == ("South (9)", "all (12)")


@pytest.mark.parametrize("count", range(12))
def test_zero_and_eleven_are_the_edges(count):
    release = Release({"a": count}, (), (ShownCount("a"),))
    assert bool(disclosures(release)) == (1 <= count <= 10)


@pytest.mark.parametrize(("threshold", "reason"), [(10, ""), (10, "  "), (1, "why"), (0, "why")])
def test_a_threshold_is_not_lowered_without_a_reason_nor_below_two(threshold, reason):
    with pytest.raises(PolicyError, match=str(threshold)):
        Policy(threshold, reason)


def test_a_threshold_may_be_raised_by_anyone():
    assert cells_to_suppress(Release({"a": 25}, (), (ShownCount("a"),)), Policy(30)) == {"a"}


def test_a_release_that_does_not_add_up_is_refused():
    cells = {"a": 3, "total": 4}
    with pytest.raises(ValueError, match="do not add up"):
        Release(cells, line(4).equations, shown(cells))
