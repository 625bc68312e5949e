"""The Pitch answer described: every figure once, for text, JSON, CSV, pages and documents."""

from collections.abc import Iterator

from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, of, why
from seasonboard.answers.layout import listed, prose
from seasonboard.answers.pitch.figures import FIGURES, PRINTS, SEASON, SPREAD, spread_groups
from seasonboard.answers.pitch.lines import effect_lines, print_lines, published_sources
from seasonboard.answers.pitch.parts import Effect, PitchAnswer
from seasonboard.answers.pitch.tables import CLAIMS, FEW_ABSENCES, INPUTS, SWINGS, TEAMS
from seasonboard.answers.pitch.words import input_words
from seasonboard.answers.report import Report, table_text


def _why_effect(effect: Effect) -> str:
    counts = (effect.injuries_guarded, effect.injuries_unguarded)
    figures = (effect.ratio, effect.low, effect.high, effect.std_error, effect.ratio_needed)
    reason = effect.why or "too few exposures would be guarded for any ratio to do"
    return reason if None in (*counts, *figures) else ""


def _why_season(answer: PitchAnswer) -> str:
    if answer.ahead is None:
        return "how many injuries to expect is not known for any team"
    figures = [group.of(answer) for group in spread_groups("season")]
    reason = answer.effect.why or f"no effect is shown yet, or {FEW_ABSENCES}"
    return reason if None in (*figures, answer.ahead.visible) else ""


def _why_prints(answer: PitchAnswer) -> str:
    plan = answer.plan
    figures = (plan.week_capacity, plan.hours_per_print, plan.hours, plan.busiest_hours)
    times = (plan.ahead.wait_hours, plan.ahead.turnaround_days)
    reason = plan.turnaround_why or "no print hours are recorded"
    return reason if None in (*figures, *times) else ""


EFFECT = (
    Field("limits", "which confidence interval is planned with"),
    Field("injuries_guarded", "guarded injuries", Kind.COUNT),
    Field("injuries_unguarded", "bare injuries", Kind.COUNT),
    Field("ratio", "ratio guarded / bare in the same sessions", Kind.RATIO),
    *interval(Kind.RATIO),
    Field("std_error", "standard error of its logarithm"),
    Field("ratio_needed", "ratio that keeps one game missed in ten"),
    why(_why_effect),
)
ABSENCE = (
    Field("injuries", "own injuries that tell it", Kind.COUNT, get=of("absence.injuries")),
    Field("still_open", "of them still out", Kind.COUNT, get=of("absence.still_open")),
    Field("mean_days", "days out, mean", Kind.TENTHS, get=of("absence.mean")),
    why(lambda answer: "" if answer.absence else FEW_ABSENCES),
)
VISIBLE = (
    Field("chance", "share of seasons that would show a difference", Kind.SHARE),
    Field("fewer", "share that would show fewer injuries with guards", Kind.SHARE),
    Field("more", "share that would show more", Kind.SHARE),
)
PERCENTILES = (
    Field("median", "median"),
    Field("p80", "80 % are within"),
    Field("p95", "95 % are within"),
)
SEASON_AHEAD: tuple[Element, ...] = (
    *spread_groups("season"),
    Group("visible_difference", of("ahead.visible"), VISIBLE, "what one season would show"),
    why(_why_season),
)
PLAN: tuple[Element, ...] = (
    Field("made_by", "what makes the prints", get=of("plan.made_by")),
    Field("week_capacity", "prints that can be made in a week", get=of("plan.week_capacity")),
    Field("hours_per_print", "hours of one print", Kind.TENTHS, get=of("plan.hours_per_print")),
    Field("needed_per_week", "prints a week that are enough", get=of("plan.needed_per_week")),
    *spread_groups("prints"),
    Table(
        "by_week",
        of("plan.ahead.by_week"),
        (Field("week", "from 1", Kind.COUNT), Group("", of("prints"), SPREAD)),
        "prints asked for in a week",
    ),
    Group("wait_hours", of("plan.ahead.wait_hours"), PERCENTILES, "wait of a first guard, hours"),
    Group("turnaround_days", of("plan.ahead.turnaround_days"), PERCENTILES, "requested to fitted"),
    why(_why_prints),
)
COST: tuple[Element, ...] = (
    Field("price", "price of one guard", get=of("cost.price")),
    Group("guards", of("cost.guards"), SPREAD, "guards that are paid for"),
    *spread_groups("cost"),
    why(of("cost.why")),
)


def _swing_text(answer: PitchAnswer) -> list[str]:
    return [*prose(answer.swing_sentence), *table_text(SWINGS, answer)]


def _inputs(answer: PitchAnswer) -> Iterator[str]:
    return (f"{one.name}: {input_words(one)}; {one.why or one.source}" for one in answer.inputs)


def _claims(answer: PitchAnswer) -> Iterator[str]:
    return (f"+ {one.sentence}" for one in answer.claims if one.is_supported)


def _no_claims(answer: PitchAnswer) -> Iterator[str]:
    claims = (one for one in answer.claims if not one.is_supported)
    return (f"– {one.sentence} Missing: {one.missing}." for one in claims)


REPORT = Report(
    (
        Field("seasons", "seasons simulated", Kind.COUNT, get=of("options.seasons")),
        Field("seed", "seed of the simulation", get=of("options.seed")),
        Field("is_given", "whether the teams were given", Kind.FLAG),
        Field("athletes", "athletes of all teams", Kind.COUNT),
        Field("areas", "body areas whose sites are studied", get=of("sites")),
        Field("sites_per_athlete", "sites of an athlete", Kind.COUNT),
        TEAMS,
        INPUTS,
        Field("guarded_share", "share of exposures guarded", Kind.SHARE),
        Group("effect", of("effect"), EFFECT, "the effect that is planned with"),
        Group("absence", lambda answer: answer, ABSENCE, "days out after an own injury"),
        Group("season", lambda answer: answer, SEASON_AHEAD, "one season, simulated"),
        Group("prints", lambda answer: answer, PLAN, "prints of the season, and turnaround"),
        Group("cost", lambda answer: answer, COST, "what guards would cost"),
        SWINGS,
        Field("sensitivity_sentence", "what would change it most", get=of("swing_sentence")),
        Field("contact", "a sentence of mechanics, never of injuries"),
        CLAIMS,
    ),
    csv=FIGURES,
    text=(
        SEASON,
        listed("The effect:", lambda answer: map(": ".join, effect_lines(answer))),
        *(TEAMS, PRINTS),
        listed("Prints and cost:", lambda answer: map(": ".join, print_lines(answer))),
        _swing_text,
        listed("What the plan rests on:", _inputs),
        listed("Published rates used:", lambda answer: published_sources(answer.teams)),
        listed("May be said:", _claims),
        listed("May not be said yet:", _no_claims),
    ),
)
