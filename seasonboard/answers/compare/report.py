"""The Compare answer described: rates, comparisons and what they rest on, for every reader."""

import math
from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.compare.burden_report import (
    BURDEN,
    BURDEN_ELEMENTS,
    BY_GROUP,
    burden_lines,
    costed,
)
from seasonboard.answers.compare.control_sites import CONTROL_FIELDS, control_lines
from seasonboard.answers.compare.drawn_turns_report import drawn_turns_group, turns_lines
from seasonboard.answers.compare.fixed_questions import FIXED_FIELDS
from seasonboard.answers.compare.hours import RATIOS_STAY, Per, hours_word
from seasonboard.answers.compare.parts import CompareAnswer, GroupRates
from seasonboard.answers.compare.recording_checks import RECORDING_FIELDS
from seasonboard.answers.compare.undo_report import UNDO, undo_lines
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.stats.anytime_valid import AnytimeValid
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import RateRatio


def _level(answer: CompareAnswer) -> str:
    return words.level_words(answer.summary.scope)


def _between(rate: Estimate) -> str:
    if rate.low is None or rate.high is None:
        return rate.why or "no limits yet"
    return f"{words.number(rate.low)}–{words.number(rate.high)}"


def _ratio_interval(ratio: Estimate) -> str:
    return words.interval(ratio.low, ratio.high)


_RATE = Group(
    "",
    of("rate"),
    (
        Field("injuries", "injuries that count", Kind.COUNT, heading="injuries"),
        Field("exposures", "site-exposures", Kind.COUNT, heading="exposures"),
        Field("rate", "injuries per 1000 of them", Kind.HUNDREDTHS, of("value"), "per 1000"),
        *interval(Kind.HUNDREDTHS),
        for_people("interval", _level, _between, Kind.HUNDREDTHS),
    ),
)
_HOURLY = Group(
    "",
    of("hours.rate"),
    (
        Field("injuries_in_hours", "injuries in them", Kind.COUNT, of("injuries"), "injuries"),
        Field(
            "rate_per_1000_hours",
            "injuries per 1000 site-hours",
            Kind.HUNDREDTHS,
            get=of("value"),
            heading="per 1000 h",
        ),
        Field(
            "low_hours", "lower limit of its confidence interval", Kind.HUNDREDTHS, get=of("low")
        ),
        Field(
            "high_hours", "upper limit of its confidence interval", Kind.HUNDREDTHS, get=of("high")
        ),
        for_people("interval_hours", _level, _between, Kind.HUNDREDTHS),
    ),
)
RATES = Table(
    "rates",
    of("groups"),
    (
        for_people("group", "", of("name")),
        _RATE,
        Field(
            "hours",
            "site-hours of exposure",
            Kind.TENTHS,
            get=of("hours.counted"),
            heading="hours",
            show=lambda group: hours_word(group.hours.counted),
        ),
        _HOURLY,
        Field(
            "injuries_without_minutes",
            "injuries in sessions for which no minutes are recorded",
            Kind.COUNT,
            get=of("hours.untimed_injuries"),
        ),
        Field(
            "exposures_without_minutes",
            "site-exposures in sessions for which no minutes are recorded",
            Kind.COUNT,
            get=of("hours.untimed_exposures"),
        ),
        why(lambda group: "; ".join(filter(None, (group.rate.why, group.hours.why)))),
    ),
    "the guarded and the bare",
)


def _rate_ratio(counts: tuple[Element, ...] = (), tests: tuple[Element, ...] = ()) -> Group:
    """Describe a ratio of rates with its confidence interval, its p, and why it is not known."""
    fields = (
        Field("injuries_guarded", "guarded injuries", Kind.COUNT),
        Field("injuries_unguarded", "bare injuries", Kind.COUNT),
        *counts,
        Field("rate_ratio", "guarded rate over bare rate", Kind.RATIO, of("value"), "ratio"),
        *interval(Kind.RATIO),
        for_people("interval", _level, _ratio_interval, Kind.RATIO),
        Field("p", "two-sided p against a ratio of 1", Kind.THOUSANDTHS, heading="p"),
        for_people("hurt", "guarded v bare", _hurt),
        *tests,
        Field("why", "why something beside it is null", heading="", show=of("why")),
    )
    return Group("", of("ratio"), fields)


def _hurt(ratio: RateRatio) -> str:
    return f"{words.whole(ratio.injuries_guarded)} v {words.whole(ratio.injuries_unguarded)}"


def _informing(ratio: RateRatio) -> str:
    return f"{words.whole(ratio.informative_strata)} of {words.whole(ratio.strata)}"


