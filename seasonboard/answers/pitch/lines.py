"""Lines of the Pitch answer, each a label and what it says: for page and text alike."""

from collections.abc import Iterable

from seasonboard.answers import words
from seasonboard.answers.pitch.parts import Basis, PitchAnswer, TeamAhead
from seasonboard.answers.pitch.words import INTERVAL_WORDS, count, range_80, range_95
from seasonboard.stats.prints_ahead import DAY_HOURS, Percentiles

Line = tuple[str, str]


def effect_interval(answer: PitchAnswer) -> str:
    """Return the interval that is planned with: `95 % confidence interval by athlete: 0.3 to 1`."""
    effect, level = answer.effect, words.level_words(answer.summary.scope)
    interval = words.interval(effect.low, effect.high)
    return f"{level} {INTERVAL_WORDS[effect.limits]}: {interval}"


def effect_lines(answer: PitchAnswer) -> list[Line]:
    """Return the ratio, the share of exposures guarded, and how likely a season shows it."""
    effect, ahead = answer.effect, answer.ahead
    ratio = f"not shown yet: {effect.why}"
    if effect.ratio is not None:
        ratio = (
            f"{words.ratio(effect.ratio)} times as often hurt in the same sessions "
            f"({effect_interval(answer)}); {effect.injuries_guarded} guarded and "
            f"{effect.injuries_unguarded} bare injuries"
        )
    lines = [("ratio", ratio), ("guarded", guarded_words(answer))]
    if ahead is not None and (visible := ahead.visible) is not None:
        text = (
            f"{words.percent(visible.chance)} of seasons there would show a difference: fewer "
            f"injuries with guards {words.percent(visible.fewer)}, more "
            f"{words.percent(visible.more)}"
        )
        lines.append(("visible", text))
    return lines


def guarded_words(answer: PitchAnswer) -> str:
    """Return how much would be guarded, and what that is made of."""
    return (
        f"{words.percent(answer.guarded_share)} of exposures: athletes with a guard × the season "
        "left once it is fitted × sessions worn"
    )


def print_lines(answer: PitchAnswer) -> list[Line]:
    """Return what makes the prints, how long a guard would take, and what guards would cost."""
    made_by = "nothing limits the prints of a week"
    if answer.plan.week_capacity is not None:
        made_by = f"{answer.plan.made_by}: {capacity_words(answer)}"
    return [("made by", made_by), ("takes", _takes(answer)), ("cost", _cost(answer))]


def capacity_words(answer: PitchAnswer) -> str:
    """Return how many prints a week can be made, and how many would be enough."""
    plan = answer.plan
    return (
        f"{words.duration(plan.week_capacity)} a week; "
        f"{words.plural(plan.needed_per_week, 'print')} a week would hold the busiest week of "
        "19 in 20 seasons"
    )


def _takes(answer: PitchAnswer) -> str:
    plan = answer.plan
    wait, days = plan.ahead.wait_hours, plan.ahead.turnaround_days
    texts = [] if days is None else [f"from requested to fitted {_percentiles(days)}"]
    if wait is not None:
        texts.append(f"of it a first guard waits for its print {_percentiles(wait, DAY_HOURS)}")
    return "; ".join(texts) or f"not known: {plan.turnaround_why or 'no own record'}"


def _percentiles(time: Percentiles, by: float = 1.0) -> str:
    return (
        f"a median of {time.median / by:.0f} days, 80 % within {time.p80 / by:.0f}, "
        f"95 % within {time.p95 / by:.0f}"
    )


def _cost(answer: PitchAnswer) -> str:
    cost = answer.cost
    if cost.price is None or cost.total is None:
        return f"not known: {cost.why}"
    return f"{total_words(answer)}; a game kept costs {kept_words(answer)}"


def total_words(answer: PitchAnswer) -> str:
    """Return what all guards would cost; there is a price."""
    cost = answer.cost
    assert cost.price is not None  # noqa: S101 - told only where there is one
    assert cost.total is not None  # noqa: S101 - the same
    return (
        f"at {cost.price:g} a guard, remakes free: {count(cost.total.median)} in all (95 %: "
        f"{range_95(cost.total)})"
    )


def kept_words(answer: PitchAnswer) -> str:
    """Return what a game kept would cost."""
    spread = answer.cost.per_game_kept
    if spread is None:
        return f"what is not known, since {answer.cost.why}"
    return f"{count(spread.median)} (80 %: {range_80(spread)}; 95 %: {range_95(spread)})"


def rests_on(team: TeamAhead) -> str:
    """Return in a few words what a team's injuries rest on."""
    bases = dict.fromkeys(setting.baseline.basis.value for setting in team.settings)
    return "; ".join(bases) or Basis.NOT_KNOWN.value


def published_sources(teams: Iterable[TeamAhead]) -> list[str]:
    """Return the published rates that teams rest on, each with source, definition and years."""
    sources = (
        f"{team.name}, {setting.baseline.source}"
        for team in teams
        for setting in team.settings
        if setting.baseline.basis is Basis.PUBLISHED
    )
    return list(dict.fromkeys(sources))
