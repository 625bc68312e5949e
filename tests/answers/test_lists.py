"""Lists to choose from and free keys, over small seasons that are seen at a glance."""

import pytest

from seasonboard.answers.lists import LISTS, Lists
from tests.queries.build import Season, day, department, guard, injury, member, session, team


@pytest.fixture(scope="module")
def lists(tmp_path_factory):
    season = Season(
        departments=[department("D", time_zone="America/Denver"), department("E")],
        teams=[team("T"), team("U", department="E")],
        roster=[
            member("01", name="Renée O’Dell"),
            member("02", name="Rene Odell", team="U"),
            member("01", name="Renée O’Dell", team="T", season="2025"),
        ],
        sessions=[
            session("T-7", day(3)),
            session("T-12", day(5)),
            session("U-3", day(3), team="U"),
        ],
        guards=[
            guard("G007", "01", kind="shin", side="both"),
            guard("G010", "01", kind="shin", side="right"),
            guard("old 99", "02", kind="chest"),
            guard("X1", "02", kind="chest"),
        ],
        wear=[{"session": "T-7", "guard": "G007"}, {"session": "T-7", "guard": "G010"}],
        attendance=[{"session": "T-7", "athlete": "01", "part": "full"}],
        injuries=[
            injury("01 2026-09-03 knee left", "01", day(3)),
            injury("done", "02", day(3), returned_on=day(5)),
        ],
    )
    with season.load(tmp_path_factory.mktemp("season")) as store:
        yield Lists(store)


def values(found):
    return [line.value for line in found.lines]


@pytest.mark.parametrize("name", LISTS)
def test_every_list_can_be_read_and_finds_each_line_by_its_key(lists, name):
    for line in lists.find(name).lines:
        assert lists.line_of(name, line.value) == line


def test_people_are_found_without_accents_and_by_key(lists):
    assert values(lists.find("athletes", "ren ode")) == ["02"]
    assert values(lists.find("athletes", "renee")) == ["01"]
    assert values(lists.find("athletes", "01")) == ["01"]
    assert lists.find("athletes", "nobody").matching == 0


def test_sessions_are_those_of_the_athletes_teams_the_nearest_first(lists):
    near = lists.find("sessions", given={"athlete": "01", "day": "2026-09-05"})
    assert values(near) == ["T-12", "T-7"]
    assert values(lists.find("sessions", given={"athlete": "02", "day": "half typ"})) == ["U-3"]


@pytest.mark.parametrize(
    ("table", "team", "key"),
    [
        ("guards", None, "G011"),  # two are numbered so; “old 99” holds a space
        ("sessions", "T", "T-13"),
        ("sessions", "U", "U-4"),
        ("injuries", None, ""),  # they make their own
        ("offers", None, ""),
        ("decisions", None, "D01"),  # there is none yet
    ],
)
def test_the_next_key_goes_on_in_the_stores_own_style(lists, table, team, key):
    assert lists.free_key(table, team) == key


def test_only_open_injuries_wait_for_a_return(lists):
    assert values(lists.find("open_injuries")) == ["01 2026-09-03 knee left"]


def test_a_time_is_read_in_the_zone_of_its_department(lists):
    assert lists.time_zone(team="T") == lists.time_zone(guard="G007") == "America/Denver"
    assert lists.time_zone(athlete="02") == "UTC"
    assert lists.time_zone() is None  # two departments, two zones


@pytest.mark.parametrize(("side", "worn"), [("left", 1), ("right", 2), ("both", 2)])
def test_a_guard_of_both_sides_covers_each(lists, side, worn):
    assert len(lists.worn("T-7", "01", "lower leg", side)) == worn


def test_a_guard_of_another_site_or_session_is_not_named(lists):
    assert lists.worn("T-12", "01", "lower leg", "left") == ()
    assert lists.worn("T-7", "01", "knee", "left") == ()
