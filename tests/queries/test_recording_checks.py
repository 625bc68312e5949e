"""Is attendance recorded alike, and wear of the injured? Counted by eye, and by loops over rows."""

from collections import Counter
from datetime import UTC, datetime, time

import polars as pl
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.compare.recording_checks import attendance_check, wear_check
from seasonboard.scope import View
from tests.queries.asking import put
from tests.queries.build import day, drawn
from tests.queries.seasons import scopes
from tests.queries.slow import sides
from tests.queries.slow_comparisons import SlowComparisons, stage, staged, staged_seasons
from tests.queries.test_drawn_turns import turn, with_turns
from tests.queries.test_queries_against_loops import MODEST, loaded, tries

GRID = """
        A    B    C    E
    P1  g    .    .    -
    P2  .    .    -    .
    G3  .    -    -    .
    P4  .    -    .    -
    P5  -    -    -    -
"""
FITTED = [stage("g-A", day(2), word="fitted")]


def recorded(store, **parts):
    """Return rows by stratum: how many (owner, recorded)."""
    rows = put(store, "compare/attendance_recorded", **parts)
    found = {}
    for stratum, _, *cell in rows.iter_rows():
        found.setdefault(stratum, Counter())[tuple(cell)] += 1
    return found


def test_practices_count_once_owners_and_others_are_listed_and_someone_is_recorded(load):
    """A's guard is fitted on the morning of P2; G3 is a game, of P5 nothing is recorded."""
    store = load(staged(drawn(GRID), FITTED))
    p2 = Counter({(True, True): 1, (False, True): 2, (False, False): 1})
    p4 = Counter({(True, True): 1, (False, True): 1, (False, False): 2})
    expected = {1: p2, 2: p4}
    assert recorded(store) == expected
    assert recorded(store, settings=["game"]) == expected, "practices tell for games too"
    assert recorded(store, purpose="return") == {}
    check = attendance_check(put(store, "compare/attendance_recorded"), 0.95)
    assert (check.owners_recorded, check.owners_listed) == (2, 2)
    assert (check.others_recorded, check.others_listed) == (3, 6)
    assert check.ratio.value == (2 * 3 / 4) / (3 * 1 / 4)


def test_of_drawn_turns_those_whose_turn_had_come_stand_beside_those_waiting(load):
    """A's turn has come from day 4 on, B's from day 11, C's from day 18; E was not drawn. P1 is on
    the day of the draw; on day 18 nobody waits any more."""
    grid = """
                 A    B    C    E
        P1@1     .    .    .    .
        P2@4     .    -    .    -
        P3@18    .    .    .    .
    """
    turns = [turn(athlete, week) for week, athlete in enumerate("ABC", 1)]
    rows = put(load(with_turns(drawn(grid), turns)), "compare/drawn_attendance")
    assert rows.select("stratum", "is_owner", "is_recorded").rows() == [
        (1, True, True), (1, False, False), (1, False, True),
    ]  # fmt: skip


def wear(rows):
    """Return rows of injured owners: assumed, not known, fellows, of them not known."""
    names = ("is_assumed", "not_known", "fellows", "fellows_not_known")
    kinds = dict.fromkeys(names[:2], pl.Boolean) | dict.fromkeys(names[2:], pl.Int64)
    return pl.DataFrame(rows, schema=kinds, orient="row")


def test_wear_of_the_injured_beside_their_fellows(load):
    """A and B own guards; of G1 nothing is said of completeness, G2 is marked, G3 is not. In G3
    nobody wrote down whether A, who is hurt, or B had one on; C owns none."""
    season = drawn("""
            A    B    C
        G1  g    g!   .
        G2  g    .    .!
        G3  .!   .    .
    """)
    season.sessions[1]["wear_complete"] = "yes"
    rows = put(load(season), "compare/wear_of_injured").rows()
    assert rows == [("B", "G1", True, False, 1, 0), ("A", "G3", False, True, 1, 1)]


def test_of_ten_injured_owners_five_not_known_ring_and_one_does_not():
    """With ten fellows each, one of whom is not known, the chances are those of a binomial of ten
    trials at 0.1: P(X > 5) + P(X = 5)/2 = 0.000147 + 0.000744 = 0.000891."""
    few = wear([(False, n < 5, 10, 1) for n in range(10)])
    check = wear_check(few)
    assert round(check.p, 6) == 0.000891
    assert check.rings
    assert check.can_tell
    assert round(check.expected, 9) == 1
    quiet = wear_check(wear([(False, n < 1, 10, 1) for n in range(10)]))
    assert not quiet.rings
    assert quiet.can_tell


