"""Every count that a pitch shows or implies, declared before anything is written.

What is hidden takes with it all that is worked out from it: a sentence, a row or a curve is shown
only where `told.may_show` allows all the names it rests on.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers.claims.parts import GAMES
from seasonboard.answers.compare.comparisons import CRUDE, Comparison
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.parts import Clock, GamesAnswer, Group
from seasonboard.answers.pitch.parts import PitchAnswer, TeamAhead
from seasonboard.answers.remakes.groups import RemakeGroup
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up import parts as steps
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.disclosure.coarse_curve import CoarsePoint, Tick, coarse_points
from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.document_release import DocumentRelease
from seasonboard.disclosure.published_figures import (
    DerivedFigure,
    ShownInterval,
    ShownRate,
    ShownRatio,
)
from seasonboard.documents.pitch.baselines import BARE, EXPOSURES, GUARDED, RANGES, expected
from seasonboard.documents.pitch.baselines import declare as declare_baselines
from seasonboard.scope import Scope

ATHLETES = "athletes of all teams"
TAKES, READY, WORN_IN, REMADE = "take-up", "ready", "worn in", "remade"
ORDERS, ALL_FITTED = "orders", "fitted guards"
FOLLOWED = {arm: f"games before an injury, {arm}" for arm in (GUARDED, BARE)}
"""What a claim about games tells, where one is made."""


@dataclass(frozen=True, slots=True)
class PitchSources:
    """The answers that a page is written from, and neutral labels for departments by key.

    `followed` is the Games answer whose clock both groups have enough injuries on; None: neither.
    """

    pitch: PitchAnswer
    compared: CompareAnswer
    remade: RemakesAnswer
    taken: TakeUpAnswer
    followed: GamesAnswer | None
    timed: TurnaroundAnswer
    labels: dict[str, str]


def declare(release: DocumentRelease, sources: PitchSources) -> None:
    """Declare all counts of the evidence."""
    _athletes(release, sources.pitch)
    _injuries(release, sources.compared)
    declare_baselines(release, sources.pitch)
    if sources.followed is not None:
        _curves(release, sources.followed, _is_claimed(sources))
    _orders(release, sources)
    _remakes(release, sources.remade)
    _take_up(release, sources.taken)


def team_athletes(place: int, team: TeamAhead) -> str:
    """Return the name of a team's size."""
    return f"athletes of team {place + 1}, {team.name}"


def season_names(pitch: PitchAnswer) -> list[str]:
    """Return all names that the simulated injuries rest on."""
    names = [name for n, team in enumerate(pitch.teams) for name in expected(n, team)]
    sizes = [] if pitch.is_given or not pitch.teams else [ATHLETES]
    ranges = [RANGES] if names and pitch.ahead is not None else []
    return [*names, *ranges, *sizes]


def compared_names(comparison: Comparison) -> list[str]:
    """Return the names of what a comparison tells of its injuries."""
    return [f"{comparison.name} ratio, {arm}" for arm in (GUARDED, BARE)]


def curve_names(arm: str, points: Sequence[CoarsePoint]) -> list[str]:
    """Return the names of what a coarse curve tells: injuries between points, and those at risk."""
    between = [f"injuries up to {point.at:g}, {arm}" for point in points[1:]]
    return [*between, *(f"at risk at {point.at:g}, {arm}" for point in points)]


def order_names(label: str, points: Sequence[CoarsePoint]) -> list[str]:
    """Return the names of what a coarse turnaround curve tells."""
    return [f"fitted up to {point.at:g} days, {label}" for point in points[1:]]


def arm_points(group: Group, followed: GamesAnswer, threshold: int) -> tuple[CoarsePoint, ...]:
    """Return the points of one group's curve that may be shown."""
    start = (followed.start or 1) - 1
    ticks = [
        Tick(point.tick, point.at_risk, point.injuries, point.survival)
        for point in group.compared.points
        if point.survival is not None
    ]
    return coarse_points(ticks, threshold, start=start)


