"""Which input would change the games kept most."""

from collections.abc import Sequence
from functools import partial

from seasonboard.answers.pitch.ahead import DAYS, Inputs, input_value
from seasonboard.answers.pitch.inputs import SEASON, TAKES, WORN_IN
from seasonboard.answers.pitch.parts import Effect, Swing, TeamAhead
from seasonboard.stats.absence_duration import AbsenceLaw, mean_days_out
from seasonboard.stats.season_ahead import expected_kept
from seasonboard.stats.special import two_sided


def swings_of(
    teams: Sequence[TeamAhead],
    *,
    inputs: Inputs,
    effect: Effect,
    absence: AbsenceLaw | None,
    guarded: float,
) -> tuple[Swing, ...]:
    """Return the games kept on average with each input alone at its low and at its high end.

    The widest first; without an effect or absences there are none.
    """
    counted = [team for team in teams if team.injuries]
    if effect.ratio is None or effect.low is None or effect.high is None or absence is None:
        return ()
    days = input_value(inputs, SEASON) * DAYS
    injuries = sum(team.injuries or 0.0 for team in counted)
    if not injuries or not guarded:
        return ()
    games = sum((team.injuries or 0.0) * team.team.games * team.out for team in counted) / injuries
    usual = mean_days_out(absence, days)
    reach = two_sided(0.95) * absence.std_error / absence.mean if absence.mean else 0.0

    games_kept = partial(expected_kept, injuries, games, days_out=usual, days_in_season=days)
    at, ends = effect.ratio, (effect.low, effect.high)
    swings = [Swing("effect", "", *ends, *(games_kept(guarded=guarded, ratio=end) for end in ends))]
    low, high = (
        sum(getattr(team.baseline, which) or 0.0 for team in counted) for which in ("low", "high")
    )
    factors = [("injuries to expect", low, high, low / injuries, high / injuries)]
    factors += [
        (name, bottom, top, bottom / middle, top / middle)
        for name in (TAKES, WORN_IN)
        for bottom, middle, top in [(inputs[name].low, inputs[name].value, inputs[name].high)]
        if bottom is not None and top is not None and middle
    ]
    shorter, longer = max(1 - reach, 0.0), 1 + reach
    factors.append(("days lost", usual * shorter, usual * longer, shorter, longer))
    units = {name: one.unit for name, one in inputs.items()}
    swings += [
        Swing(
            *(name, units.get(name, ""), bottom, top),
            *(games_kept(guarded=guarded * factor, ratio=at) for factor in (less, more)),
        )
        for name, bottom, top, less, more in factors
    ]
    return tuple(sorted(swings, key=lambda swing: -swing.width))
