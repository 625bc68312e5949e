"""The Pitch answer described: every figure once, for text, JSON, CSV, pages and documents."""

from collections.abc import Iterator

from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, of, why
from seasonboard.answers.layout import listed, prose
from seasonboard.answers.pitch.figures import FIGURES, PRINTS, SEASON, SPREAD, spread_groups
from seasonboard.answers.pitch.inputs import PRINT_HOURS
from seasonboard.answers.pitch.lines import effect_lines, plan_lines, published_sources
from seasonboard.answers.pitch.options import PrintWay
from seasonboard.answers.pitch.parts import Effect, PitchAnswer
from seasonboard.answers.pitch.tables import (
    CLAIMS,
    FEW_ABSENCES,
    INPUTS,
    PLANS,
    SWINGS,
    TEAMS,
)
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
    reason = answer.effect.why or f"no effect is shown yet, {FEW_ABSENCES}, or no plays of games"
    return reason if None in (*figures, answer.ahead.visible) else ""


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
SEASON_AHEAD: tuple[Element, ...] = (
    *spread_groups("season"),
    Group("visible_difference", of("ahead.visible"), VISIBLE, "what one season would show"),
    why(_why_season),
)
PRINTS_AHEAD: tuple[Element, ...] = (
    *spread_groups("prints"),
    Field("busiest_p95", "what 19 in 20 busiest weeks stay within", get=of("prints.busiest_p95")),
    Field("hours_per_print", "of one print", Kind.TENTHS, get=lambda a: a.input(PRINT_HOURS).value),
    Table(
        "by_week",
        of("prints.by_week"),
        (Field("week", "from 1", Kind.COUNT), Group("", of("prints"), SPREAD)),
        "prints asked for in a week",
    ),
    why(lambda answer: "" if answer.hours else "no print hours are recorded"),
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
        Group("prints", lambda answer: answer, PRINTS_AHEAD, "prints of the season"),
        PLANS,
        Field("recommended", "the plan that is clearly better", get=of("choice.way.value")),
        Field("recommended_why", "why, or why neither is", get=of("choice.why")),
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
        *(listed(f"{way.words.capitalize()}:", plan_lines(way)) for way in PrintWay),
        lambda answer: prose(answer.choice.why),
        _swing_text,
        listed("What the plan rests on:", _inputs),
        listed("Published rates used:", lambda answer: published_sources(answer.teams)),
        listed("May be said:", _claims),
        listed("May not be said yet:", _no_claims),
    ),
)