def _chi_square(name: str, meaning: str) -> Group:
    fields = (
        Field("chi_square", "the statistic", Kind.HUNDREDTHS),
        Field("df", "its degrees of freedom", Kind.COUNT),
        Field("p", "its p", Kind.THOUSANDTHS),
        why(of("why")),
    )
    return Group(name, of(name), fields, meaning)


_EXACT = (
    *interval(Kind.RATIO),
    Field("p", "two-sided p against a ratio of 1", Kind.THOUSANDTHS),
    why(of("why")),
)
_CLUSTERED = (
    *interval(Kind.RATIO),
    for_people(
        *("interval", "by athlete"),
        lambda ratio: _ratio_interval(ratio) if ratio.athletes else "–",
        Kind.RATIO,
    ),
    Field("athletes", "athletes it rests on", Kind.COUNT, heading="athletes"),
    why(of("why")),
)
_COMPARISON: tuple[Element, ...] = (
    Field("comparison", "name of the comparison", get=of("name"), heading="comparison"),
    Field("removes", "what it takes away of what could tip the balance"),
    _rate_ratio(
        (
            Field("exposures_guarded", "guarded exposures", Kind.COUNT),
            Field("exposures_unguarded", "bare exposures", Kind.COUNT),
            Field("strata", "strata compared within", Kind.COUNT),
            Field(
                "informative_strata",
                "those with an injury and both groups",
                Kind.COUNT,
                heading="strata",
            ),
            for_people("informing", "informing", _informing),
            Field("informative_injuries", "their injuries", Kind.COUNT),
        ),
        (
            Field("method", "how ratio, confidence interval and p were made"),
            Group("exact", of("exact"), _EXACT, "exact confidence interval of the ratio"),
            _chi_square("score", "score test of a ratio of 1"),
            _chi_square("homogeneity", "test whether the strata have one ratio"),
        ),
    ),
    Field("informing_guarded", "guarded injuries that inform it", Kind.COUNT),
    Field("informing_unguarded", "bare injuries that inform it", Kind.COUNT),
    Group("clustered", of("clustered"), _CLUSTERED, "confidence interval from athletes' spread"),
)
_READING = (
    *("comparison", "rate_ratio", "interval", "clustered.interval", "hurt", "informing", "why"),
)
COMPARISONS = Table(
    "comparisons", of("comparisons"), _COMPARISON, "a comparison, the headline first", _READING
)
ALL_COMPARISONS = replace(COMPARISONS, rows=lambda answer: (*answer.comparisons, answer.decliners))
AREAS = Table(
    "areas",
    of("areas"),
    (
        Field("area", "body area", heading="same session, by area"),
        _rate_ratio(),
        Field(
            "p_adjusted",
            "p adjusted for the areas looked at (Holm)",
            Kind.THOUSANDTHS,
            heading="p adjusted",
        ),
    ),
    "the headline of one body area, where several are studied",
    ("area", "rate_ratio", "interval", "p", "p_adjusted", "hurt"),
)

_ANYTIME_VALID = (
    Field("rate_ratio", "guarded rate over bare rate", Kind.RATIO, get=of("value")),
    *interval(Kind.RATIO),
    Field(
        "anytime_evidence",
        "evidence against a ratio of 1, at any time; 20 or more is strong",
        Kind.RATIO,
    ),
    Field("injuries", "injuries it rests on", Kind.COUNT),
    Field(
        "looks_valid", "it holds however often one looks (anytime-valid)", Kind.FLAG, lambda _: True
    ),
    why(of("why")),
)


def _why_not_needed(answer: CompareAnswer) -> str:
    no_pace = "no game was played yet" if answer.games_needed is None else ""
    return answer.sample_size.why or no_pace


_NEEDED = (
    Field("ratio", "ratio that is to be told from 1", Kind.RATIO, get=of("sample_size.ratio")),
    Field("power", "chance to tell it", Kind.SHARE, get=of("sample_size.power")),
    Field(
        "guarded_exposures",
        "guarded site-exposures that this takes in all",
        Kind.COUNT,
        get=of("sample_size.exposures_guarded"),
    ),
    Field(
        "more_guarded_exposures",
        "those that are still missing",
        Kind.COUNT,
        get=of("sample_size.more_guarded"),
    ),
    Field("games", "games that takes, at the pace so far", Kind.COUNT, get=of("games_needed")),
    why(_why_not_needed),
)


def rate_lines(answer: CompareAnswer) -> list[str]:
    """Return exposures, injuries and rate of the guarded and of the bare, a line each."""
    if answer.per is Per.EXPOSURES:
        return [_exposure_line(group) for group in answer.groups]
    return [*map(_hour_line, answer.groups), *prose(RATIOS_STAY)]


