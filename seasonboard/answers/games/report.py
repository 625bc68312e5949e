"""The Games answer described: curves, what is read from them, and how follow-up ends."""

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, of, why
from seasonboard.answers.games import parts
from seasonboard.answers.games.curve_tables import (
    CURVE,
    CURVES,
    EVER_NEVER,
    MIXED_CURVES,
    PER_GAME,
    TICKS_WITH_INJURY,
    tick_pairs,
    uninjured,
)
from seasonboard.answers.games.follow_up_tables import INCIDENCE, LAST_ENDS, REPEATS, last
from seasonboard.answers.games.parts import GamesAnswer
from seasonboard.answers.games.words import (
    AS_PLAYED,
    WITHIN,
    log_rank_words,
    one_mix_words,
    quantile_words,
)
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.stats.survival import RestrictedMean

_QUANTILE: tuple[Element, ...] = (
    Field("share", "share injured", Kind.SHARE),
    Field("value", "first tick by which that share was injured", Kind.COUNT),
    *interval(Kind.COUNT),
    why(of("why")),
)
_MEAN: tuple[Element, ...] = (
    Field("horizon", "last tick counted", Kind.COUNT, optional=True),
    Field("start", "first tick counted", Kind.COUNT, optional=True),
)
_MEAN_ERROR = Field("std_error", "its standard error", Kind.HUNDREDTHS)
_RESTRICTED_MEAN: tuple[Element, ...] = (
    *_MEAN,
    Field("mean", "mean ticks before an injury", Kind.HUNDREDTHS, get=of("value")),
    _MEAN_ERROR,
    why(of("why")),
)
_DIFFERENCE: tuple[Element, ...] = (
    *_MEAN,
    Field("difference", "guarded mean less bare mean, in ticks", Kind.HUNDREDTHS, get=of("value")),
    *interval(Kind.HUNDREDTHS),
    _MEAN_ERROR,
    Field("method", "how the confidence interval was made"),
    why(of("why")),
)
_LOG_RANK: tuple[Element, ...] = (
    Field("observed", "guarded injuries", Kind.COUNT),
    Field("expected", "those expected without a difference", Kind.TENTHS),
    Field("variance", "their variance", Kind.HUNDREDTHS),
    Field("chi_square", "the statistic", Kind.HUNDREDTHS),
    Field("df", "its degrees of freedom", Kind.COUNT),
    Field("p", "its p", Kind.THOUSANDTHS),
    Field("strata", "strata compared within", Kind.COUNT),
    why(of("why")),
)
_GROUPS = Table(
    "groups",
    of("groups"),
    (
        Field("group", "guarded or unguarded", get=of("name")),
        Field("athletes", "athletes followed", Kind.COUNT),
        Field("sites", "sites followed", Kind.COUNT),
        Field("ticks", "ticks at risk, summed over sites", Kind.COUNT),
        Field("injuries", "injuries that ended it", Kind.COUNT),
        Field("left", "ends without such an injury", Kind.COUNT),
        Table(
            "left_because",
            of("endings"),
            (Field("why", "why it ended"), Field("count", "how often", Kind.COUNT)),
            "a reason for such an end",
        ),
        Field("start", "tick at which its curve starts", Kind.COUNT, get=of("curve.start")),
        CURVE,
        Group("median", of("median"), _QUANTILE, "median ticks before an injury"),
        Table("quartiles", of("quartiles"), _QUANTILE, "the quartiles of the same"),
        Group(
            "restricted_mean",
            of("restricted_mean"),
            _RESTRICTED_MEAN,
            "mean up to a horizon (restricted mean), as played",
        ),
        why(lambda group: group.curve.why if group.curve.start is None else ""),
    ),
    "one group",
)


_MIXED: tuple[Element, ...] = (
    Field("horizon", "last tick counted", Kind.COUNT, get=of("one_mix.horizon")),
    MIXED_CURVES,
    Group("guarded", of("one_mix.mean_guarded"), _RESTRICTED_MEAN, "mean of the guarded there"),
    Group("unguarded", of("one_mix.mean_unguarded"), _RESTRICTED_MEAN, "mean of the bare there"),
    why(of("one_mix.why")),
)


def _group_line(group: parts.Group) -> str:
    name = "guarded" if group.name == "guarded" else "bare"
    return (
        f"{name:<8} {words.plural(group.athletes, 'athlete')}, "
        f"{words.plural(group.injuries, 'injury', 'injuries')}, "
        f"{words.whole(group.left)} left uninjured; median {quantile_words(group.median)}; "
        f"{_mean_words(group.restricted_mean)}"
    )


def _mean_words(mean: RestrictedMean) -> str:
    if mean.value is None:
        return f"mean not known: {mean.why}"
    start = f" from {mean.start}" if mean.start and mean.start > 1 else ""
    error = words.number(mean.std_error)
    return f"mean{start} up to {mean.horizon}: {words.number(mean.value)} (SE {error})"


def _one_mix_lines(answer: GamesAnswer) -> list[str]:
    mix, within = one_mix_words(answer), log_rank_words(answer.log_rank_stratified)
    return [*prose(mix[0].upper() + mix[1:]), *prose(f"Log-rank within {WITHIN}: {within}")]


def _as_played(answer: GamesAnswer) -> str:
    return f"{AS_PLAYED.capitalize()}:" if tick_pairs(answer) else ""


def _lines(answer: GamesAnswer) -> list[str]:
    return [
        *map(_group_line, answer.groups),
        f"log-rank {log_rank_words(answer.log_rank)}",
    ]


def _naive_words(answer: GamesAnswer) -> str:
    if answer.ever_never is None:
        return ""
    curves = (answer.ever_never.ever, answer.ever_never.never)
    ends = (last([p for p in one.points if p.survival is not None]) for one in curves)
    ever, never = ("–" if end is None else uninjured(end) for end in ends)
    return (
        f"Misleading, for contrast: ever guarded {ever} uninjured, never guarded {never}. It "
        "counts the games before a guard came as guarded ones."
    )


REPORT = Report(
    (
        Field(
            "clock",
            "what ticks",
            get=of("options.clock"),
        ),
        Field(
            "min_at_risk",
            "at risk from which a curve starts",
            Kind.COUNT,
            get=of("options.min_at_risk"),
        ),
        _GROUPS,
        Group(
            *("restricted_mean_difference", of("one_mix.difference"), _DIFFERENCE),
            "difference of the means at one mix",
        ),
        Field("verdict", "what Compare allows one to say", get=of("judged.verdict")),
        Group("log_rank", of("log_rank"), _LOG_RANK, "log-rank test, as played"),
        Group(
            *("log_rank_stratified", of("log_rank_stratified"), _LOG_RANK),
            f"log-rank test within {WITHIN}",
        ),
        Group("one_mix", lambda answer: answer, _MIXED, "the curves at one mix of athletes"),
        REPEATS,
        INCIDENCE,
        EVER_NEVER,
        PER_GAME,
    ),
    csv=CURVES,
    text=(_one_mix_lines, _as_played, TICKS_WITH_INJURY, _lines, LAST_ENDS, _naive_words, PER_GAME),
)
