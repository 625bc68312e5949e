"""The questions, asked of random seasons, against the same counts made by plain loops."""

import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from seasonboard.scope import View
from tests.deep import tries
from tests.queries import asking
from tests.queries.build import Season
from tests.queries.seasons import scopes, seasons
from tests.queries.slow import Slow
from tests.queries.slow_left_out import SlowLeftOut
from tests.queries.slow_ticks import SlowTicks, flow
from tests.queries.slow_wear import partly_recorded

MODEST = settings(
    max_examples=tries(5),
    derandomize=True,
    database=None,
    phases=[Phase.explicit, Phase.generate],  # shrinking would take minutes
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
CLOCKS = {"games": ["game"], "sessions": None, "season-games": ["game"]}
FATES = (
    "injuries", "changed", "site_injury", "other_injury", "left_roster", "set_aside", "no_more",
)  # fmt: skip
PARTLY = partly_recorded(seasons())
COUNTED = ("at_risk", "entered", *FATES)


def loaded(season: Season):
    with tempfile.TemporaryDirectory() as folder:
        return season.load(Path(folder))


def strata_of(slow: Slow) -> Counter[tuple[Any, ...]]:
    """Return how often each cell of counts occurs by comparison; the injury-free are summed."""
    found: Counter[tuple[Any, ...]] = Counter()
    rest: dict[str, list[int]] = {}
    for (comparison, _), (a, b, t1, t0) in slow.strata().items():
        if a + b:
            found[comparison, a, b, t1, t0, 1] += 1
        else:
            sums = rest.setdefault(comparison, [0, 0, 0])
            rest[comparison] = [x + y for x, y in zip(sums, (t1, t0, 1), strict=True)]
    for comparison, (t1, t0, strata) in rest.items():
        found[comparison, 0, 0, t1, t0, strata] += 1
    return found


@pytest.mark.long
@MODEST
@given(season=PARTLY, parts=scopes(), setting=st.sampled_from([None, ["game"], ["practice"]]))
def test_comparisons_and_rows_are_what_loops_count(season, parts, setting):
    """Strata, what is left out and why, and the fate of every injury; in all three views."""
    with loaded(season) as store:
        for view in View:
            asked = {**parts, "purpose": view.value, "settings": setting}
            slow = SlowLeftOut(season, asked)
            strata = asking.strata(store, **asked)
            cells = Counter((comparison, *counts) for (comparison, _), counts in strata.items())
            assert cells == strata_of(slow)
            left_out = asking.left_out(store, **asked)
            assert left_out == slow.left_out()
            crude = asking.total(strata, "crude")
            whole = sum(n for (what, _), n in left_out.items() if what == "site-exposures")
            assert crude[2] + crude[3] + whole == len(slow.exposures), "nothing is lost"
            told = sum(
                number
                for (what, why), number in left_out.items()
                if what == "injuries" and why != "no session recorded"
            )
            check_injury_rows(store, asked, slow, counted=crude[0] + crude[1], told=told)
        check_athlete_rows(store, asked, slow)


def check_injury_rows(store, asked, slow, *, counted, told):
    """Every injury to a studied site in a session of the scope is counted once or told once."""
    rows = store.read("rows/injuries", **asked).to_dicts()
    found = {(row["injury"], row["side"]): row["counted"].removeprefix("no: ") for row in rows}
    out = "the athlete is not recorded as taking part in that session"
    fates = slow.injury_fates()
    assert found == {k: "not recorded as taking part" if v == out else v for k, v in fates.items()}
    assert counted == sum(row["counted"] == "yes" for row in rows)
    assert counted + told == len(rows) == len(found)


def check_athlete_rows(store, asked, slow):
    rows = store.read("rows/athletes", **asked).to_dicts()
    counts: dict[tuple[str, ...], list[int]] = {}
    for e in slow.exposures:
        s = e["session"]
        cell = counts.setdefault((e["athlete"], s["team"], s["season"]), [0] * 5)
        if e["set_aside"]:
            cell[4] += 1
        else:
            cell[0 if e["guarded"] else 2] += 1
            cell[1 if e["guarded"] else 3] += e["injured"]
    assert counts == {
        (row["athlete"], row["team"], row["season"]): [
            row["exposures_guarded"], row["injuries_guarded"], row["exposures_unguarded"],
            row["injuries_unguarded"], row["set_aside"],
        ]
        for row in rows
    }  # fmt: skip


@pytest.mark.long
@MODEST
@given(season=PARTLY, parts=scopes(), clock=st.sampled_from(list(CLOCKS)))
def test_ticks_are_what_following_each_site_gives(season, parts, clock):
    """At risk, injured, entered, and every way of ending, per group, stratum and tick; who is
    alike at a tick; and how many ticks four in five have at most."""
    ticking, by_team = CLOCKS[clock], clock == "season-games"
    with loaded(season) as store:
        for view in View:
            asked = {**parts, "purpose": view.value, "settings": ticking}
            slow = SlowTicks(season, asked)
            every = asking.ticks(store, clock=clock, **asked)
            whole = [row for row in every if row["tick"] is None]
            followed = {row["guarded"]: (row["athletes"], row["sites"]) for row in whole}
            assert followed == slow.followed(by_team=by_team)
            rows = [row for row in every if row["tick"] is not None]
            found = {
                tuple(row[k] for k in ("guarded", "sport", "sex", "position_group", "tick")): {
                    name: row[name] for name in COUNTED if row[name]
                }
                for row in rows
            }
            assert found == {
                key: {name: n for name, n in cell.items() if n and name != "stays"}
                for key, cell in slow.ticks(by_team=by_team).items()
            }
            for guarded in (True, False):
                check_flow(rows, guarded=guarded)
            alike = asking.alike(store, clock=clock, **asked)
            assert alike == slow.alike(by_team=by_team)
            horizons = {row["horizon"] for row in whole}
            assert horizons <= {slow.horizon(by_team=by_team)}


def check_flow(rows, *, guarded):
    """at risk next = at risk − injuries − left + entered next, in each group."""
    endings = [name for name in FATES if name != "injuries"]
    summed = {
        tick: (at_risk, injuries, sum(left), entered)
        for tick, (at_risk, injuries, entered, *left) in asking.group(
            rows, " ".join(["at_risk", "injuries", "entered", *endings]), guarded=guarded
        ).items()
    }
    assert all(there == expected for there, expected in flow(summed))