def order_points(group: TurnaroundGroup, threshold: int) -> tuple[CoarsePoint, ...]:
    """Return the points of a department's curve of open orders that may be shown."""
    points = group.curve.points
    ticks = [Tick(each.time, each.at_risk, each.finished, each.waiting) for each in points]
    return coarse_points(ticks, threshold)


def _athletes(release: DocumentRelease, pitch: PitchAnswer) -> None:
    """Declare the sizes of teams like those served; those that were given are not of the store."""
    if pitch.is_given or not pitch.teams:
        return
    parts = [
        release.count(team_athletes(n, team), team.athletes) for n, team in enumerate(pitch.teams)
    ]
    release.count(ATHLETES, pitch.athletes)
    release.adds_up(ATHLETES, parts)


def _injuries(release: DocumentRelease, compared: CompareAnswer) -> None:
    scope, threshold = compared.summary.scope, release.policy.threshold
    for arm, rate in ((GUARDED, compared.guarded), (BARE, compared.unguarded)):
        release.count(arm, rate.injuries, CountDefinition.of(arm, scope))
        release.count(EXPOSURES[arm], rate.exposures)
        counts = (arm, EXPOSURES[arm])
        release.figure(ShownRate(f"rate, {arm}", *counts, digits=2))
        release.figure(ShownInterval(f"interval, {arm}", *counts, digits=2, level=scope.level))
    crude = compared.comparison(CRUDE).ratio
    both = (GUARDED, EXPOSURES[GUARDED], BARE, EXPOSURES[BARE])
    release.figure(ShownRatio("crude ratio", *both))
    for each in compared.comparisons:
        own = (each.ratio.injuries_guarded, each.ratio.injuries_unguarded)
        whole = (crude.injuries_guarded, crude.injuries_unguarded)
        for arm, name, count, all_ in zip(
            (GUARDED, BARE), compared_names(each), own, whole, strict=True
        ):
            cell = arm if count == all_ else release.unpublished(f"{arm}, {each.name}", count)
            low, high = (threshold, None) if count >= threshold else (count, count)
            release.bounded(name, cell, low, high)


def _is_claimed(sources: PitchSources) -> bool:
    """Say whether a sentence about games before an injury is made from the curves' own counts."""
    followed = sources.followed
    is_by_games = followed is not None and followed.options.clock is Clock.GAMES
    return is_by_games and any(c.is_supported for c in sources.pitch.claims if c.topic == GAMES)


def _curves(release: DocumentRelease, followed: GamesAnswer, is_claimed: bool) -> None:  # noqa: FBT001
    groups = ((GUARDED, followed.guarded), (BARE, followed.unguarded))
    for arm, group in groups:
        points = arm_points(group, followed, release.policy.threshold)
        total = release.unpublished(f"injuries followed, {arm}", group.injuries)
        if group.injuries <= release.value(arm):
            release.within(arm, [total])
        if is_claimed:
            release.figure(DerivedFigure(FOLLOWED[arm], (total,)))
        _between(release, total, curve_names(arm, points), points)
        for point in points:
            release.count(f"at risk at {point.at:g}, {arm}", point.at_risk)


def _between(
    release: DocumentRelease, total: str, names: Sequence[str], points: Sequence[CoarsePoint]
) -> None:
    """Declare what ended between the points of a curve as far as its shares tell it."""
    cells = []
    for name, point in zip(names, points[1:], strict=False):
        cell = release.unpublished(f"{name}, in all", point.events)
        cells.append(cell)
        release.bounded(name, cell, *point.event_range())
    if cells:
        release.within(total, cells)


def _orders(release: DocumentRelease, sources: PitchSources) -> None:
    timed, scope = sources.timed, sources.timed.summary.scope
    parts = []
    for group in timed.groups:
        label = sources.labels.get(group.key, "department not recorded")
        counted = _of_work(ORDERS, scope, department=group.key)
        name = release.count(f"{ORDERS}, {label}", group.orders, counted)
        parts.append(name)
        points = order_points(group, release.policy.threshold)
        _between(release, name, order_names(label, points), points)
    release.count(ORDERS, timed.whole.orders, _of_work(ORDERS, scope))
    if parts:
        release.adds_up(ORDERS, parts)
    ready = timed.whole.ready.share
    whole = release.unpublished("orders of which it is decided", ready.trials)
    _share(release, READY, release.unpublished("orders ready", ready.successes), whole)


