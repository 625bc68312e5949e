"""Repeat injuries: mean number by each tick, and how sure one can be of it."""

import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.stats.clustered_ratio import AthleteCells, clustered_ratio
from seasonboard.stats.recurrent import AtRisk, Events, MeanCumulative, MeanPoint, mean_cumulative
from tests.front_door import reference_rows
from tests.stats.laws import law

Spell = tuple[int, int, int]
"""Unit, entry, leaving."""
Event = tuple[int, int, int]
"""Unit, tick, how many."""


def over(spells: list[Spell], events: list[Event], **asked: int) -> MeanCumulative:
    u, begin, end = zip(*spells, strict=True) if spells else ((), (), ())
    who, when, times = zip(*events, strict=True) if events else ((), (), ())
    return mean_cumulative(AtRisk(u, begin, end), Events(who, when, times), **asked)


def at(found: MeanCumulative, tick: int) -> MeanPoint:
    return next(point for point in found.points if point.tick == tick)


@pytest.fixture(scope="module")
def engines() -> MeanCumulative:
    """Valve-seat replacements of 41 engines; two engines had two on one day."""
    rows = [
        (int(r["engine"]), int(r["days"]), r["replacement"] == "1")
        for r in reference_rows("valve_seat.csv")
    ]
    last: dict[int, int] = {}
    for engine, days, _ in rows:
        last[engine] = max(days, last.get(engine, 0))
    replaced = Counter((engine, days) for engine, days, replacement in rows if replacement)
    return over(
        [(engine, 0, days) for engine, days in last.items()],
        [(engine, days, times) for (engine, days), times in replaced.items()],
    )


def test_all_replacements_count_and_the_error_is_above_that_of_independent_ones(engines):
    assert engines.units == 41
    assert sum(point.events for point in engines.points) == 48
    poisson = math.sqrt(sum(p.events / p.at_risk**2 for p in engines.points if p.tick <= 653))
    assert at(engines, 653).std_error > 1.1 * poisson


def test_limits_are_drawn_on_the_log_scale(engines):
    point = at(engines, 377)
    assert point.low * point.high == pytest.approx(point.mean**2, rel=1e-12)
    assert math.log(point.high / point.mean) == pytest.approx(1.959964 * 0.131842 / 0.658537, 1e-5)


@pytest.fixture(scope="module")
def trial() -> list[tuple[int, bool, int, int, int]]:
    """Patient, treated, start, stop and infections of each spell of the trial."""
    return [
        (int(r["id"]), r["treat"] != "placebo", int(r["tstart"]), int(r["tstop"]), int(r["status"]))
        for r in reference_rows("cgd_recurrent.csv")
    ]


def test_infections_of_one_patient_belong_together(trial):
    """The error over patients is well above that of 76 independent infections (0.2605)."""
    found = clustered_ratio(
        AthleteCells(
            [1] * len(trial),
            [r[0] for r in trial],
            [r[4] if r[1] else 0 for r in trial],
            [0 if r[1] else r[4] for r in trial],
            [r[3] - r[2] if r[1] else 0 for r in trial],
            [0 if r[1] else r[3] - r[2] for r in trial],
        )
    )
    naive = math.sqrt(1 / 20 + 1 / 56)
    assert found.athletes == 128
    assert 1.1 * naive < found.std_error < 1.4 * naive
    assert found.low < 0.198398
    assert found.high > 0.581610


def test_infections_by_day_differ_between_the_arms(trial):
    """A year on, the placebo patients had about one infection each, the treated a third of it."""
    curves = [
        over(
            [(r[0], r[2], r[3]) for r in trial if r[1] is arm],
            [(r[0], r[3], r[4]) for r in trial if r[1] is arm],
        )
        for arm in (True, False)
    ]
    treated, placebo = (at(curve, 365) for curve in curves)
    assert (curves[0].units, curves[1].units) == (63, 65)
    assert treated.high < placebo.low


def test_two_injuries_in_one_game_both_count():
    found = over([(1, 0, 2), (2, 0, 2), (3, 0, 2), (4, 0, 2)], [(1, 2, 2), (2, 2, 1)])
    assert at(found, 1) == MeanPoint(1, 4, 0, 0.0, None, None, None)
    assert (at(found, 2).events, at(found, 2).mean) == (3, 0.75)
    residuals = [2 - 0.75, 1 - 0.75, -0.75, -0.75]
    assert at(found, 2).std_error == pytest.approx(math.sqrt(sum(r * r for r in residuals)) / 4)


def test_who_enters_late_is_expected_nothing_before():
    """Two units at first, four from game 2: 1/2 + 1/4, and the late ones owe only the 1/4."""
    spells = [(1, 0, 2), (2, 0, 2), (3, 1, 2), (4, 1, 2)]
    found = over(spells, [(1, 1, 1), (3, 2, 1)])
    assert at(found, 2).mean == pytest.approx(0.75)
    one = 0.5 * (1 - 0.5) - 0.25 * 0.25
    other = -0.5 * 0.5 - 0.25 * 0.25
    late, late_without = 0.25 * (1 - 0.25), -0.25 * 0.25
    variance = one**2 + other**2 + late**2 + late_without**2
    assert at(found, 2).std_error == pytest.approx(math.sqrt(variance))


