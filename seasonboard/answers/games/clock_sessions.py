"""Which sessions tick a clock, as parameters of a question."""

from seasonboard.answers.games.parts import Clock
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope, Settings


def ticking_params(scope: Scope, clock: Clock) -> dict[str, object]:
    """Return the scope's parameters with the sessions that tick `clock`.

    Raises:
        ScopeError: The clock counts games and the scope asks for practices only.
    """
    settings = scope.settings()
    if clock is not Clock.SESSIONS:
        if scope.setting is Settings.PRACTICES:
            raise ScopeError(
                f"No practice ticks the clock “{clock.value}”.",
                "Ask with --clock sessions, or with --setting both.",
            )
        settings = ["game"]
    return {**scope.params(), "settings": settings, "by_team": clock is Clock.SEASON_GAMES}


def without(params: dict[str, object], name: str) -> dict[str, object]:
    """Return the parameters less one that another question does not take."""
    return {key: value for key, value in params.items() if key != name}
