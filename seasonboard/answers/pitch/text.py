"""The Pitch answer as text to read in a terminal, and as CSV for a spreadsheet."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.pitch.parts import Basis, Input, PitchAnswer, TeamAhead
from seasonboard.answers.pitch.words import (
    LIMITS_WORDS,
    count,
    input_value,
    range_80,
    range_95,
    value_words,
)
from seasonboard.stats.season_ahead import Spread

_NAME = 28
"""Letters of a team's name in a table: a sport is typed freely."""

Figures = tuple[tuple[str, Spread | None], ...]


def pitch_text(answer: PitchAnswer) -> str:
    """Return the Pitch answer as lines of text."""
    body = [
        *_spreads("in one season", season_figures(answer)),
        *_effect(answer),
        *_teams(answer),
        *_spreads("prints", print_figures(answer)),
        *_turnaround(answer),
        *_cost(answer),
        *_swings(answer),
        *_inputs(answer),
        *_sources(answer.teams),
        *_claims(answer),
    ]
    return page(answer.summary, body[:-1] if body and body[-1] == "" else body)


def season_figures(answer: PitchAnswer) -> Figures:
    """Return what is expected of injuries, games and days, by name; None where not known."""
    ahead = answer.ahead
    if ahead is None:
        return ()
    return (
        ("injuries without guards", ahead.injuries),
        ("injuries with guards", ahead.injuries_with),
        ("injuries averted", ahead.averted),
        ("games missed without guards", ahead.games_missed),
        ("games missed with guards", ahead.games_missed_with),
        ("games kept", ahead.games_kept),
        ("days lost in the season without", ahead.days_lost),
        ("days kept", ahead.days_kept),
    )


def print_figures(answer: PitchAnswer) -> Figures:
    """Return what is expected of prints, by name; None where not known."""
    plan = answer.plan
    return (
        ("first guards", plan.ahead.first),
        ("remakes within 30 days", plan.ahead.remakes),
        ("later prints", plan.ahead.later),
        ("all prints", plan.ahead.prints),
        ("prints in the busiest week", plan.ahead.busiest_week),
        ("printer hours", plan.hours),
        ("printer hours in that week", plan.busiest_hours),
    )


def _spreads(heading: str, figures: Figures) -> list[str]:
    rows = [
        (name, count(found.median), range_80(found), range_95(found), "")
        for name, found in figures
        if found is not None
    ]
    lines = table((heading, "middle", "80 % of seasons", "95 % of seasons", ""), rows)
    return [*lines, ""] if lines else []


def _effect(answer: PitchAnswer) -> list[str]:
    effect, ahead = answer.effect, answer.ahead
    guarded = (
        f"Guarded would be {words.percent(answer.guarded_share)} of exposures: athletes with a "
        "guard × the season left once it is fitted × sessions worn."
    )
    if effect.ratio is None:
        return [*prose(f"Effect: not shown yet ({effect.why}). {guarded}"), ""]
    text = (
        f"Effect: ratio {words.ratio(effect.ratio)} ({words.level_words(answer.summary.scope)}: "
        f"{words.ratio_interval(effect.low, effect.high)}; "
        f"{LIMITS_WORDS[effect.limits]}), from {effect.injuries_guarded} guarded and "
        f"{effect.injuries_unguarded} bare injuries. {guarded}"
    )
    if ahead is not None and ahead.visible is not None:
        seen = ahead.visible
        text += (
            f" One season there would show a difference in {words.percent(seen.chance)} of cases: "
            f"fewer injuries with guards in {words.percent(seen.fewer)}, more in "
            f"{words.percent(seen.more)}."
        )
    return [*prose(text), ""]


def _teams(answer: PitchAnswer) -> list[str]:
    rows = [
        (
            _short(team.name),
            words.whole(team.athletes),
            words.whole(team.team.games),
            words.whole(team.team.practices),
            _mean(team.injuries),
            _mean(team.games_missed),
            rests_on(team),
        )
        for team in answer.teams
    ]
    heads = ("team", "athletes", "games", "practices", "injuries", "missed", "rests on")
    lines = table(heads, rows)
    return [*lines, ""] if lines else []


def rests_on(team: TeamAhead) -> str:
    """Return in a few words what a team's injuries rest on."""
    found = dict.fromkeys(each.baseline.basis.value for each in team.settings)
    return "; ".join(found) or Basis.NOT_KNOWN.value


def _mean(value: float | None) -> str:
    return "–" if value is None else words.number(value, digits=1)


def _short(name: str) -> str:
    return name if len(name) <= _NAME else f"{name[: _NAME - 1]}…"


