"""The figures on health of one kind of guard: counts by sport and sex, ratios, curves, days."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise

import polars as pl

from seasonboard.answers.compare.comparisons import CRUDE, Comparison
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.pitch.answer import injuries_in
from seasonboard.answers.pitch.baseline import ServedRates
from seasonboard.disclosure.coarse_curve import CoarsePoint, Tick, coarse_points
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.releases.block import Figure
from seasonboard.releases.draft import Draft
from seasonboard.stats.absence_duration import AbsenceLaw

GUARDED, BARE = "guarded injuries", "bare injuries"
ARMS = {GUARDED: "guarded", BARE: "bare"}
EXPOSURES = {GUARDED: "guarded exposures", BARE: "bare exposures"}
RATIO, PEEK_PROOF = "ratio", "ratio, peek-proof"
CURVE, AT_RISK, CLOCK = "not yet injured", "at risk", "clock"
DAYS_LOST = "days lost"
BESIDES, IN_SESSIONS = "injuries in all for one counted", "share of injuries in sessions"


def team_words(sport: str, sex: str) -> str:
    """Return a sport and sex as they stand in the names of counts: `women's soccer`."""
    return f"{sport}, {sex}"


def declare_injuries(
    draft: Draft, rows: pl.DataFrame, compared: CompareAnswer, followed: GamesAnswer | None
) -> None:
    """Declare injuries and exposures by sport and sex, and what is worked out from records of them.

    `rows` are those of `releases/injuries`.
    """
    declare_arms(draft, rows)
    for comparison in compared.comparisons:
        _ratio(draft, comparison, compared.comparison(CRUDE))
    now = compared.watched.now
    if now.value is not None:
        figure = Figure.rounded(PEEK_PROOF, (now.value, now.low, now.high), 2)
        draft.figure(figure, *behind("same session", draft))
    if followed is not None:
        declare_curves(draft, followed)


def declare_arms(draft: Draft, rows: pl.DataFrame) -> None:
    """Declare injuries and exposures of both groups, by sport and sex."""
    for arm, column in ARMS.items():
        _counts(draft, rows, arm, column)
        _exposures(draft, rows, EXPOSURES[arm], f"{column}_exposures")


def _counts(draft: Draft, rows: pl.DataFrame, arm: str, column: str) -> None:
    by_cut: dict[str, dict[str, int]] = defaultdict(dict)
    whole: dict[str, int] = defaultdict(int)
    for department, sport, sex, count in rows.select(
        "department", "sport", "sex", column
    ).iter_rows():
        by_cut[f"{arm}, {team_words(sport, sex)}"][department] = count
        whole[department] += count
    draft.table.show(arm, sum(whole.values()))
    draft.of_departments(arm, whole)
    for name, counts in by_cut.items():  # told where there are many: nobody then sees who had none
        count = sum(counts.values())
        (draft.table.show if count >= THRESHOLD else draft.table.unpublished)(name, count)
        draft.of_departments(name, counts)
    if by_cut:
        draft.table.adds_up(arm, by_cut)


def _exposures(draft: Draft, rows: pl.DataFrame, name: str, column: str) -> None:
    cuts = rows.group_by("sport", "sex").agg(pl.sum(column)).sort("sport", "sex")
    parts = [
        draft.table.show(f"{name}, {team_words(sport, sex)}", count)
        for sport, sex, count in cuts.iter_rows()
    ]
    draft.table.show(name, int(rows[column].sum()))
    if parts:
        draft.table.adds_up(name, parts)


def behind(name: str, draft: Draft) -> list[str]:
    """Return the counts of injuries that a comparison rests on."""
    own = [f"{arm}, {name}" for arm in ARMS]
    return [one if one in draft.table.cells else arm for one, arm in zip(own, ARMS, strict=True)]


def _ratio(draft: Draft, comparison: Comparison, crude: Comparison) -> None:
    ratio = comparison.ratio
    wholes = (crude.ratio.injuries_guarded, crude.ratio.injuries_unguarded)
    for arm, count, whole in zip(
        ARMS, (ratio.injuries_guarded, ratio.injuries_unguarded), wholes, strict=True
    ):
        if count == whole == draft.table.cells[arm]:
            continue
        name = draft.rests_on_enough(f"{arm}, {comparison.name}", count)
        if arm in draft.table.close:
            draft.table.close.add(name)
    limits, by_athlete = (ratio.low, ratio.high), comparison.clustered
    for name, (low, high) in (
        (f"{RATIO}, {comparison.name}", limits),
        (f"{RATIO}, {comparison.name}, by athlete", (by_athlete.low, by_athlete.high)),
    ):
        figure = Figure.rounded(name, (ratio.value, low, high), 2)
        draft.figure(figure, *behind(comparison.name, draft))


def arm_points(group: Group, followed: GamesAnswer) -> tuple[CoarsePoint, ...]:
    """Return the points of one group's curve that may be told."""
    ticks = [
        Tick(point.tick, point.at_risk, point.injuries, point.survival)
        for point in group.compared.points
        if point.survival is not None
    ]
    return coarse_points(ticks, THRESHOLD, start=(followed.start or 1) - 1)


