"""Seasons at the edge of what can be answered, by name."""

from collections.abc import Callable, Mapping

from tests.queries import build
from tests.queries.build import Season, day, drawn, injury


def _mixed() -> Season:
    return drawn("""
            A    B    C    E    F    H
        G1  .    .    .    .    g    g
        G2  g    .!   .    .    g    g
        P3  g    .    .    -    g    g?
        G4  g!   .    .*   o    g    g
        G5  .    .    .    .    g    g
    """)


def _nothing() -> Season:
    return Season()


def _no_injuries() -> Season:
    return drawn("""
            A    B    C
        G1  .    g    .
        G2  .    g    g
    """)


def _no_guards() -> Season:
    return drawn("""
            A    B    C
        G1  .    .!   .
        G2  .    .    .
    """)


def _none_bare() -> Season:
    return drawn("""
            A    B    C
        G1  g    g!   g
        G2  g    g    g
    """)


def _all_hurt_at_once() -> Season:
    return drawn("""
            A    B    C    E    F    H    I    J    K    L
        G1  .!   .!   .!   .!   .!   g!   g!   g!   g!   g!
        G2  o    o    o    o    o    o    o    o    o    o
    """)


def _guarded_never_hurt() -> Season:
    return drawn("""
            A    B    C    E    F    H    I    J    K    L
        G1  .!   .!   .    .    .    g    g    g    g    g
        G2  .    .    .!   .    .    g    g    g    g    g
    """)


def _no_session() -> Season:
    return drawn(
        """
            A    B
        G1  .    g
        G2  .    g
        """,
        injuries=[injury("home", "A", day(1)), injury("summer", "B", day(-20))],
    )


def _twice_in_a_session() -> Season:
    return drawn("""
            A    B
        G1  .!*  g
        G2  .    g
    """)


def _two_teams() -> Season:
    plain = _mixed()
    plain.teams.append(build.team("U", sport="hockey", sex="mixed"))
    plain.session("G4")["team"] = plain.session("G5")["team"] = "U"
    plain.roster += [build.member("A", team="U"), build.member("C", team="U")]
    return plain


def _worn_while_out() -> Season:
    return drawn("""
            A    B
        G1  og   .
        G2  -g   .
    """)


def _nobody_took_part() -> Season:
    return drawn("""
            A    B
        G1  o    -
    """)


def _no_sessions() -> Season:
    return Season(roster=[build.member("A")])


EDGES: Mapping[str, Callable[[], Season]] = {
    "some of everything": _mixed,
    "nothing at all": _nothing,
    "a roster and no session": _no_sessions,
    "nobody took part": _nobody_took_part,
    "no injuries": _no_injuries,
    "no guards": _no_guards,
    "nothing bare": _none_bare,
    "all hurt in the first game": _all_hurt_at_once,
    "no guarded injury": _guarded_never_hurt,
    "injuries without a session": _no_session,
    "two injuries in one session": _twice_in_a_session,
    "an athlete of two teams": _two_teams,
    "guards worn while out": _worn_while_out,
}