def _of_work(what: str, scope: Scope, **narrower: str) -> CountDefinition:
    """Return a count of guards or of who has them: whatever injuries and sessions are asked for."""
    return CountDefinition.of(what, scope, but_for=("purpose", "outcome", "setting"), **narrower)


def _share(release: DocumentRelease, name: str, part: str, whole: str) -> None:
    """Declare a share in whole percent, with its limits."""
    release.share(name, part, whole)
    release.figure(ShownInterval(f"{name}, interval", part, whole, "wilson", 100, 0))


def _remakes(release: DocumentRelease, remade: RemakesAnswer) -> None:
    scope, parts, again = remade.summary.scope, [], []
    for group in remade.groups:
        counted = _of_work(ALL_FITTED, scope, kind=group.group)
        parts.append(release.count(f"{ALL_FITTED}, {group.group}", group.fitted, counted))
        again.append(release.unpublished(f"{REMADE}, {group.group}, guards", _remade(group)))
        _share(release, f"{REMADE}, {group.group}", again[-1], parts[-1])
    release.count(ALL_FITTED, remade.whole.fitted, _of_work(ALL_FITTED, scope))
    _taken_from(release, ORDERS, ALL_FITTED)
    if parts:
        release.adds_up(ALL_FITTED, parts)
    total = sum(map(_remade, remade.groups)) if again else _remade(remade.whole)
    whole = release.unpublished(f"{REMADE}, all guards", total)
    if again:
        release.adds_up(whole, again)
    _share(release, REMADE, whole, ALL_FITTED)


def _remade(group: RemakeGroup) -> int:
    """Return about how many fitted guards were remade in the first days, recent ones weighed in."""
    return min(group.fitted, round(group.fitted * (group.within.value or 0.0)))


def _take_up(release: DocumentRelease, taken: TakeUpAnswer) -> None:
    scope, before = taken.summary.scope, ""
    for name in steps.STEPS:
        step = taken.whole.step(name)
        cell = release.count(step_name(name), step.count, _of_work(step_name(name), scope))
        if before:
            through = cell
            if step.without_before:
                beside = release.unpublished(f"{cell}, not {before} before", step.without_before)
                through = release.within(cell, [beside])
            _taken_from(release, step_name(before), through)
        before = name
    _taken_from(release, ALL_FITTED, step_name(steps.FITTED))
    worn = taken.whole.worn
    people = release.unpublished("athletes with a guard fitted and a session since", worn.clusters)
    threshold = release.policy.threshold
    low, high = (threshold, None) if worn.clusters >= threshold else (worn.clusters, worn.clusters)
    release.bounded("worn in, athletes", people, low, high)
    sessions = release.unpublished("sessions with a guard fitted", worn.trials)
    release.share(
        WORN_IN, release.unpublished("sessions in which one was worn", worn.successes), sessions
    )
    groups = [g for g in (taken.groups or (taken.whole,)) if g.step(steps.OFFERED).count]
    eligible = sum(group.step(steps.ELIGIBLE).count for group in groups)
    accepted = sum(group.step(steps.ACCEPTED).count for group in groups)
    share = taken.whole.step(steps.WORN).of_before.value or 0.0
    take = release.unpublished("athletes who accepted and wear a guard", round(accepted * share))
    whole = release.unpublished("athletes of teams that were offered guards", eligible)
    _share(release, TAKES, take, whole)


def _taken_from(release: DocumentRelease, whole: str, part: str) -> None:
    """Declare what a reader gets who takes one count from another that it lies within."""
    if release.value(part) <= release.value(whole):
        release.within(whole, [part])


def step_name(step: str) -> str:
    """Return the name of a step's count."""
    return (
        f"athletes {step}"
        if step in {steps.ELIGIBLE, steps.OFFERED}
        else f"athletes with a guard {step}"
    )