def declare_curves(draft: Draft, followed: GamesAnswer) -> None:
    """Declare both curves; one is told only with the other, and with all at risk on it."""
    names: list[str] = []
    figures = [Figure(CLOCK, words=followed.options.clock.value)]
    for arm, group in ((GUARDED, followed.guarded), (BARE, followed.unguarded)):
        points = arm_points(group, followed)
        if not points:
            return
        total = draft.table.unpublished(f"{arm}, followed", group.injuries)
        if group.injuries <= draft.table.cells[arm]:
            draft.table.within(arm, [total])
        if arm in draft.table.close:
            draft.table.close.add(total)
        names.append(total)
        names += _events(draft, total, arm, points)
        names += _at_risk(draft, arm, points)
        figures += [Figure(f"{CURVE}, {ARMS[arm]}, {one.at:g}", one.share) for one in points]
        draft.table.bounded(total, 0)
    for figure in figures:
        draft.figure(figure, *names)


def _events(draft: Draft, total: str, arm: str, points: Sequence[CoarsePoint]) -> list[str]:
    """Declare what ended between the points of a curve as far as its shares tell it."""
    names = []
    for point in points[1:]:
        name = draft.table.unpublished(f"{arm} up to {point.at:g}", point.events)
        draft.table.bounded(name, *point.event_range())
        names.append(name)
    if names:
        draft.table.within(total, names)
    return names


def _at_risk(draft: Draft, arm: str, points: Sequence[CoarsePoint]) -> list[str]:
    """Declare who was at risk at each point, and the difference from the one before."""
    names = [draft.table.show(f"{AT_RISK}, {ARMS[arm]}, {one.at:g}", one.at_risk) for one in points]
    for pair in pairwise(names):
        small, large = sorted(pair, key=draft.table.cells.__getitem__)
        draft.table.within(large, [small])
    return names


def declare_rates(
    draft: Draft, rates: ServedRates, baseline: pl.DataFrame, absences: pl.DataFrame
) -> None:
    """Declare what a plan needs beside the counts, in one decimal.

    `baseline` and `absences` are rows of questions of these names. Both figures are told only where
    what they are made of, and what is left of that, are many or none. How far sports and teams
    differ is told of none: it is made of counts that are hidden.
    """
    every, inside = injuries_in(absences), int(absences["in_sessions"].sum())
    bare, exposures = (draft.table.cells[name] for name in (BARE, EXPOSURES[BARE]))
    if min(every, inside, bare) < 2 * THRESHOLD:
        return
    again = int(baseline["injuries"].sum()) / int(baseline["exposures"].sum())
    besides = again * rates.besides * exposures / bare
    left = (every - inside, round(besides * bare) - bare)
    if all(count >= THRESHOLD or count == 0 for count in left):
        draft.figure(Figure(BESIDES, round(besides, 1)), *ARMS)
        draft.figure(Figure(IN_SESSIONS, round(inside / every, 1)), *ARMS)


def declare_days_lost(draft: Draft, law: AbsenceLaw | None) -> None:
    """Declare the days that injuries cost, in equal parts."""
    if law is None:
        return
    behind = "injuries with days lost"
    draft.in_parts(DAYS_LOST, behind, law.days, law.chances, law.injuries)
    if draft.table.close & set(ARMS):
        draft.table.close.add(behind)


def sharing_sites(kinds: Sequence[str], covers: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """Return the kinds whose figures on health are left out, each with the kind told in its place.

    Kinds of one body area count the same injuries: one taken from the other would tell those of
    the athletes who wore this and not that. The first in order is told.
    """
    owner: dict[str, str] = {}
    left_out: dict[str, str] = {}
    for kind in kinds:
        others = [owner[area] for area in covers.get(kind, ()) if area in owner]
        if others:
            left_out[kind] = others[0]
        else:
            owner |= dict.fromkeys(covers.get(kind, ()), kind)
    return left_out
