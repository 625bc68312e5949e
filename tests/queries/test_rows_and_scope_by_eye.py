"""The rows behind Compare, and what a store knows, on seasons small enough to read."""

from datetime import date, datetime

from tests.queries import build
from tests.queries.asking import scope
from tests.queries.build import Season, day, injury
from tests.reused import ReusedStore

GRID = """
        A    B    C
    G1  g!   .?   o*
    G2  .    .    .
"""


def read(store, name, *columns, **parts):
    rows = store.read(f"rows/{name}", **scope(**parts))
    return rows.select(*columns).rows()


def test_every_injury_is_a_row_counted_or_not_and_why(season):
    store = season(GRID)
    columns = ("athlete", "session", "worn", "days_lost", "counted")
    assert read(store, "injuries", *columns, through=day(15)) == [
        ("A", "G1", "guarded", "9", "yes"),
        ("B", "G1", "bare", "0", "no: no day lost"),
        ("C", "G1", None, "14+", "no: not recorded as taking part"),
    ]


def test_days_lost_go_on_until_the_return(season):
    """Hurt on day 1, known through day 4: days 2, 3 and 4 are lost so far."""
    assert read(season(GRID), "injuries", "athlete", "days_lost", through=day(4)) == [
        ("A", "3+"),
        ("B", "0"),
        ("C", "3+"),
    ]


def test_an_athlete_s_row_sums_what_was_worn_and_what_was_set_aside(season):
    columns = (
        "athlete", "exposures_guarded", "injuries_guarded", "exposures_unguarded",
        "injuries_unguarded", "set_aside",
    )  # fmt: skip
    assert read(season(GRID), "athletes", *columns, outcome="any") == [
        ("A", 1, 1, 0, 0, 1),
        ("B", 0, 0, 1, 1, 1),
        ("C", 0, 0, 0, 0, 1),
    ]


def test_a_name_is_the_roster_s_and_else_the_key(load):
    plain = build.drawn("""
            A
        G1  .!
    """)
    plain.roster = [build.member("A", season="2019", name="[/b] Ana")]
    store = load(plain)
    assert read(store, "athletes", "name", "position_group") == [("A", None)]
    assert read(store, "injuries", "name") == [("A",)]
    plain.roster = [build.member("A", name="[/b] Ana")]
    assert read(load(plain), "athletes", "name") == [("[/b] Ana",)]


def test_an_empty_store_knows_no_day():
    with ReusedStore() as store:
        assert store.read("scope/days").rows() == [(None, None, 0, 0)]


def test_the_last_day_is_the_last_of_anything_recorded(season):
    """A session without attendance is only planned, and does not count."""
    grid = """
              A    B
        G1@1  g    .
        G9@9  -    -
    """
    assert season(grid).read("scope/days").rows() == [(day(1), day(1), 1, 1)]
    hurt = [injury("knee", "B", day(2), area="knee", side="left", returned_on=day(5))]
    (row,) = season(grid, injuries=hurt).read("scope/days").rows()
    assert row == (day(1), day(5), 1, 1)


def test_known_values_stand_by_part_newest_and_most_made_first(season):
    store = season(
        """
            A    B
        G1  gx   g
        """,
        roster={"A": {"position_group": "wing"}, "B": {"position_group": "back"}},
    )
    parts: dict[str, list[tuple[str, str | None]]] = {}
    for part, value, name, *_ in store.read("scope/known").iter_rows():
        parts.setdefault(part, []).append((value, name))
    assert parts["season"] == [("2026", None)]
    assert parts["department"] == [("D", "College D")]
    assert parts["team"] == [("T", "women's soccer at College D")]
    assert parts["sport"] == [("soccer", None)]
    assert parts["sex"] == [("women", None)]
    assert parts["position group"] == [("back", None), ("wing", None)]
    assert parts["kind"][:2] == [("chest", None), ("vest", None)], "two chest guards, one vest"
    assert ("vest", "chest") in parts["covers"]
    assert ("chest", None) in parts["area"]


def test_seasons_stand_newest_first(load):
    plain = Season(roster=[build.member("A")])
    for season, year in (("Spring", 2026), ("Autumn", 2025), ("Zero", 2024)):
        starts_at = datetime(year, 9, 1, 12)  # noqa: DTZ001 - written in the department's time
        cells = {"season": season, "starts_at": starts_at}
        plain.sessions.append(build.session(f"G-{year}", date(year, 9, 1), **cells))
    known = load(plain).read("scope/known")
    seasons = [value for part, value, *_ in known.iter_rows() if part == "season"]
    assert seasons == ["Spring", "Autumn", "Zero"]