def _exposure_line(group: GroupRates) -> str:
    rate = group.rate
    counts = f"{words.whole(rate.exposures):>9} site-exposures  {_injuries(rate.injuries):>12}"
    told = rate.why if rate.value is None else f"{words.number(rate.value)} per 1000 {_to(rate)}"
    return f"{group.name:<8} {counts}  {told}"


def _hour_line(group: GroupRates) -> str:
    rate = group.hours.rate
    if rate.value is None:
        return f"{group.name:<8} {group.hours.why}"
    counts = f"{hours_word(rate.hours):>9} site-hours      {_injuries(rate.injuries):>12}"
    return f"{group.name:<8} {counts}  {words.number(rate.value)} per 1000 hours {_to(rate)}"


def _to(rate: Estimate) -> str:
    return f"({words.number(rate.low)} to {words.number(rate.high)})"


def _injuries(count: int) -> str:
    return words.plural(count, "injury", "injuries")


def evidence_words(now: AnytimeValid) -> str:
    """Return anytime evidence in two figures: `1.3`, `0.084`, `1,200`."""
    value = now.anytime_evidence
    if value >= 10:
        return words.whole(int(round(value, 1 - math.floor(math.log10(value)))))
    return f"{value:.1f}" if value >= 1 else words.ratio(value)


def _anytime_line(answer: CompareAnswer) -> str:
    now = answer.watched.now
    return (
        f"Peek-proof: {words.ratio(now.value)} ({_ratio_interval(now)}), anytime evidence "
        f"{evidence_words(now)} from {_injuries(now.injuries)}"
        f"{f'; {now.why}' if now.why else ''}."
    )


def needed_words(answer: CompareAnswer) -> str:
    """Return what it takes to tell a ratio worth having from 1, in one sentence."""
    need = answer.sample_size
    if need.more_guarded is None:
        lack = f"not known yet, {need.why}"
    elif need.more_guarded == 0:
        lack = "as many guarded site-exposures as it takes are recorded"
    else:
        lack = missing_words(answer)
    return f"To tell {need.ratio:g} from 1 with {words.percent(need.power)} power: {lack}."


def missing_words(answer: CompareAnswer) -> str:
    """Return how many guarded site-exposures are missing, and how many games that takes."""
    games, pace = answer.games_needed, "no game sets a pace yet"
    if games is not None:
        pace = f"some {words.plural(words.to_figures(games, 2), 'game')} at this pace"
    more = words.whole(words.to_figures(answer.sample_size.more_guarded or 0))
    return f"about {more} more guarded site-exposures, {pace}"


def _beside_the_ratio(answer: CompareAnswer) -> list[str]:
    """Return control sites, the checks of recording, and how far a claim goes."""
    texts = (*control_lines(answer.controls), *answer.recording.lines, answer.claim.line)
    return [line for text in texts for line in prose(text)]


REPORT = Report(
    (
        Field("per", "what the rates are shown per: exposures or hours"),
        Group("guarded", lambda answer: answer.groups[0], RATES.elements, "guarded sites"),
        Group("unguarded", lambda answer: answer.groups[1], RATES.elements, "bare sites"),
        COMPARISONS,
        Group("decliners", of("decliners"), _COMPARISON, "bare: only who declined a guard"),
        AREAS,
        Group("peek_proof", of("watched.now"), _ANYTIME_VALID, "the headline, anytime-valid"),
        Table(
            "peek_proof_by_week",
            of("watched.looks"),
            (Field("week", "Monday of the week", Kind.DAY), Group("", of("state"), _ANYTIME_VALID)),
            "a week with an injury: the same after it",
        ),
        drawn_turns_group(_EXACT, _ANYTIME_VALID),
        why(lambda a: "" if a.drawn_turns else "no turns were drawn", "drawn_turns_why"),
        Group("needed", lambda answer: answer, _NEEDED, "how much more must be seen"),
        CONTROL_FIELDS,
        *BURDEN_ELEMENTS,
        RECORDING_FIELDS,
        UNDO,
        *FIXED_FIELDS,
        Field("verdict", "what the comparisons allow one to say"),
        Field("claim", "how far “less often” may be said", get=of("claim.word")),
        Field("claim_missing", "what is missing for a claim", get=of("claim.missing")),
    ),
    csv=Table("comparisons", costed, (Group("", of("comparison"), _COMPARISON), *BY_GROUP)),
    text=(
        *(ALL_COMPARISONS, AREAS, rate_lines, BURDEN, burden_lines, turns_lines),
        lambda answer: [*prose(_anytime_line(answer)), *prose(needed_words(answer))],
        _beside_the_ratio,
        undo_lines,
    ),
)
