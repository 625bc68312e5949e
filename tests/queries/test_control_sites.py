"""Control sites and recorded attendance: counted by eye, and once more by loops over rows."""

from collections import Counter
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.scope import View
from tests.queries.asking import put
from tests.queries.build import day, drawn, guard, injury
from tests.queries.seasons import scopes, seasons
from tests.queries.slow import of, sides
from tests.queries.slow_comparisons import SlowComparisons
from tests.queries.test_five_comparisons import MODEST, loaded, tries

COLUMNS = (
    *("nearness", "area", "injuries", "sites_guarded", "sites_unguarded"),
    *("exposures_guarded", "exposures_unguarded"),
)
NEIGHBOURS = {
    "lower leg": {"knee", "ankle"},
    "chest": {"neck", "shoulder", "thoracic spine", "abdomen"},
    "shoulder": {"neck", "upper arm", "chest", "thoracic spine"},
}
"""Of the areas that guards in drawn seasons cover, by an atlas of the body."""


def control_sites(store, **parts):
    """Return how often each row came, athlete and session as keys."""
    return Counter(put(store, "compare/control_sites", **parts).select(COLUMNS).rows())


def far(number, athlete, area, side="left", **cells):
    """Return an injury far from the chest, in session G… of that day, ten days lost."""
    here = {"area": area, "side": side, "session": f"G{number}", "returned_on": day(number + 10)}
    return injury(f"{athlete}-{number}-{area}-{side}", athlete, day(number), **here | cells)


GRID = """
        A    B    C    E
    G1  g    .    .    g
    G2  g    .    o    .
    G3  .    .    .    .
"""


def test_injuries_elsewhere_are_counted_with_what_their_athletes_wore(load):
    """A's knee is hurt guarded, B's ankles bare; C is out in G2, nobody is guarded in G3; the same
    knee of A again in the season, and one without a day lost, count for nothing."""
    season = drawn(GRID, injuries=[
        far(1, "A", "knee"), far(2, "A", "knee"), far(2, "B", "ankle", "both"),
        far(2, "C", "knee"), far(3, "E", "knee"), far(1, "E", "knee", returned_on=day(2)),
        far(1, "B", "shoulder"), far(1, "C", "region unspecified"),
    ])  # fmt: skip
    store = load(season)
    assert control_sites(store) == {
        ("far", "knee", 1, 1, 0, 2, 2): 1,
        ("far", "ankle", 2, 0, 1, 1, 2): 1,
        ("neighbouring", "shoulder", 1, 0, 1, 2, 2): 1,
    }
    assert control_sites(store, outcome="any")["far", "knee", 1, 1, 0, 2, 2] == 2


def test_an_earlier_injury_and_another_position_group_count_for_nothing(load):
    season = drawn(GRID, injuries=[
        far(1, "A", "shoulder"), far(1, "B", "elbow"), far(2, "E", "elbow"),
        injury("before", "E", day(1) - timedelta(days=0), area="elbow", side="left"),
    ], roster={"B": {"position_group": "wing"}})  # fmt: skip
    assert control_sites(load(season)) == {("neighbouring", "shoulder", 1, 1, 0, 2, 1): 1}


def test_a_guard_that_is_not_in_scope_takes_no_injury_from_the_site_it_covers(load):
    """E wears a sleeve and a vest, C neither. Who wears one guard wears another too: without the
    injuries at sleeves the wearers of vests would look less hurt elsewhere, though nothing works.
    """
    season = drawn(GRID, injuries=[far(1, "E", "elbow"), far(1, "C", "elbow")])
    season.kinds.append({"kind": "sleeve", "area": "elbow"})
    season.guards.append(guard("sleeve-E", "E", kind="sleeve", side="both"))
    season.wear.append({"session": "G1", "guard": "sleeve-E"})
    expected = {("far", "elbow", 1, 1, 0, 2, 2): 1, ("far", "elbow", 1, 0, 1, 2, 2): 1}
    assert control_sites(load(season), kinds=["chest"]) == expected


def test_areas_that_the_kinds_cover_are_no_controls_though_others_were_asked_for(load):
    """Vests cover the chest, and here the shoulder: with the chest alone asked for it stays so."""
    season = drawn(GRID.replace("g", "x"), injuries=[far(1, "A", "shoulder"), far(1, "A", "neck")])
    season.kinds.append({"kind": "vest", "area": "shoulder"})
    found = control_sites(load(season), kinds=["vest"], areas=["chest"])
    assert found == {("neighbouring", "neck", 1, 1, 0, 2, 2): 1}


class SlowControls(SlowComparisons):
    """One season looked at through one scope."""

    def control_sites(self) -> Counter[tuple[object, ...]]:
        """Return how often each row comes."""
        covered = {area for kind in self.scope["kinds"] for area in self.covers[kind]}
        beside = {area for one in covered for area in NEIGHBOURS[one]}
        strata: dict[tuple[object, ...], list[int]] = {}
        own: dict[tuple[object, ...], list[int]] = {}
        hurt: Counter[tuple[str, str, str]] = Counter()
        for e in self.counted:
            area, session = e["site"][0], e["session"]["session"]
            for cells, key in (
                (strata, (session, e["position_group"], area)),
                (own, (session, e["athlete"], area)),
            ):
                cells.setdefault(key, [0, 0])[0 if e["guarded"] else 1] += 1
        for s in self.sessions():
            for athlete in {e["athlete"] for e in self.exposures if e["session"] is s}:
                for site in {(i["area"], x) for i in self.known for x in sides(*of(i))}:
                    if site[0] not in covered and self.is_first(s, athlete, site):
                        hurt[s["session"], athlete, site[0]] += 1
        found: Counter[tuple[object, ...]] = Counter()
        for (session, athlete, area), number in hurt.items():
            group = self.group_of(athlete, self.season.session(session))
            for studied in {area for area, _ in self.sites}:
                t1, t0 = own.get((session, athlete, studied), (0, 0))
                whole = strata.get((session, group, studied), (0, 0))
                if t1 + t0 and all(whole):
                    nearness = "neighbouring" if area in beside else "far"
                    found[nearness, area, number, t1, t0, *whole] += 1
        return found

    def is_first(self, session, athlete, site):
        """Say whether the site was hurt in the session, for the first time that season."""
        start, begins = self.season.instant(session["session"]), min(
            self.season.played_on(s["session"])
            for s in self.season.sessions
            if (s["team"], s["season"]) == (session["team"], session["season"])
        )  # fmt: skip
        own = self.hurt_at(athlete, site)
        before = [
            i
            for i in own
            if i["occurred_on"] >= begins
            and (
                self.season.instant(i["session"]) < start
                if i["session"]
                else i["occurred_on"] < self.season.played_on(session["session"])
            )
        ]
        here = [i for i in own if i["session"] == session["session"] and self.counts(i)]
        return bool(here) and not before


@settings(MODEST, max_examples=tries(4))
@given(
    season=seasons(),
    parts=scopes(),
    setting=st.sampled_from([None, ["game"], ["practice"]]),
    view=st.sampled_from(list(View)),
)
def test_control_sites_rest_on_what_loops_count(season, parts, setting, view):
    asked = {**parts, "purpose": view.value, "settings": setting}
    with loaded(season) as store:
        assert control_sites(store, **asked) == SlowControls(season, asked).control_sites()
