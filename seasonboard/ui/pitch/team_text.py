"""The teams of a prospect in words: as lines of a list, and what is wrong with their table."""

from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.prospect import ProspectTeam
from seasonboard.ui.layout.format import clean, fit

MOST_TOLD = 8
"""Problems told at once."""
HEAD = f"{'team':24} {'athletes':>8} {'games':>6} {'practices':>10}   position groups"


def team_name(team: ProspectTeam) -> str:
    """Return a team in words: `women's soccer`."""
    whose = {"women": "women's", "men": "men's"}.get(team.sex, team.sex)
    return f"{whose} {team.sport}"


def team_line(team: ProspectTeam) -> str:
    """Return a team as a line of the list, under `HEAD`."""
    name = fit(clean(team_name(team)), 24)
    return f"{name} {team.athletes:>8} {team.games:>6} {team.practices:>10}"


def team_groups(team: ProspectTeam) -> str:
    """Return the position groups of a team; nothing where they are not told apart."""
    return ", ".join(f"{name} {athletes}" for name, athletes in team.groups)


def problems_told(error: SeasonboardError) -> list[str]:
    """Return what is wrong with a table, as many lines as there is room for."""
    found = error.problems if isinstance(error, IntakeError) else ()
    told = [error.what, *(problem.sentence() for problem in found[:MOST_TOLD])]
    if len(found) > MOST_TOLD:
        told.append(f"… and {len(found) - MOST_TOLD} more.")
    return [*told, error.hint] if not found else told
