"""The teams of a prospect in words: as lines of a list, and what is wrong with their table."""

from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.prospect import ProspectTeam
from seasonboard.ui.layout.format import clean, fit

MOST_LINES = 8
"""Problems told at once."""
HEAD = f"{'team':24} {'athletes':>8} {'games':>6} {'practices':>10}   position groups"


def team_line(team: ProspectTeam) -> str:
    """Return a team as a line of the list, under `HEAD`."""
    name = fit(clean(team.name), 24)
    return f"{name} {team.athletes:>8} {team.games:>6} {team.practices:>10}"


def team_groups(team: ProspectTeam) -> str:
    """Return the position groups of a team; nothing where they are not told apart."""
    return ", ".join(f"{name} {athletes}" for name, athletes in team.groups)


def problem_lines(error: SeasonboardError) -> list[str]:
    """Return what is wrong with a table, as many lines as there is room for."""
    problems = error.problems if isinstance(error, IntakeError) else ()
    lines = [error.what, *(problem.sentence() for problem in problems[:MOST_LINES])]
    if len(problems) > MOST_LINES:
        lines.append(f"… and {len(problems) - MOST_LINES} more.")
    return lines if problems else [*lines, error.hint]
