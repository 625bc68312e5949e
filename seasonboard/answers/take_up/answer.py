"""Who was offered a guard, and who wears it? Steps from the roster to the session, and wear."""

from collections.abc import Sequence

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, LeftOut, Summary, left_out_rows
from seasonboard.answers.questions import TAKE_UP
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.take_up.counts import WHOLE, breaks, in_groups, mark, nobody, reasons
from seasonboard.answers.take_up.parts import (
    ACCEPTED,
    ELIGIBLE,
    FITTED,
    NOT_RECORDED,
    OFFERED,
    WORN,
    TakeUpAnswer,
    TakeUpBy,
    TakeUpGroup,
    TakeUpOptions,
)
from seasonboard.scope import Scope, ScopeValues
from seasonboard.sentence import join

_COLUMN = {TakeUpBy.TEAM: "team", TakeUpBy.POSITION_GROUP: "position_group", TakeUpBy.KIND: "kind"}


def take_up(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: TakeUpOptions | None = None
) -> TakeUpAnswer:
    """Count who was offered a guard, who accepted, was fitted and wears it."""
    by = (options or TakeUpOptions()).by
    people, wear, left_out = _read(reader, scope)
    marks = mark(people, wear)
    everybody = (*in_groups(marks, wear, WHOLE, level=scope.level), nobody(scope.level))[0]
    kinds = in_groups(marks, wear, "kind", level=scope.level)
    is_by_kind = by is TakeUpBy.KIND
    sentence, caveats = _sentence(everybody, scope), _caveats(everybody, scope, scope_values)
    unknown = int(wear["not_known"].sum())
    why = "nobody recorded whether the guard was worn"
    lacking = (LeftOut("sessions with a guard fitted", why, unknown),) if unknown else ()
    aside = (*lacking, *left_out_rows(left_out))
    return TakeUpAnswer(
        summary=Summary(TAKE_UP.asks, sentence, caveats, aside, scope),
        by=by,
        whole=everybody,
        kinds=kinds if len(kinds) > 1 else (),
        groups=kinds if is_by_kind else in_groups(marks, wear, _COLUMN[by], level=scope.level),
        reasons=reasons(marks),
        breaks=breaks(marks),
    )


def _read(reader: Reader, scope: Scope) -> Sequence[pl.DataFrame]:
    """Return offers and orders, wear (of the same athletes and teams), and what was left out."""
    questions = asked_of(scope, "take_up/offers", "take_up/wear", "take_up/left_out")
    people, wear, left_out = reader.read_each(questions)
    group = pl.col("position_group").fill_null(NOT_RECORDED)
    places = people.select("athlete_no", "team", group).unique()
    return people, wear.join(places, on=["athlete_no", "team"], how="inner"), left_out


def _sentence(everybody: TakeUpGroup, scope: Scope) -> str:
    counts = {step.step: step.count for step in everybody.steps}
    guards = f"{join(scope.kinds)} guard" if len(scope.kinds) <= 3 else "guard"
    athletes = words.plural(counts[ELIGIBLE], "athlete")
    if not counts[ELIGIBLE]:
        return "Nobody to offer a guard to yet: no athlete is on a roster of this scope."
    if not any(counts[step] for step in (OFFERED, FITTED, WORN)):
        return (
            f"Nobody yet: of {athletes} on the roster nobody was offered or fitted with a {guards}."
        )
    offered = (
        f"Of {athletes} on the roster {words.whole(counts[OFFERED])} were offered a {guards}: "
        f"{words.whole(counts[ACCEPTED])} accepted, {words.whole(everybody.declined)} declined, "
        f"{words.whole(everybody.undecided)} undecided. {words.whole(counts[FITTED])} were fitted "
        f"and {words.whole(counts[WORN])} wore one at least once."
    )
    return f"{offered} {_worn(everybody, scope)}"


def _worn(everybody: TakeUpGroup, scope: Scope) -> str:
    worn = everybody.worn
    if worn.value is None:
        return "Of no session with a guard fitted is known whether it was worn."
    interval = worn.why
    if worn.low is not None and worn.high is not None:
        limits = f"{words.percent(worn.low)} to {words.percent(worn.high)}"
        interval = f"{words.interval_words(scope)}: {limits}"
    return (
        f"Since it was fitted a guard was worn in {words.percent(worn.value)} of "
        f"{words.whole(worn.trials)} sessions taken part in ({interval})."
    )


def _caveats(everybody: TakeUpGroup, scope: Scope, scope_values: ScopeValues) -> tuple[str, ...]:
    caveats = [CAUTION]
    kinds_made = [kind for kind in scope.kinds if kind in scope_values.kinds_made]
    if len(kinds_made) > 1:
        caveats.append(
            f"Counts athletes with any of {len(kinds_made)} kinds of guard; a session counts once "
            "for each kind that was fitted."
        )
    if scope.sides:
        caveats.append("An offer names no side: offers of every side count.")
    if everybody.step(WORN).count:
        caveats.append(
            "Worn is what was recorded: where wear is not recorded at practices, the share is low."
        )
    caveats.append(
        "An offer and its answer are known from the day of the offer: the answer has no day of its "
        "own. A roster place without a joining day is known from the start."
    )
    return tuple(caveats)
