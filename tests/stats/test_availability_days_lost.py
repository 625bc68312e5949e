"""Days lost: severity, burden and days unavailable, against worked numbers and plain sets."""

from hypothesis import given
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from pytest import approx, mark

from seasonboard.stats.days_lost import burden, return_curve, severity, union_days


@mark.parametrize(
    ("days", "name"),
    [
        (0, "0 days"), (1, "1–7 days"), (7, "1–7 days"), (8, "8–28 days"), (28, "8–28 days"),
        (29, "over 28 days"),
    ],
)  # fmt: skip
def test_the_limits_of_the_bins_are_those_of_the_consensus_statement(days, name):
    """Bahr et al. 2020, Br J Sports Med 54:372-389: 0; 1-7; 8-28; over 28 days."""
    assert [b.name for b in severity([days], [False]).bins if b.returned] == [name]


def test_burden_is_incidence_times_mean_severity():
    """Invented: 12 injuries in 4000 exposures; the median would give 22.5 instead."""
    days = [0, 0, 1, 3, 4, 7, 8, 10, 14, 21, 28, 78]
    found = severity(days, [False] * 12)
    assert (found.days, found.mean) == (174, 14.5)
    assert [b.returned for b in found.bins] == [2, 4, 5, 1]
    cost = burden(found.days, 4000)
    assert cost.per_1000 == approx(43.5)
    assert cost.per_1000 == approx(1000 * 12 / 4000 * found.mean, abs=1e-12)


def test_what_cannot_be_told_is_none_with_why():
    nothing = severity([], [])
    assert (nothing.mean, nothing.median.value, nothing.share_over.value) == (None, None, None)
    assert nothing.share_over.why == "no injuries"
    assert burden(3, 0).per_1000 is None
    assert burden(3, 0).why == "no exposures"
    young = severity([3, 5], [False, True])
    assert young.share_over.value is None
    assert young.share_over.why == "none has been followed for 28 days"
    none_back = severity([40, 50], [True, True])
    assert (none_back.share_over.value, none_back.share_over.low) == (1.0, None)
    assert severity([1, 2], [False, False]).share_over.value == 0


stretch = st.tuples(st.integers(0, 3), st.integers(-20, 60), st.integers(-3, 25))


@given(st.lists(stretch, max_size=25))
def test_the_union_is_what_sets_of_days_hold(stretches):
    who = [n for n, _, _ in stretches]
    first = [day for _, day, _ in stretches]
    last = [day + length - 1 for _, day, length in stretches]
    held = [set() for _ in range(4)]
    for n, begin, end in zip(who, first, last, strict=True):
        held[n].update(range(begin, end + 1))
    assert union_days(who, first, last, size=4).tolist() == [len(days) for days in held]


row = st.tuples(st.integers(0, 60), st.booleans())


@given(st.lists(row, min_size=1, max_size=30))
def test_the_share_still_out_agrees_with_another_package(rows):
    """lifelines 0.30, KaplanMeierFitter().fit(days, returned)."""
    days, is_open = [d for d, _ in rows], [o for _, o in rows]
    counts = [
        (d, sum(x == d and not o for x, o in rows), sum(x == d and o for x, o in rows))
        for d in sorted(set(days))
    ]
    curve = {p.tick: p.survival for p in return_curve(counts).points}
    theirs = KaplanMeierFitter().fit(days, [not o for o in is_open]).survival_function_
    assert curve == approx({d: theirs.loc[d].item() for d in curve})
