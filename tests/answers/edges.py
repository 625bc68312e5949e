"""Seasons at the edge of what can be answered, by name."""

from collections.abc import Callable, Mapping
from functools import partial

from tests.queries import build
from tests.queries.build import Season, day, drawn, injury

MIXED = """
        A    B    C    E    F    H
    G1  .    .    .    .    g    g
    G2  g    .!   .    .    g    g
    P3  g    .    .    -    g    g?
    G4  g!   .    .*   o    g    g
    G5  .    .    .    .    g    g
"""
NO_INJURIES = """
        A    B    C
    G1  .    g    .
    G2  .    g    g
"""
NO_GUARDS = """
        A    B    C
    G1  .    .!   .
    G2  .    .    .
"""
NONE_BARE = """
        A    B    C
    G1  g    g!   g
    G2  g    g    g
"""
ALL_HURT_AT_ONCE = """
        A    B    C    E    F    H    I    J    K    L
    G1  .!   .!   .!   .!   .!   g!   g!   g!   g!   g!
    G2  o    o    o    o    o    o    o    o    o    o
"""
GUARDED_NEVER_HURT = """
        A    B    C    E    F    H    I    J    K    L
    G1  .!   .!   .    .    .    g    g    g    g    g
    G2  .    .    .!   .    .    g    g    g    g    g
"""
TWICE_IN_A_SESSION = """
        A    B
    G1  .!*  g
    G2  .    g
"""
WORN_WHILE_OUT = """
        A    B
    G1  og   .
    G2  -g   .
"""


def _no_session() -> Season:
    elsewhere = [injury("home", "A", day(1)), injury("summer", "B", day(-20))]
    return drawn("A B\nG1 . g\nG2 . g", injuries=elsewhere)


def _two_teams() -> Season:
    plain = drawn(MIXED)
    plain.teams.append(build.team("U", sport="hockey", sex="mixed"))
    plain.session("G4")["team"] = plain.session("G5")["team"] = "U"
    plain.roster += [build.member("A", team="U"), build.member("C", team="U")]
    return plain


EDGES: Mapping[str, Callable[[], Season]] = {
    "some of everything": partial(drawn, MIXED),
    "nothing at all": Season,
    "a roster and no session": lambda: Season(roster=[build.member("A")]),
    "sessions and no attendance": partial(drawn, "A B\nG1 - -\nG2 - -"),
    "nobody took part": partial(drawn, "A B\nG1 o -"),
    "no injuries": partial(drawn, NO_INJURIES),
    "no guards": partial(drawn, NO_GUARDS),
    "nothing bare": partial(drawn, NONE_BARE),
    "all hurt in the first game": partial(drawn, ALL_HURT_AT_ONCE),
    "no guarded injury": partial(drawn, GUARDED_NEVER_HURT),
    "injuries without a session": _no_session,
    "two injuries in one session": partial(drawn, TWICE_IN_A_SESSION),
    "an athlete of two teams": _two_teams,
    "guards worn while out": partial(drawn, WORN_WHILE_OUT),
}
