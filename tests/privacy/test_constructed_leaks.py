"""Documents made to give a small count away, each refused; and honest ones that pass."""

from datetime import UTC, date, datetime

import pytest

from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.ledger import LedgerEntry, PublishedCount
from seasonboard.disclosure.published_figures import (
    CountRange,
    DerivedFigure,
    HiddenCount,
    ShownCount,
    ShownInterval,
    ShownRate,
    ShownRatio,
)
from seasonboard.disclosure.release import Policy, Release, adds_up
from seasonboard.disclosure.verdict import RefusedError, verdict_on
from tests.privacy.made import line, table


def seen(cells, shown, hidden, *items, **sums):
    """Return a release: names of the counts shown and hidden, other items, totals and parts."""
    names = [[name for name in told.split(", ") if name] for told in (shown, hidden)]
    counts = (*map(ShownCount, names[0]), *map(HiddenCount, names[1]))
    totals = (adds_up(total.replace("_", " "), parts) for total, parts in sums.items())
    return Release(cells, tuple(totals), (*counts, *items))


GUARDED = {"guarded": 4, "bare": 40, "guarded AE": 1000, "bare AE": 3000}
AE = "guarded AE, bare AE, bare"
FEW = {"n": 5, "AE": 1000}
SQUARE = ("ab", "xy", [[3, 20], [30, 40]])
SOCCER = {"soccer": 50, "women": 44, "men": 6, "all": 90, "others": 40}
RING = {"a": 4, "b": 18, "c": 29, "a or b": 22, "b or c": 47, "a or c": 33}
PAIRS = {"a_or_b": ("a", "b"), "b_or_c": ("b", "c"), "a_or_c": ("a", "c")}
DAYS = {"days": 240, "injuries": 8}

REFUSED = {
    "a small count as it is": seen({"a": 3}, "a", ""),
    "one of a line is hidden and the total is not": line(3, 12, 25, hidden={"a"}),
    "two are hidden that are small together": line(3, 5, 25, hidden={"a", "b"}),
    "a zero is hidden as the partner": line(4, 0, 25, hidden={"a", "b"}),
    "a table with one hidden in its row and column": table(*SQUARE, {"a/x", "a/y", "b/x"}),
    "a rate beside its exposures": seen(FEW, "AE", "n", ShownRate("rate", "n", "AE")),
    "a coarse rate of few exposures": seen(
        {"n": 2, "AE": 90}, "AE", "n", ShownRate("rate", "n", "AE", 1000, 0)
    ),
    "a percentage beside its whole": seen(
        {"n": 10, "of": 40}, "of", "n", ShownRate("share", "n", "of", 100, 0)
    ),
    "an average beside its sum": seen(
        *(DAYS, "days", "injuries"), ShownRate("days an injury", "days", "injuries", 1, 1)
    ),
    "exact limits": seen({"n": 3, "AE": 800}, "AE", "n", ShownInterval("limits", "n", "AE")),
    "score limits of a share": seen(
        {"n": 3, "of": 80}, "of", "n", ShownInterval("limits", "n", "of", "wilson", 100, 0)
    ),
    "a ratio beside the other count": seen(
        GUARDED, AE, "guarded", ShownRatio("ratio", "guarded", "guarded AE", "bare", "bare AE")
    ),
    "a model's ratio of a small count": seen(
        GUARDED, AE, "guarded", DerivedFigure("same-session ratio", ("guarded", "bare"))
    ),
    "a small denominator": seen({"keepers": 1, "n": 30}, "keepers, n", ""),
    "limits of nobody hurt give the exposures": seen(
        {"n": 0, "AE": 9}, "n", "AE", ShownInterval("limits", "n", "AE")
    ),
    "those who are not in a share": seen(
        {"worn": 36, "bare": 4, "all": 40}, "worn, all", "", all=("worn", "bare")
    ),
    "a rest row": seen(
        {"a": 30, "b": 20, "rest": 6, "all": 56}, "a, b, all", "rest", all=("a", "b", "rest")
    ),
    "a department with a single team": seen(
        {"department": 4, "team": 4}, "team", "department", department=("team",)
    ),
    "a nested group": seen(
        SOCCER, "soccer, women, all", "", soccer=("women", "men"), all=("soccer", "others")
    ),
    "groups that overlap in a ring": seen(RING, "a or b, b or c, a or c", "a, b, c", **PAIRS),
    "ten hidden together, one of them a zero nobody shows": seen(
        {"all": 40, "big": 30, "a": 10, "rest": 0}, "all, big", "a", all=("big", "a", "rest")
    ),
    "a number in words": seen({"n": 4}, "", "n", CountRange("n", 3, 5)),
    "a mark that says more than the rule": seen(
        {"n": 2}, "", "", CountRange("n", 1, 4, is_mark=True)
    ),
    "a mark in a sum that narrows it": seen(
        *({"a": 2, "b": 12, "all": 14}, "all", "b"),
        *(CountRange("a", 1, 10, is_mark=True), CountRange("b", 11)),
        all=("a", "b"),
    ),
    "two percentages of one hidden total and a count": seen(
        *({"a": 24, "b": 6, "all": 30}, "a", ""),
        ShownRate("share of a", "a", "all", 100, 1),
        all=("a", "b"),
    ),
    "hidden in one table and shown in another": seen(
        *({"a": 7, "b": 30, "all": 37, "again": 7}, "b, again", "a, all"),
        all=("a", "b"),
        a=("again",),
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_is_refused(what):
    verdict = verdict_on(REFUSED[what], Policy())
    assert verdict.is_refused
    with pytest.raises(RefusedError) as refusal:
        verdict.check()
    assert "below 11" in refusal.value.hint
    assert all(one.through for one in verdict.disclosures)


HONEST = {
    "zeros and counts from 11 on": line(0, 11, 25),
    "a hidden pair of 11 and more": line(3, 12, 25, hidden={"a", "b"}),
    "a lone mark": seen({"n": 4}, "", "", CountRange("n", 1, 10, is_mark=True)),
    "a rectangle": table(*SQUARE, {"a/x", "a/y", "b/x", "b/y"}),
    "rates of shown counts": seen(
        *({"n": 25, "AE": 1000}, "n, AE", ""),
        *(ShownRate("r", "n", "AE"), ShownInterval("l", "n", "AE")),
    ),
    "a coarse rate whose exposures nobody knows": seen(
        {"n": 5, "AE": 4000}, "", "n, AE", ShownRate("rate", "n", "AE", 1000, 0)
    ),
    "hidden exposures beside no injury": seen(
        {"n": 0, "AE": 9}, "n", "AE", ShownRate("rate", "n", "AE")
    ),
}


@pytest.mark.parametrize("what", HONEST)
def test_passes(what):
    verdict = verdict_on(HONEST[what], Policy())
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
