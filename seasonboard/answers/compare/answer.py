"""Are guarded athletes hurt less? Rates, five comparisons, and what they allow one to say."""

import math
from collections.abc import Mapping
from dataclasses import replace

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import (
    CAUTION,
    Summary,
    left_out_rows,
    pooling_caveat,
    recording_caveat,
    studied_areas,
)
from seasonboard.answers.claims.rules import ClaimWord, DrawnClaim, Evidence, claim_of, opening
from seasonboard.answers.compare.burden import burdens
from seasonboard.answers.compare.comparisons import (
    ALIKE_ATHLETES,
    CRUDE,
    HEADLINE,
    ORDER,
    OTHER_SIDE,
    SAME_ATHLETE,
    SAME_SESSION,
    AreaRatio,
    Comparison,
    against_decliners,
    area_by_area,
    from_strata,
    other_side,
    same_athlete,
)
from seasonboard.answers.compare.control_sites import control_sites, loud_words
from seasonboard.answers.compare.drawn_turns import drawn_turns
from seasonboard.answers.compare.fixed_questions import fixed_question, fixed_sentences
from seasonboard.answers.compare.hours import Per, group_hours, lacking_hours
from seasonboard.answers.compare.parts import CompareAnswer, CompareOptions
from seasonboard.answers.compare.recording_checks import recording, wear_check
from seasonboard.answers.compare.undo import what_would_undo
from seasonboard.answers.compare.verdict import NOTHING, verdict
from seasonboard.answers.compare.weekly_looks import WHY, watch
from seasonboard.answers.questions import COMPARE
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.scope import Scope, ScopeValues, View
from seasonboard.stats.multiple_testing import chance_of_a_false_alarm
from seasonboard.stats.rates import injury_rate
from seasonboard.stats.ratios import RateRatio
from seasonboard.stats.sample_size import SampleSize, sample_size

_QUESTIONS = (
    *("compare/left_out", "compare/strata", "compare/athlete_strata", "compare/athlete_courses"),
    *("compare/other_side", "compare/bare_rates", "compare/decliners", "compare/pace"),
    *("compare/hours", "compare/control_sites", "compare/burden", "compare/recording"),
    *("draw/draws", "compare/questions"),
    *("compare/attendance_recorded", "compare/wear_of_injured"),
)
_OWNERS = "compare/owners"


def compare(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: CompareOptions | None = None
) -> CompareAnswer:
    """Compare how often guarded and unguarded sites were injured, within the scope."""
    wishes = options or CompareOptions()
    asked = (*_QUESTIONS, _OWNERS) if wishes.is_whole else _QUESTIONS
    frames = read_frames(reader, scope, *asked)
    comparisons = _comparisons(frames, scope.level)
    headline, crude = comparisons[HEADLINE].ratio, comparisons[CRUDE].ratio
    adjusted = {n: c.ratio for n, c in comparisons.items() if n not in {HEADLINE, CRUDE}}
    judged = verdict(headline, adjusted)
    sites = words.sites_word(studied_areas(scope, scope_values))
    areas = area_by_area(frames["compare/strata"], scope.level)
    enough = _enough(crude, scope.level)
    controls = control_sites(frames["compare/control_sites"], headline)
    watched = watch(frames["compare/strata"], scope.level)
    has_draws = frames["draw/draws"].height > 0 and scope.purpose is not View.RETURN
    drawn = drawn_turns(reader, scope) if has_draws else None
    wear = wear_check(frames["compare/wear_of_injured"])
    records = recording(frames["compare/attendance_recorded"], wear, headline)
    shown = DrawnClaim(drawn.comparison.ratio, drawn.attendance) if drawn else None
    evidence = (judged, headline, crude, watched.now, controls, records, shown)
    claim = claim_of(Evidence(scope, *evidence))
    parts = (_sentence(judged, claim.word, (headline, crude), sites), loud_words(controls))
    sentence = " ".join(filter(None, parts))
    cost = burdens(frames["compare/burden"], frames["compare/athlete_strata"], scope.level)
    caveats = _caveats(comparisons, scope, scope_values)
    caveats += recording_caveat(frames["compare/recording"])
    fixed = fixed_question(frames["compare/questions"], scope, scope_values)
    caveats += [*cost.caveats, *_side_by_side(areas), *fixed_sentences(fixed)]
    left_out = left_out_rows(frames["compare/left_out"])
    bare = crude.injuries_unguarded, crude.exposures_unguarded
    answer = CompareAnswer(
        summary=Summary(COMPARE.asks, sentence, tuple(caveats), left_out, scope),
        guarded=injury_rate(crude.injuries_guarded, crude.exposures_guarded, level=scope.level),
        unguarded=injury_rate(*bare, level=scope.level),
        comparisons=tuple(comparisons[name] for name in ORDER),
        decliners=against_decliners(frames["compare/decliners"], scope.level),
        areas=areas,
        watched=watched,
        sample_size=enough,
        games_needed=_games(enough, frames["compare/pace"]),
        verdict=judged,
        hours=group_hours(frames["compare/hours"], scope.level),
        controls=controls,
        burden=cost,
        fixed=fixed,
        drawn_turns=drawn,
        recording=records,
        claim=claim,
    )
    if wishes.is_whole:
        strata, owners = frames["compare/strata"], frames[_OWNERS]
        answer = replace(answer, undo=what_would_undo(strata, owners, headline, records))
    return shown_per(answer, wishes.per)