def _turnaround(answer: PitchAnswer) -> list[str]:
    plan = answer.plan
    text = f"Prints come from {plan.made_by}."
    if plan.ahead.wait_hours is None:
        text = "Nothing limits the prints of a week here."
    if plan.week_capacity is not None:
        text += (
            f" That is {words.number(plan.week_capacity, digits=1).removesuffix('.0')} a week; "
            f"{words.plural(plan.needed_per_week, 'print')} a week would hold the busiest week of "
            "19 in 20 seasons."
        )
    wait, days = plan.ahead.wait_hours, plan.ahead.turnaround_days
    if wait is not None:
        text += (
            f" A first guard waits {wait.median / 24:.0f} days for its print in the middle, 80 % "
            f"at most {wait.p80 / 24:.0f}, 95 % at most {wait.p95 / 24:.0f}."
        )
    if days is not None:
        text += (
            f" From requested to fitted: half within {days.median:.0f} days, 80 % within "
            f"{days.p80:.0f}, 95 % within {days.p95:.0f}."
        )
    return [*prose(text), ""]


def _cost(answer: PitchAnswer) -> list[str]:
    cost = answer.cost
    if cost.price is None or cost.total is None:
        return []
    text = (
        f"At {cost.price:g} a guard, remakes free: {count(cost.total.median)} in all (95 %: "
        f"{range_95(cost.total)}). Cost of a game kept: "
    )
    each = cost.per_game_kept
    if each is None:
        return [*prose(f"{text}not known, since {cost.why}."), ""]
    text += f"{count(each.median)} (80 %: {range_80(each)}; 95 %: {range_95(each)})."
    return [*prose(text), ""]


def _swings(answer: PitchAnswer) -> list[str]:
    lines = prose(answer.swing_sentence)
    if not answer.swings:
        return [*lines, ""]
    units = {each.name: each.unit for each in answer.inputs}
    rows = [
        (
            swing.input,
            value_words(swing.low, units.get(swing.input, "")),
            value_words(swing.high, units.get(swing.input, "")),
            _mean(swing.kept_at_low),
            _mean(swing.kept_at_high),
            "",
        )
        for swing in answer.swings
    ]
    heads = ("one at a time", "low end", "high end", "games kept at low", "at high", "")
    return [*lines, *table(heads, rows), ""]


def _inputs(answer: PitchAnswer) -> list[str]:
    lines = ["What the plan rests on:"]
    for each in answer.inputs:
        found = f"{input_value(each)}{_ends(each)}{_unit(each)}"
        lines += prose(f"  {each.name}: {found}; {each.why or each.source}", hang="    ")
    return [*lines, ""]


def _unit(found: Input) -> str:
    return "" if found.value is None or found.unit in found.name else f" {found.unit}"


def _ends(found: Input) -> str:
    if found.low is None or found.high is None or found.low == found.high:
        return ""
    low, high = value_words(found.low, found.unit), value_words(found.high, found.unit)
    return f" ({low} to {high})"


def _sources(teams: Sequence[TeamAhead]) -> list[str]:
    found = dict.fromkeys(
        f"  {team.name}, {each.baseline.source}"
        for team in teams
        for each in team.settings
        if each.baseline.basis is Basis.PUBLISHED
    )
    if not found:
        return []
    return [
        "Published rates used:",
        *(line for text in found for line in prose(text, hang="    ")),
        "",
    ]


def _claims(answer: PitchAnswer) -> list[str]:
    may = [claim for claim in answer.claims if claim.is_supported]
    may_not = [claim for claim in answer.claims if not claim.is_supported]
    lines: list[str] = []
    if may:
        lines.append("May be said:")
        for claim in may:
            lines += prose(f"  + {claim.sentence}", hang="    ")
    if may_not:
        lines += ["", "May not be said yet:"]
        for claim in may_not:
            lines += prose(f"  – {claim.sentence} Missing: {claim.missing}.", hang="    ")
    return [*lines, ""]


def pitch_csv(answer: PitchAnswer) -> str:
    """Return every figure with its ranges as CSV, unrounded; empty where nothing is known."""
    names = Spread.__slots__
    rows: list[tuple[object, ...]] = [
        (part, name, *(None if found is None else getattr(found, each) for each in names))
        for part, figures in (
            ("season", season_figures(answer)),
            ("prints", print_figures(answer)),
            *(
                (f"week {week.week}", (("prints", week.prints),))
                for week in answer.plan.ahead.by_week
            ),
            (
                "cost",
                (("in all", answer.cost.total), ("a game kept", answer.cost.per_game_kept)),
            ),
        )
        for name, found in figures
    ]
    rows += [
        (f"team: {team.name}", name, None, mean, None, None, None, None)
        for team in answer.teams
        for name, mean in (
            ("injuries without guards", team.injuries),
            ("games missed without guards", team.games_missed),
        )
    ]
    return as_csv(("part", "figure", *names), rows)
