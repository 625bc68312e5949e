"""Lines of the Pitch answer, each a label and what it says: for page and text alike."""

from collections.abc import Callable, Iterable

from seasonboard.answers import words
from seasonboard.answers.pitch.options import Fees, PrintWay
from seasonboard.answers.pitch.parts import Basis, PitchAnswer, PlanAhead, TeamAhead
from seasonboard.answers.pitch.plans import queue_words
from seasonboard.answers.pitch.words import INTERVAL_WORDS, count, plan_words, range_80, sayings

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


def side_by_side(answer: PitchAnswer) -> list[tuple[str, str, str]]:
    """Return the two plans, a line for each thing they are compared in: its name, then of each."""
    printer, weekly = answer.plans
    return [(name, told(printer), told(weekly)) for name, told in _BESIDE]


def live_lines(answer: PitchAnswer) -> list[str]:
    """Return what comes of the inputs in three short lines: the season, then each plan."""
    figures = " · ".join(figure for figure, _ in sayings(answer))
    busiest = f"{count(answer.prints.busiest_week.median)} in the busiest week"
    plans = (
        f"{plan_words(plan)}: {_expected(plan)}; {queue_words(plan)}; guarded "
        f"{words.percent(plan.guarded_share)}; {total_words(plan)}"
        for plan in answer.plans
    )
    return [f"{figures}, {busiest}", *plans]


def plan_lines(way: PrintWay) -> Callable[[PitchAnswer], list[str]]:
    """Return what tells one plan in lines."""
    return lambda answer: [f"{name}: {told(answer.plan(way))}" for name, told in _BESIDE]


def _made_by(plan: PlanAhead) -> str:
    return f"{plan_words(plan)}{'' if plan.is_given else ' (proposed)'}"


def _busiest(plan: PlanAhead) -> str:
    if plan.busiest is None:
        return "not known"
    unit = "printer hours" if plan.way is PrintWay.PRINTER else "prints"
    return f"{count(plan.busiest.median)} {unit}"


def _holds(plan: PlanAhead) -> str:
    if plan.capacity is None:
        return "not known"
    return f"{words.duration(plan.capacity)} prints a week"


def _served(plan: PlanAhead) -> str:
    served = plan.served
    if served is None or served.median is None:
        return "not known: no department is on this plan"
    of = "one department" if served.departments == 1 else f"{served.departments} departments"
    most = "" if served.p80 is None else f", 80 % within {served.p80:.0f}"
    return f"median {served.median:.0f} days{most}; {of}"


def _ready(plan: PlanAhead) -> str:
    share = None if plan.served is None else plan.served.ready
    return "not known" if share is None else words.percent(share)


def _expected(plan: PlanAhead) -> str:
    days = None if plan.made is None else plan.made.turnaround_days
    if days is None:
        return "not known"
    return f"median {days.median:.0f} days, 80 % within {days.p80:.0f}"


def _at_start(plan: PlanAhead) -> str:
    share = None if plan.made is None else plan.made.ready_at_start
    return "not known" if share is None else words.percent(share)


def _kept(plan: PlanAhead) -> str:
    kept = None if plan.ahead is None else plan.ahead.games_kept
    return "not known" if kept is None else f"{count(kept.median)} (80 %: {range_80(kept)})"


def fee_words(fees: Fees) -> str:
    """Return the fees of a plan: `500 USD at the start, 90 a month, 12 a print`."""
    named = (
        (fees.setup, "at the start"), (fees.monthly, "a month"), (fees.per_print, "a print")
    )  # fmt: skip
    told = [f"{fee:g} {fees.currency} {when}" for fee, when in named if fee is not None]
    return ", ".join(told) or "none given"


def total_words(plan: PlanAhead) -> str:
    """Return all fees of the season of a plan."""
    if plan.total is None:
        return f"not known: {plan.why}"
    months = words.plural(plan.months, "month")
    return f"{count(plan.total.median)} {plan.fees.currency} in {months}"


_BESIDE: tuple[tuple[str, Callable[[PlanAhead], str]], ...] = (
    ("made by", _made_by),
    ("busiest week asks for", _busiest),
    ("can make", _holds),
    ("queue", queue_words),
    ("requested to fitted there", _served),
    ("ready for the next game", _ready),
    ("expected here", _expected),
    ("fitted before the season", _at_start),
    ("exposures guarded", lambda plan: words.percent(plan.guarded_share)),
    ("games kept", _kept),
    ("fees", lambda plan: fee_words(plan.fees)),
    ("total of the season", total_words),
)


def rests_on(team: TeamAhead) -> str:
    """Return in a few words what a team's injuries rest on: `its sport, served; own 12: 35 %`."""
    found = team.baseline
    if found.own is None or found.own_weight is None or found.basis is Basis.OWN:
        return found.basis.value
    return f"{found.basis.value}; own {found.own}: {words.percent(found.own_weight)}"


def published_sources(teams: Iterable[TeamAhead]) -> list[str]:
    """Return the published rates that teams rest on, each with source, definition and years."""
    return [
        f"{team.name}, {team.baseline.source}"
        for team in teams
        if team.baseline.basis is Basis.PUBLISHED
    ]
