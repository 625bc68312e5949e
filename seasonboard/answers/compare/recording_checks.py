"""Was recorded alike what should be recorded alike? Attendance (check A) and wear (check W).

Whoever is lost from the records on one side only turns no difference into one. A check that rings
gates the claim; one that cannot tell does so too.
"""

import math
from dataclasses import dataclass

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Field, Group, Kind, of, why
from seasonboard.stats.clustered_ratio import AthleteCells, ClusteredRatio, clustered_ratio
from seasonboard.stats.poisson_binomial import upper_mid_p
from seasonboard.stats.ratios import RateRatio

UNALIKE = 0.05
"""A ratio of recorded shares this far from 1 rings, where its limits exclude 1."""
WIDEST_ERROR = -math.log(0.9) / 2.8
"""Standard error of the log ratio up to which a loss of one row in ten rings in four of five."""
RINGS_BELOW = 0.025
FEWEST_INJURED = 10
FELLOWS, ASSUMED = 10, 0.1
"""Where fewer fellows were there, so many are assumed, of whom at least a tenth is not known."""
ATTENDANCE, WEAR = "attendance", "wear of the injured"
"""What the checks are called on the page."""


@dataclass(frozen=True, slots=True)
class AttendanceCheck:
    """Recorded shares of attendance at practices: owners of a fitted guard over the others."""

    owners_recorded: int
    owners_listed: int
    others_recorded: int
    others_listed: int
    ratio: ClusteredRatio

    @property
    def can_tell(self) -> bool:
        """Say whether a loss of one row in ten would most likely have rung."""
        error = self.ratio.std_error
        return error is not None and error <= WIDEST_ERROR

    @property
    def rings(self) -> bool:
        """Say whether attendance is recorded more completely of one group."""
        value, low, high = self.ratio.value, self.ratio.low, self.ratio.high
        if value is None or low is None or high is None:
            return False
        return not low <= 1 <= high and abs(value - 1) > UNALIKE


@dataclass(frozen=True, slots=True)
class WearCheck:
    """Wear that was not recorded of injured owners, beside fellow owners of the same sessions.

    `assumed` more were hurt in sessions of which complete recording is only assumed, where a loss
    cannot show. `expected` is how many it would be were they recorded like their fellows, `p` the
    chance of so many or more (mid-P).
    """

    injured: int
    assumed: int
    not_known: int
    expected: float | None
    p: float | None
    why: str = ""

    @property
    def can_tell(self) -> bool:
        """Say whether silence would mean something: enough injured owners, none only assumed."""
        return self.p is not None and self.injured >= FEWEST_INJURED and not self.assumed

    @property
    def rings(self) -> bool:
        """Say whether wear of the injured is missing more often."""
        return self.p is not None and self.p < RINGS_BELOW


@dataclass(frozen=True, slots=True)
class Recording:
    """Both checks, and the headline as it would be were both groups' attendance recorded alike."""

    attendance: AttendanceCheck
    wear: WearCheck
    as_it_differs: float | None

    @property
    def as_it_differs_why(self) -> str:
        """Return why that is not known."""
        if self.as_it_differs is not None:
            return ""
        return self.attendance.ratio.why or "the headline has no ratio"

    @property
    def lines(self) -> list[str]:
        """Return what both say, a paragraph each."""
        return [attendance_words(self), wear_words(self.wear)]

    @property
    def missing(self) -> list[str]:
        """Return what is missing before the records may carry a claim."""
        a, w = self.attendance, self.wear
        pairs = (
            (a.rings, "attendance recorded alike of owners and others"),
            (not a.rings and not a.can_tell, "practices enough to tell if attendance is alike"),
            (w.rings, "wear recorded of the injured as of their fellows"),
            (not w.rings and not w.can_tell, f"a check of the wear of the injured ({w.why})"),
        )
        return [what for lacks, what in pairs if lacks]


def recording(attendance: pl.DataFrame, wear: WearCheck, headline: RateRatio) -> Recording:
    """Return both checks; `attendance` are the rows of `compare/attendance_recorded`."""
    check = attendance_check(attendance, headline.level)
    both = headline.value, check.ratio.value
    differs = None if both[0] is None or both[1] is None else both[0] * both[1]
    return Recording(check, wear, differs)


def attendance_check(rows: pl.DataFrame, level: float) -> AttendanceCheck:
    """Return check A: a Mantel-Haenszel ratio of shares, limits clustered by athlete."""
    owner, recorded = pl.col("is_owner"), pl.col("is_recorded")
    cells = rows.select(
        *("stratum", "athlete_no"),
        *(
            (owner & recorded).cast(pl.Int8).alias("a"),
            (~owner & recorded).cast(pl.Int8).alias("b"),
        ),
        *(owner.cast(pl.Int8).alias("t1"), (~owner).cast(pl.Int8).alias("t0")),
    )
    ratio = clustered_ratio(AthleteCells(*(c.to_numpy() for c in cells)), level=level)
    sums = cells.select(pl.col("a", "t1", "b", "t0").cast(pl.Int64).sum())
    a, t1, b, t0 = (int(number) for number in sums.row(0))
    return AttendanceCheck(a, t1, b, t0, ratio)


