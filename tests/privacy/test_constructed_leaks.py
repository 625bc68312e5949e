"""Documents made to give a small count away, each refused; and honest ones that pass."""

from datetime import UTC, date, datetime

import pytest

from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.ledger import LedgerEntry, PublishedCount
from seasonboard.disclosure.published_figures import (
    CountRange,
    DerivedFigure,
    HiddenCount,
    PublishedItem,
    ShownCount,
    ShownInterval,
    ShownRate,
    ShownRatio,
)
from seasonboard.disclosure.release import Equation, Policy, Release, adds_up
from seasonboard.disclosure.verdict import DisclosureVerdict, RefusedError, verdict_on
from tests.privacy.made import line, table


def seen(
    cells: dict[str, int], *items: PublishedItem, sums: tuple[Equation, ...] = ()
) -> DisclosureVerdict:
    return verdict_on(Release(cells, sums, items), Policy())


GUARDED = {"guarded": 4, "bare": 40, "guarded AE": 1000, "bare AE": 3000}
AE = (ShownCount("guarded AE"), ShownCount("bare AE"), ShownCount("bare"))

REFUSED = {
    "a small count as it is": lambda: seen({"a": 3}, ShownCount("a")),
    "one of a line is hidden and the total is not": lambda: verdict_on(
        line(3, 12, 25, hidden={"a"}), Policy()
    ),
    "two are hidden that are small together": lambda: verdict_on(
        line(3, 5, 25, hidden={"a", "b"}), Policy()
    ),
    "a zero is hidden as the partner": lambda: verdict_on(
        line(4, 0, 25, hidden={"a", "b"}), Policy()
    ),
    "a table with one hidden in its row and column": lambda: verdict_on(
        table("ab", "xy", [[3, 20], [30, 40]], {"a/x", "a/y", "b/x"}), Policy()
    ),
    "a rate beside its exposures": lambda: seen(
        {"n": 5, "AE": 1000}, HiddenCount("n"), ShownCount("AE"), ShownRate("rate", "n", "AE")
    ),
    "a coarse rate of few exposures": lambda: seen(
        {"n": 2, "AE": 90},
        HiddenCount("n"),
        ShownCount("AE"),
        ShownRate("rate", "n", "AE", 1000, 0),
    ),
    "a percentage beside its whole": lambda: seen(
        {"n": 10, "of": 40},
        HiddenCount("n"),
        ShownCount("of"),
        ShownRate("share", "n", "of", 100, 0),
    ),
    "an average beside its sum": lambda: seen(
        {"days": 240, "injuries": 8},
        HiddenCount("injuries"),
        ShownCount("days"),
        ShownRate("days an injury", "days", "injuries", 1, 1),
    ),
    "exact limits": lambda: seen(
        {"n": 3, "AE": 800}, HiddenCount("n"), ShownCount("AE"), ShownInterval("limits", "n", "AE")
    ),
    "score limits of a share": lambda: seen(
        {"n": 3, "of": 80},
        HiddenCount("n"),
        ShownCount("of"),
        ShownInterval("limits", "n", "of", "wilson", 100, 0),
    ),
    "a ratio beside the other count": lambda: seen(
        GUARDED,
        HiddenCount("guarded"),
        *AE,
        ShownRatio("ratio", "guarded", "guarded AE", "bare", "bare AE"),
    ),
    "a model's ratio of a small count": lambda: seen(
        GUARDED,
        HiddenCount("guarded"),
        *AE,
        DerivedFigure("same-session ratio", ("guarded", "bare")),
    ),
    "a small denominator": lambda: seen(
        {"keepers": 1, "n": 30}, ShownCount("keepers"), ShownCount("n")
    ),
    "limits of nobody hurt give the exposures": lambda: seen(
        {"n": 0, "AE": 9}, ShownCount("n"), HiddenCount("AE"), ShownInterval("limits", "n", "AE")
    ),
    "those who are not in a share": lambda: seen(
        {"worn": 36, "bare": 4, "all": 40},
        ShownCount("worn"),
        ShownCount("all"),
        sums=(adds_up("all", ("worn", "bare")),),
    ),
    "a rest row": lambda: seen(
        {"a": 30, "b": 20, "rest": 6, "all": 56},
        *map(ShownCount, ("a", "b", "all")),
        HiddenCount("rest"),
        sums=(adds_up("all", ("a", "b", "rest")),),
    ),
    "a department with a single team": lambda: seen(
        {"department": 4, "team": 4},
        HiddenCount("department"),
        ShownCount("team"),
        sums=(adds_up("department", ("team",)),),
    ),
    "a nested group": lambda: seen(
        {"soccer": 50, "women": 44, "men": 6, "all": 90, "others": 40},
        *map(ShownCount, ("soccer", "women", "all")),
        sums=(adds_up("soccer", ("women", "men")), adds_up("all", ("soccer", "others"))),
    ),
    "groups that overlap in a ring": lambda: seen(
        {"a": 4, "b": 18, "c": 29, "a or b": 22, "b or c": 47, "a or c": 33},
        *map(ShownCount, ("a or b", "b or c", "a or c")),
        *map(HiddenCount, "abc"),
        sums=(
            adds_up("a or b", ("a", "b")),
            adds_up("b or c", ("b", "c")),
            adds_up("a or c", ("a", "c")),
        ),
    ),
    "ten hidden together, one of them a zero nobody shows": lambda: seen(
        {"all": 40, "big": 30, "a": 10, "rest": 0},
        *map(ShownCount, ("all", "big")),
        HiddenCount("a"),
        sums=(adds_up("all", ("big", "a", "rest")),),
    ),
    "a number in words": lambda: seen({"n": 4}, HiddenCount("n"), CountRange("n", 3, 5)),
    "a mark that says more than the rule": lambda: seen(
        {"n": 2}, CountRange("n", 1, 4, is_mark=True)
    ),
    "a mark in a sum that narrows it": lambda: seen(
        {"a": 2, "b": 12, "all": 14},
        CountRange("a", 1, 10, is_mark=True),
        HiddenCount("b"),
        ShownCount("all"),
        CountRange("b", 11),
        sums=(adds_up("all", ("a", "b")),),
    ),
    "two percentages of one hidden total and a count": lambda: seen(
        {"a": 24, "b": 6, "all": 30},
        ShownCount("a"),
        ShownRate("share of a", "a", "all", 100, 1),
        sums=(adds_up("all", ("a", "b")),),
    ),
    "hidden in one table and shown in another": lambda: seen(
        {"a": 7, "b": 30, "all": 37, "again": 7},
        *map(ShownCount, ("b", "again")),
        HiddenCount("a"),
        HiddenCount("all"),
        sums=(adds_up("all", ("a", "b")), adds_up("a", ("again",))),
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_is_refused(what):
    verdict = REFUSED[what]()
    assert verdict.is_refused
    with pytest.raises(RefusedError) as refusal:
        verdict.check()
    assert "below 11" in refusal.value.hint
    assert all(one.through for one in verdict.disclosures)


HONEST = {
    "zeros and counts from 11 on": lambda: verdict_on(line(0, 11, 25), Policy()),
    "a hidden pair of 11 and more": lambda: verdict_on(
        line(3, 12, 25, hidden={"a", "b"}), Policy()
    ),
    "a lone mark": lambda: seen({"n": 4}, CountRange("n", 1, 10, is_mark=True)),
    "a rectangle": lambda: verdict_on(
        table("ab", "xy", [[3, 20], [30, 40]], {"a/x", "a/y", "b/x", "b/y"}), Policy()
    ),
    "rates of shown counts": lambda: seen(
        {"n": 25, "AE": 1000},
        ShownCount("n"),
        ShownCount("AE"),
        ShownRate("r", "n", "AE"),
        ShownInterval("l", "n", "AE"),
    ),
    "a coarse rate whose exposures nobody knows": lambda: seen(
        {"n": 5, "AE": 4000},
        HiddenCount("n"),
        HiddenCount("AE"),
        ShownRate("rate", "n", "AE", 1000, 0),
    ),
    "hidden exposures beside no injury": lambda: seen(
        {"n": 0, "AE": 9}, ShownCount("n"), HiddenCount("AE"), ShownRate("rate", "n", "AE")
    ),
}


@pytest.mark.parametrize("what", HONEST)
def test_passes(what):
    verdict = HONEST[what]()
    assert verdict.sentences() == ()
    verdict.check()


def test_a_hidden_count_that_is_out_already_is_refused():
    """b protects a, but last week's handout of the same day shows it."""
    release = line(3, 12, 25, hidden={"a", "b"})
    b = CountDefinition.within("injuries", {"area": "knee"})
    day = date(2026, 11, 14)
    out = LedgerEntry(
        datetime(2026, 11, 20, tzinfo=UTC), "pitch", "", day, 11, "", (PublishedCount(b, 12),)
    )
    verdict = verdict_on(release, Policy(), [out], day, definitions={"b": b})
    assert [(one.cell, one.low, one.high) for one in verdict.disclosures] == [("a", 3, 3)]
    assert "b (12, in pitch of 2026-11-20" in verdict.sentences()[0]
    assert not verdict_on(release, Policy(), [out], date(2027, 3, 1), definitions={}).is_refused