def test_like_sites_of_one_athlete_may_share_a_spell():
    """Two shins at risk are two at risk and one athlete, written once or twice."""
    events = Events([1, 2], [2, 3], [1, 1])
    twice = AtRisk([1, 1, 2, 2, 3, 3], [0] * 6, [3, 3, 3, 3, 2, 2])
    once = AtRisk([1, 2, 3], [0] * 3, [3, 3, 2], sites=[2, 2, 2])
    assert mean_cumulative(twice, events) == mean_cumulative(once, events)
    assert mean_cumulative(once, events).points[0].at_risk == 6


def test_a_tick_with_nobody_at_risk_has_no_row():
    found = over([(1, 0, 1), (2, 0, 1), (1, 3, 4), (3, 3, 4)], [(1, 1, 1), (3, 4, 1)])
    assert [p.tick for p in found.points] == [1, 4]


def test_without_a_difference_between_units_there_is_no_error():
    alone = over([(7, 0, 3)], [(7, 2, 1)])
    assert at(alone, 2) == MeanPoint(2, 1, 1, 1.0, None, None, None)
    alike = over([(1, 0, 3), (2, 0, 3), (3, 0, 3)], [(1, 2, 1), (2, 2, 1), (3, 2, 1)])
    assert (at(alike, 3).mean, at(alike, 3).std_error) == (1.0, None)


def test_the_curve_starts_where_enough_are_at_risk():
    spells = [(1, 0, 3), (2, 1, 3), (3, 1, 3)]
    found = over(spells, [(1, 1, 1), (2, 2, 1)], min_at_risk=2)
    assert found.start == 2
    assert at(found, 1) == MeanPoint(1, 1, 1, None, None, None, None)
    assert at(found, 3).mean == pytest.approx(1 / 3)
    assert over(spells, [], start=3).start == 3
    none = over(spells, [(1, 1, 1)], min_at_risk=9)
    assert (none.start, none.why) == (None, "never 9 at risk at once")
    assert at(none, 1).mean is None
    assert over([], []).why == "nobody was at risk"


@st.composite
def histories(draw: st.DrawFn) -> tuple[list[Spell], list[Event]]:
    """Units that come, go and come back, and events while they are there."""
    spells: list[Spell] = []
    events: list[Event] = []
    for unit in range(draw(st.integers(1, 6))):
        tick = draw(st.integers(0, 3))
        for _ in range(draw(st.integers(1, 2))):
            stop = tick + draw(st.integers(1, 4))
            spells.append((unit, tick, stop))
            events += [
                (unit, when, times)
                for when in range(tick + 1, stop + 1)
                if (times := draw(st.integers(0, 2)))
            ]
            tick = stop + draw(st.integers(0, 2))
    return spells, events


@law
@given(histories())
def test_mean_and_error_are_those_of_the_plain_double_sum(history):
    spells, events = history
    happened = {(unit, tick): times for unit, tick, times in events}
    present = {(unit, k) for unit, begin, end in spells for k in range(begin + 1, end + 1)}
    units, ticks = {u for u, _ in present}, sorted({k for _, k in present})
    mean, beyond = 0.0, dict.fromkeys(units, 0.0)
    found = over(spells, events)
    assert [p.tick for p in found.points] == ticks
    for point in found.points:
        there = [u for u in units if (u, point.tick) in present]
        step = sum(happened.get((u, point.tick), 0) for u in there) / len(there)
        mean += step
        for u in there:
            beyond[u] += (happened.get((u, point.tick), 0) - step) / len(there)
        variance = sum(value**2 for value in beyond.values())
        assert point.mean == pytest.approx(mean)
        assert (point.std_error or 0.0) == pytest.approx(math.sqrt(variance), abs=1e-9)


@law
@given(histories(), st.randoms(use_true_random=False))
def test_neither_order_nor_names_nor_cutting_a_spell_matters(history, chance):
    spells, events = history
    cut = [(u * 7 + 3, k - 1, k) for u, begin, end in spells for k in range(begin + 1, end + 1)]
    named = [(u * 7 + 3, tick, times) for u, tick, times in events]
    chance.shuffle(cut)
    chance.shuffle(named)
    one, other = over(spells, events), over(cut, named)
    for first, second in zip(one.points, other.points, strict=True):
        counts = [(p.tick, p.at_risk, p.events) for p in (first, second)]
        assert counts[0] == counts[1]
        assert first.mean == pytest.approx(second.mean)
        assert first.std_error == (
            None if second.std_error is None else pytest.approx(second.std_error)
        )
