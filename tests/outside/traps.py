"""Asking of small tables what the known traps ask, and writing such tables down."""

from datetime import date

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.scope import read_scope
from tests.front_door import Interval
from tests.queries import build
from tests.queries.build import Season


def compare(this, **asked):
    return this.ask(COMPARE, read_scope({"kind": "chest"} | asked, this.scope_values))


def crude(this, **asked):
    return compare(this, **asked).comparison("crude").ratio


def follow(this, horizon=None, clock=Clock.GAMES):
    """Return the games answer as JSON, its groups by name; a curve starts with one at risk."""
    options = GamesOptions(clock, horizon=horizon, min_at_risk=1, naive=True)
    found = GAMES.report().as_object(
        this.ask(GAMES, read_scope({"kind": "chest"}, this.scope_values), options), "games"
    )
    return found, {g["group"]: g for g in found["groups"]}


def survival(group):
    return {p["tick"]: p["survival"] for p in group["curve"]}


def bare(*spells):
    """Return intervals of unguarded athletes from (name, games played, injured)."""
    return [Interval(name, 0, played, event, False) for name, played, event in spells]


def sessions(*rows):
    """Return a season of given sessions: (key, day)."""
    season = Season()
    season.sessions = [build.session(key, date.fromisoformat(on)) for key, on in rows]
    return season


def worn_to_games():
    """Return five games and five practices within one block; who is hurt is hurt in the last."""
    season = Season()
    arms = {"G": ((80, 12), (20, 4)), "P": ((80, 2), (320, 12))}
    for setting, ((guarded, hurt), (unguarded, hurt_bare)) in arms.items():
        keys = [f"{setting}{n}" for n in range(1, 6)]
        season.sessions += [build.session(k, build.day(n)) for n, k in enumerate(keys, 1)]
        for number in range(guarded + unguarded):
            who, worn = f"{setting}{number:03}", number < guarded
            season.roster.append(build.member(who))
            season.attendance += [{"session": k, "athlete": who, "part": "full"} for k in keys]
            if worn:
                season.guards.append(build.guard(f"guard-{who}", who))
                season.wear += [{"session": k, "guard": f"guard-{who}"} for k in keys]
            if (number < hurt) if worn else (number - guarded < hurt_bare):
                cells = {"session": keys[-1]}
                season.injuries.append(build.injury(f"I-{who}", who, build.day(5), **cells))
    return season
