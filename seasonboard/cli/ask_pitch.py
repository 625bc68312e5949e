"""`seasonboard ask pitch`."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

import click

from seasonboard.answers.pitch.cards import PITCH_CARDS
from seasonboard.answers.pitch.json import pitch_json
from seasonboard.answers.pitch.parts import (
    SEASONS,
    SEED,
    EffectLimits,
    PitchAnswer,
    PitchOptions,
)
from seasonboard.answers.pitch.text import pitch_csv, pitch_text
from seasonboard.answers.store_answers import StoreAnswers
from seasonboard.cli.answer_command import Told, answers
from seasonboard.prospect import Prospect
from seasonboard.scope import Scope


class PitchTools(Protocol):
    """What this command needs of the rest of the program."""

    @property
    def read_prospect(self) -> Callable[[Path], Prospect]:
        """Return what reads a prospect's teams from a table."""
        ...


@click.command("pitch")
@answers(PITCH_CARDS.values())
@click.option(
    "--teams",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The prospect's teams as a table: sport, sex, position_group (may be left out), athletes, "
    "games, practices. Without it: a department like those served.",
)
@click.option("--take-up", type=float, help="Share who accept a guard and wear it, as 0.6.")
@click.option("--price", type=float, help="Price of one guard, in any currency.")
@click.option("--prints-per-week", type=float, help="Weekly allotment of prints.")
@click.option("--printers", type=int, help="Printers on site, in the place of an allotment.")
@click.option("--printer-hours", type=float, help="Hours a week each may print; 168 without it.")
@click.option("--hours-per-print", type=float, help="Hours of one print; else as recorded.")
@click.option("--weeks", type=float, help="Weeks of the season; else as recorded.")
@click.option(
    "--limits",
    type=click.Choice([limits.value for limits in EffectLimits]),
    default=EffectLimits.BY_ATHLETE.value,
    show_default=True,
    help="Which limits of the same-session ratio to plan with.",
)
@click.option("--seasons", type=int, default=SEASONS, show_default=True, help="To simulate.")
@click.option("--seed", type=int, default=SEED, show_default=True, help="Same seed, same numbers.")
def ask_pitch(
    board: StoreAnswers, scope: Scope, *, teams: Path | None, limits: str, **given: float | None
) -> Told[PitchAnswer]:
    """What can we promise the next department? One season ahead, with ranges.

    JSON: teams [{sport, sex, athletes, games, practices, injuries, games_missed, settings
    [{setting, sessions, taking_part, exposures, injuries, baseline {basis, rate per 1000, low,
    high, injuries, exposures, share, source}}]}]; inputs [{name, value, low, high, unit, source}];
    guarded_share; effect {limits, ratio, low, high, ratio_needed}; absence {injuries, still_open,
    mean_days}; season {injuries, injuries_with, averted, games_missed, games_missed_with,
    games_kept, days_lost, days_kept: each {median, mean, low_80, high_80, low_95, high_95};
    visible_difference {chance, fewer, more}}; prints {made_by, week_capacity, needed_per_week,
    first, remakes, later, all, busiest_week, hours, by_week, wait_hours, turnaround_days {median,
    p80, p95}}; cost {price, guards, total, per_game_kept}; sensitivity [{input, low, high,
    kept_at_low, kept_at_high}]; contact; claims [{topic, sentence, is_supported, missing}]; answer,
    caveats, left_out, scope.
    """
    tools: PitchTools = click.get_current_context().obj["tools"]
    prospect = None if teams is None else tools.read_prospect(teams)
    options = PitchOptions(prospect=prospect, limits=EffectLimits(limits), **given)  # type: ignore[arg-type]
    return Told(board.pitch(scope, options), pitch_json, pitch_text, pitch_csv)