def test_fellows_are_filled_up_to_ten_of_whom_a_tenth_is_not_known():
    """Four fellows, all known, and six assumed: 0.6 of ten. None at all: a tenth. Where more than a
    tenth of fellows is not known (6 of 12), the assumed ones are so too."""
    assert round(wear_check(wear([(False, False, 4, 0)])).expected, 9) == 0.06
    assert round(wear_check(wear([(False, False, 0, 0)])).expected, 9) == 0.1
    half = wear_check(wear([(False, False, 12, 6), (False, False, 0, 0)]))
    assert round(half.expected, 9) == 1.0


def test_few_injured_owners_and_assumed_completeness_cannot_tell():
    few = wear_check(wear([(False, False, 10, 1)] * 9))
    assert (few.can_tell, few.why) == (False, "9 injured owners, under 10")
    assumed = wear_check(wear([(False, False, 10, 1)] * 10 + [(True, False, 10, 0)]))
    assert (assumed.can_tell, assumed.assumed, assumed.injured) == (False, 1, 10)
    assert "only assumed for 1 injured owner" in assumed.why
    assert wear_check(wear([])).why == "no owner of a guard was hurt where it covers"


class SlowRecording(SlowComparisons):
    """One season looked at through one scope."""

    def is_owner(self, athlete, s):
        """Say whether a guard that counts in this view was in the athlete's hands."""
        at = self.season.instant(s["session"])
        return any(
            g["athlete"] == athlete
            and g["kind"] in self.scope["kinds"]
            and self.scope["purpose"] in {"all", g["purpose"]}
            and any(
                area in self.covers[g["kind"]]
                and (side == "midline" or side in sides(area, g["side"]))
                for area, side in self.sites
            )
            and self.in_hand(g, at)
            for g in self.season.guards
        )

    def in_hand(self, g, at):
        own = [x for x in self.season.stages if x["guard"] == g["guard"]]
        fitted = [x["reached_at"] for x in own if x["stage"] == "fitted"]
        over = [x["reached_at"] for x in own if x["stage"] in {"retired", "cancelled"}]
        worn = [self.season.instant(w["session"]) for w in self.season.wear
                if w["guard"] == g["guard"] and w.get("worn") != "no"]  # fmt: skip
        begins = min(fitted or worn, default=None)
        return begins is not None and begins <= at and not any(end <= at for end in over)

    def recorded(self):
        """Return how often each stratum came: how many (owner, recorded)."""
        found = Counter()
        practices = [s for s in self.sessions(any_setting=True) if s["setting"] == "practice"]
        for s in practices:
            cells = {}
            for r in self.season.roster:
                if (r["team"], r["season"]) != (s["team"], s["season"]):
                    continue
                on = self.season.played_on(s["session"])
                is_gone = (r.get("left_on") or on) < on or (r.get("joined_on") or on) > on
                if is_gone or not self.in_groups(r.get("position_group")):
                    continue
                cell = cells.setdefault(r.get("position_group"), Counter())
                is_recorded = (s["session"], r["athlete"]) in self.parts
                cell[self.is_owner(r["athlete"], s), is_recorded] += 1
            for cell in cells.values():
                owners, known = {o for o, _ in cell}, {k for _, k in cell}
                if owners == {True, False} and True in known:
                    found[frozenset(cell.items())] += 1
        return found


FITTINGS = st.lists(st.tuples(st.integers(0, 9), st.integers(1, 14), st.sampled_from(
    ["fitted", "fitted", "retired"])), max_size=8)  # fmt: skip


@settings(MODEST, max_examples=tries(4))
@given(
    season=staged_seasons(),
    parts=scopes(),
    view=st.sampled_from([View.PREVENTIVE, View.RETURN, View.ALL]),
    fittings=FITTINGS,
)
def test_recorded_attendance_rests_on_what_loops_count(season, parts, view, fittings):
    known = {(x["guard"], x["stage"]) for x in season.stages}
    for number, on, word in fittings:
        key = season.guards[number]["guard"] if number < len(season.guards) else None
        if key and (key, word) not in known:
            known.add((key, word))
            at = datetime.combine(day(on), time(9, on), UTC)
            season.stages.append({"guard": key, "stage": word, "reached_at": at})
    asked = {**parts, "purpose": view.value}
    with loaded(season) as store:
        found = Counter(frozenset(cell.items()) for cell in recorded(store, **asked).values())
        assert found == SlowRecording(season, asked).recorded()