def shown_per(answer: CompareAnswer, per: Per) -> CompareAnswer:
    """Return an answer with its rates shown per hours, and what those leave out; or as it is."""
    if per is answer.per or per is Per.EXPOSURES:
        return answer
    left_out = (*answer.summary.left_out, *lacking_hours(answer.hours))
    return replace(answer, summary=replace(answer.summary, left_out=left_out), per=per)


def _comparisons(frames: Mapping[str, pl.DataFrame], level: float) -> dict[str, Comparison]:
    strata, athletes = frames["compare/strata"], frames["compare/athlete_strata"]
    courses, bare = frames["compare/athlete_courses"], frames["compare/bare_rates"]
    by_strata = (SAME_SESSION, ALIKE_ATHLETES, CRUDE)
    return {
        **{name: from_strata(name, strata, athletes, level) for name in by_strata},
        SAME_ATHLETE: same_athlete(courses, bare, level),
        OTHER_SIDE: other_side(frames["compare/other_side"], level),
    }


def _enough(crude: RateRatio, level: float) -> SampleSize:
    return sample_size(
        injuries_unguarded=crude.injuries_unguarded,
        exposures_guarded=crude.exposures_guarded,
        exposures_unguarded=crude.exposures_unguarded,
        level=level,
    )


def _games(enough: SampleSize, pace: pl.DataFrame) -> int | None:
    """Return the games it takes to gather what is missing, at the pace so far."""
    games = int(pace["games"][0])
    if enough.more_guarded is None or enough.exposures_guarded is None or not games:
        return None
    seen = enough.exposures_guarded - enough.more_guarded
    return math.ceil(enough.more_guarded * games / seen) if seen > 0 else None


def _sentence(judged: str, word: ClaimWord, ratios: tuple[RateRatio, RateRatio], sites: str) -> str:
    headline, crude = ratios
    if judged == NOTHING:
        return _nothing(crude, sites)
    hurt = f"{crude.injuries_guarded} guarded, {crude.injuries_unguarded} bare"
    start = opening(judged, word)
    start = start[0].upper() + start[1:]
    if headline.value is None:
        return (
            f"{start}: {hurt}, and no ratio can be told from the sessions in which "
            f"both guarded and bare {sites} were exposed ({headline.why})."
        )
    text = (
        f"{start}: {hurt}. In the same sessions guarded {sites} were hurt "
        f"{words.ratio(headline.value)} times as often as bare ones "
        f"({words.number(headline.level * 100, digits=0)} %: "
        f"{words.interval(headline.low, headline.high)})."
    )
    if crude.value is not None and (headline.value - 1) * (crude.value - 1) < 0:
        text += (
            f" The crude ratio, {words.ratio(crude.value)}, points the other way: it mixes "
            "different sessions and should not be quoted."
        )
    return text


def _nothing(crude: RateRatio, sites: str) -> str:
    if not crude.exposures_guarded and not crude.exposures_unguarded:
        return "Nothing to compare yet: nobody is recorded as taking part in a session."
    if not crude.exposures_guarded:
        return (
            f"Nothing to compare yet: no guard counted here was worn in a recorded session; "
            f"{words.plural(crude.injuries_unguarded, 'injury', 'injuries')} in "
            f"{words.whole(crude.exposures_unguarded)} exposures of bare {sites}."
        )
    return (
        f"Nothing to compare with: every recorded exposure of {sites} was guarded "
        f"({words.plural(crude.injuries_guarded, 'injury', 'injuries')} in "
        f"{words.whole(crude.exposures_guarded)})."
    )


def _caveats(
    comparisons: Mapping[str, Comparison], scope: Scope, scope_values: ScopeValues
) -> list[str]:
    shown, crude = comparisons[HEADLINE], comparisons[CRUDE].ratio
    caveats = [CAUTION]
    if scope.purpose is View.ALL:
        caveats.append("Puts preventive and return guards together: never the headline.")
    caveats += pooling_caveat(scope, scope_values)
    injuries = crude.injuries_guarded + crude.injuries_unguarded
    if shown.ratio.informative_injuries and injuries:
        caveats.append(
            f"The same-session ratio rests on {shown.ratio.informative_injuries} of {injuries} "
            f"injuries ({shown.informing_guarded} guarded, {shown.informing_unguarded} bare): "
            "those in sessions where both guarded and bare sites of one position group were "
            "exposed."
        )
    caveats.append(WHY)
    for why, count in comparisons[SAME_ATHLETE].set_aside:
        caveats.append(f"Same athlete sets {words.plural(count, 'site')} aside: {why}.")
    return caveats


def _side_by_side(areas: tuple[AreaRatio, ...]) -> list[str]:
    tested = sum(area.p_adjusted is not None for area in areas)
    if tested < 2:
        return []
    chance = words.percent(chance_of_a_false_alarm(tested))
    return [
        f"{tested} body areas are looked at side by side: without any effect the chance that at "
        f"least one falls below p 0.05 is {chance}. Their p-values are adjusted for it (Holm)."
    ]