def wear_check(rows: pl.DataFrame) -> WearCheck:
    """Return check W from the rows of `compare/wear_of_injured`."""
    known = rows.filter(~pl.col("is_assumed"))
    number, assumed = len(known), len(rows) - len(known)
    why = _why_no_silence(number, assumed)
    if not number:
        return WearCheck(0, assumed, 0, None, None, why)
    fellows, unknown = known["fellows"].to_list(), known["fellows_not_known"].to_list()
    share = max(ASSUMED, sum(unknown) / max(sum(fellows), 1))
    chances = [
        (x + max(FELLOWS - n, 0) * share) / max(n, FELLOWS)
        for x, n in zip(unknown, fellows, strict=True)
    ]
    missing = int(known["not_known"].sum())
    return WearCheck(number, assumed, missing, sum(chances), upper_mid_p(missing, chances), why)


def _why_no_silence(number: int, assumed: int) -> str:
    """Return why silence would mean nothing; empty where it would."""
    if assumed:
        owners = words.plural(assumed, "injured owner")
        return f"that every guard worn was recorded is only assumed for {owners}"
    if not number:
        return "no owner of a guard was hurt where it covers"
    return f"{number} injured owners, under {FEWEST_INJURED}" if number < FEWEST_INJURED else ""


def attendance_words(found: Recording) -> str:
    """Return check A in sentences."""
    check, ratio = found.attendance, found.attendance.ratio
    if ratio.value is None or not check.owners_listed or not check.others_listed:
        return (
            "Attendance: no practice tells yet whether it is recorded alike of owners and others."
        )
    text = (
        "At practices attendance is recorded of "
        f"{words.percent(check.owners_recorded / check.owners_listed)} of owners and "
        f"{words.percent(check.others_recorded / check.others_listed)} of others: "
        f"{words.ratio(ratio.value)} times as often ({words.interval(ratio.low, ratio.high)})."
    )
    if check.rings:
        differs = words.ratio(found.as_it_differs)
        return f"{text} That is not alike; allowing for it, the headline would be {differs}."
    too_little = "That is too little to tell whether it is recorded alike."
    return f"{text} {'No loss on one side shows.' if check.can_tell else too_little}"


def wear_words(check: WearCheck) -> str:
    """Return check W in sentences."""
    if check.p is None or check.expected is None:
        return f"Wear of the injured: whether it was recorded alike cannot be told; {check.why}."
    owners = words.plural(check.injured, "injured owner of a guard", "injured owners of a guard")
    text = (
        f"Of {owners} it is not known of {check.not_known} whether it was on; as with their "
        f"fellows it would be {words.number(check.expected, digits=1)}."
    )
    if check.rings:
        return f"{text} Wear of the injured was lost or left out: no claim rests on it."
    return f"{text} No loss shows." if check.can_tell else f"{text} That cannot tell: {check.why}."


AS_IT_DIFFERS = (
    Field("as_it_differs", "the headline times the ratio of recorded shares", Kind.RATIO),
    why(of("as_it_differs_why"), "as_it_differs_why"),
)
_RINGS = Field("rings", "whether it rings: not recorded alike", Kind.FLAG)
_CAN_TELL = Field("can_tell", "whether its silence would mean something", Kind.FLAG)

RECORDING_FIELDS = Group(
    "recording",
    of("recording"),
    (
        Group(
            "wear",
            of("wear"),
            (
                Field("injured", "injured owners of a guard", Kind.COUNT),
                Field("assumed", "more, where complete recording is only assumed", Kind.COUNT),
                Field("not_known", "of whom it is not known if it was on", Kind.COUNT),
                Field("expected", "as many as with their fellows", Kind.TENTHS),
                Field("p", "chance of so many or more (mid-P)", Kind.THOUSANDTHS),
                *(_RINGS, _CAN_TELL, why(of("why"))),
            ),
            "wear of the injured beside fellow owners of the same session",
        ),
        Group(
            "attendance",
            of("attendance"),
            (
                *(
                    Field(f"{group}_{what}", f"{group}' practices {what}", Kind.COUNT)
                    for group in ("owners", "others")
                    for what in ("recorded", "listed")
                ),
                Group(
                    "",
                    of("ratio"),
                    (
                        Field("ratio", "owners' share over others'", Kind.RATIO, of("value")),
                        *interval(Kind.RATIO),
                        why(of("why")),
                    ),
                ),
                *(_RINGS, _CAN_TELL),
            ),
            "recorded shares of attendance at practices",
        ),
        *AS_IT_DIFFERS,
    ),
    "whether what should be recorded alike is",
)  # fmt: skip
"""How both checks are told in JSON."""
