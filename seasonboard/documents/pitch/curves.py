"""The curves of a pitch by few points: games or sessions before an injury, orders still open."""

from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.turnaround.groups import TurnaroundGroup
from seasonboard.disclosure.coarse_curve import CoarsePoint, Tick, coarse_points


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
