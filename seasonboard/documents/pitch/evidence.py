"""The evidence of a pitch from the departments served: injuries, and games before one."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import CRUDE, HEADLINE, REMOVES, Comparison
from seasonboard.answers.fields import Kind
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.games.words import ONE_TICK, TICKS
from seasonboard.disclosure.coarse_curve import CoarsePoint
from seasonboard.documents.model import (
    Cell,
    Column,
    Paragraph,
    Part,
    Picture,
    Section,
    Table,
)
from seasonboard.documents.pitch.baselines import BARE, EXPOSURES, GUARDED
from seasonboard.documents.pitch.counts import curve_names
from seasonboard.documents.pitch.curves import arm_points
from seasonboard.documents.pitch.masked import Shown, hundredths, ratio
from seasonboard.documents.pitch.work import remakes_section, take_up_section, turnaround_section
from seasonboard.documents.svg.curves import Curve, Step, survival
from seasonboard.documents.svg.curves import Words as CurveWords
from seasonboard.documents.svg.ranges import Estimate, Words, forest

_WORD = {GUARDED: "guarded", BARE: "bare"}


def evidence_sections(shown: Shown) -> tuple[Section, ...]:
    """Return the sections of what was recorded at departments served."""
    return (
        Section("Evidence: injuries in departments served", _injuries(shown)),
        Section("Evidence: games before an injury", _followed(shown)),
        turnaround_section(shown),
        remakes_section(shown),
        take_up_section(shown),
    )


def _injuries(shown: Shown) -> tuple[Part, ...]:
    compared = shown.found.compared
    if not compared.guarded.exposures and not compared.unguarded.exposures:
        return (Paragraph("No session with attendance is recorded yet: nothing to compare."),)
    rates = ((GUARDED, compared.guarded), (BARE, compared.unguarded))
    rows = tuple(
        (
            _WORD[arm],
            shown.count(arm, rate.injuries),
            shown.count(EXPOSURES[arm], rate.exposures),
            shown.told.show(f"rate, {arm}", words.number(rate.rate)),
            shown.told.show(
                f"limits, {arm}", f"{words.number(rate.low)} to {words.number(rate.high)}"
            ),
        )
        for arm, rate in rates
    )
    columns = (
        Column("sites"),
        Column("injuries", Kind.COUNT),
        Column("site-exposures", Kind.COUNT),
        Column("per 1000", Kind.HUNDREDTHS),
        Column(f"{words.level_words(compared.summary.scope)} limits"),
    )
    table = Table("injuries", "Injuries and exposures, guarded and bare.", columns, rows,
                  "A site-exposure is one site of one athlete in one session.")  # fmt: skip
    return (_forest(shown), table)


def _forest(shown: Shown) -> Picture:
    compared = shown.found.compared
    rows = [(each, *_ratio(shown, each)) for each in compared.comparisons]
    drawn = [
        Estimate(
            each.name,
            value,
            low,
            high,
            note,
            is_main=each.name == HEADLINE,
            is_apart=each.name == CRUDE,
        )
        for each, value, low, high, note in rows
    ]
    title = "How often guarded sites were hurt, against bare ones: five comparisons"
    about = "; ".join(f"{each.name}: {note}" for each, *_, note in rows)
    limits = f"{words.level_words(compared.summary.scope)} limits"
    table = Table(
        "comparisons",
        "Five comparisons; the first is the one to quote, the last one is not to be quoted.",
        (Column("comparison"), Column("ratio, " + limits), Column("what it removes")),
        tuple((each.name, note, REMOVES[each.name]) for each, *_, note in rows),
        note="Ratio of injuries per exposure, guarded over bare: below 1, guarded sites were hurt "
        f"less often. Not shown where a group has 1 to {shown.threshold - 1} injuries, or where "
        "such a count could be worked out.",
    )
    summary = Words("forest", title, about, "guarded / bare", "hurt less often", "hurt more often")
    return Picture(title, about, forest(summary, drawn), table)


def _ratio(shown: Shown, found: Comparison) -> tuple[float | None, float | None, float | None, str]:
    """Return ratio and limits as they are read, and the same in words."""
    if not shown.has_ratio(found) or (found.name == CRUDE and not shown.may("crude ratio")):
        return None, None, None, "too few injuries to publish"
    each = found.ratio
    if each.rate_ratio is None and each.low is None and each.high is None:
        return None, None, None, "not known"
    note = f"{words.ratio(each.rate_ratio)} ({words.limits(each.low, each.high)})"
    return ratio(each.rate_ratio), ratio(each.low), ratio(each.high), note


def _followed(shown: Shown) -> tuple[Part, ...]:
    followed = shown.found.followed
    if followed is None:
        return (Paragraph(_too_few(shown)),)
    arms = ((GUARDED, followed.guarded), (BARE, followed.unguarded))
    curves = [(arm, group, arm_points(group, followed, shown.threshold)) for arm, group in arms]
    if not all(points and shown.may(*curve_names(arm, points)) for arm, _, points in curves):
        return (Paragraph(_too_few(shown)),)
    mixed = (
        "The two groups are of different mixes of athletes, sports and parts of the season, as in "
        "the crude ratio; the same-session ratio above is the one that compares like with like."
    )
    return (_curves(shown, followed, curves), Paragraph(mixed, "Read with care:"))


def _too_few(shown: Shown) -> str:
    return (
        "Too few injuries to publish a curve: between two of its points, and in each group, "
        f"{shown.threshold} or more are needed, or none."
    )


def _curves(
    shown: Shown,
    followed: GamesAnswer,
    curves: Sequence[tuple[str, Group, tuple[CoarsePoint, ...]]],
) -> Picture:
    clock = followed.options.clock
    one, ticks = ONE_TICK[clock], TICKS[clock]
    drawn = [
        Curve(
            _WORD[arm],
            tuple(Step(p.at, p.share) for p in points),
            tuple((p.at, p.at_risk) for p in points),
            words.percent(points[-1].share),
            is_coarse=True,
        )
        for arm, _, points in curves
    ]
    title = f"Share of sites not yet injured, by {ticks} played"
    if clock.value == "sessions":
        title = "Share of sites not yet injured, by sessions taken part in"
    about = "; ".join(
        f"{_WORD[arm]}: {words.percent(points[-1].share)} after {one} {points[-1].at:g}"
        for arm, _, points in curves
    )
    rows: list[tuple[Cell, ...]] = [
        (_WORD[arm], int(point.at), hundredths(point.share), point.at_risk)
        for arm, _, points in curves
        for point in points
    ]
    table = Table(
        "before an injury",
        "The same as a table.",
        (
            Column("sites"),
            Column(f"after {one}", Kind.COUNT),
            Column("not yet injured", Kind.SHARE),
            Column("at risk there", Kind.COUNT),
        ),
        tuple(rows),
        note=f"Only points are known between which {shown.threshold} or more were injured, or "
        "none, and at which as many were at risk; straight lines join them. Limits are left out: "
        "they would tell how many were injured between two points; those of the ratios stand "
        "above. A site is guarded or bare by what was worn at each step.",
    )
    until = int(max(points[-1].at for _, _, points in curves))
    summary = CurveWords("survival", title, about, ticks, "at risk")
    return Picture(title, about, survival(summary, drawn, until=until), table)
