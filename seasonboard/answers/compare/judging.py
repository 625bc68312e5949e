"""The verdict of Compare, for other answers of the same scope."""

from seasonboard.answers.compare.comparisons import (
    ALIKE_ATHLETES,
    HEADLINE,
    OTHER_SIDE,
    SAME_ATHLETE,
    other_side,
    ratio_within,
    same_athlete,
)
from seasonboard.answers.compare.verdict import Judged, excludes_one, verdict
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.scope import Scope


def judged(reader: Reader, scope: Scope) -> Judged:
    """Return what Compare says of a scope; the others are read only where they have a say."""
    level = scope.level
    (strata,) = read_frames(reader, scope, "compare/strata").values()
    headline = ratio_within(HEADLINE, strata, level)
    if not excludes_one(headline):
        return Judged(verdict(headline, {}), headline)
    names = ("compare/athlete_courses", "compare/bare_rates", "compare/other_side")
    courses, bare, pairs = read_frames(reader, scope, *names).values()
    others = {
        ALIKE_ATHLETES: ratio_within(ALIKE_ATHLETES, strata, level),
        SAME_ATHLETE: same_athlete(courses, bare, level).ratio,
        OTHER_SIDE: other_side(pairs, level).ratio,
    }
    return Judged(verdict(headline, others), headline)
