"""The evidence of a pitch from the departments served: injuries, and games before one."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import CRUDE, HEADLINE, REMOVES, Comparison
from seasonboard.answers.compare.parts import GroupRates
from seasonboard.answers.compare.report import RATES
from seasonboard.answers.fields import Kind
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.games.words import AS_PLAYED, ONE_TICK, TICKS
from seasonboard.disclosure.coarse_curve import CoarsePoint
from seasonboard.documents.described import document_table
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.pitch.baselines import BARE, EXPOSURES, GUARDED
from seasonboard.documents.pitch.counts import arm_points, curve_names
from seasonboard.documents.pitch.masked import MaskedPitch
from seasonboard.documents.pitch.work import remakes_section, take_up_section, turnaround_section
from seasonboard.documents.svg.curves import CurveLine, survival
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import ForestRow, forest

_WORD = {GUARDED: "guarded", BARE: "bare"}


def evidence_sections(masked: MaskedPitch) -> tuple[Section, ...]:
    """Return the sections of what was recorded at departments served."""
    return (
        Section("Evidence: injuries in departments served", _injuries(masked)),
        Section("Evidence: games before an injury", _followed(masked)),
        turnaround_section(masked),
        remakes_section(masked),
        take_up_section(masked),
    )


def _injuries(masked: MaskedPitch) -> tuple[Part, ...]:
    compared = masked.sources.compared
    if not compared.guarded.exposures and not compared.unguarded.exposures:
        return (Paragraph("No session with attendance is recorded yet: nothing to compare."),)

    def rests_on(group: GroupRates) -> dict[str, str]:
        arm = GUARDED if group.rate is compared.guarded else BARE
        rate, interval = f"rate, {arm}", f"interval, {arm}"
        return {"injuries": arm, "exposures": EXPOSURES[arm], "rate": rate, "interval": interval}

    table = document_table(
        *(RATES, compared, "injuries", "Injuries and exposures, guarded and bare."),
        only=("group", *rests_on(compared.groups[0])),
        headings={
            "group": "sites",
            "exposures": "site-exposures",
            "interval": words.interval_words(compared.summary.scope),
        },
        cell=masked.cells(rests_on),
        lead="A site-exposure is one site of one athlete in one session.",
    )
    return (_forest(masked), table)


def _forest(masked: MaskedPitch) -> Picture:
    compared = masked.sources.compared
    rows = [_forest_row(masked, comparison) for comparison in compared.comparisons]
    title = "How often guarded sites were hurt, against bare ones: five comparisons"
    about = "; ".join(f"{row.name}: {row.note}" for row in rows)
    interval = words.interval_words(compared.summary.scope)
    table = Table(
        "comparisons",
        "Five comparisons; the first is the one to quote, the last one is not to be quoted.",
        (Column("comparison"), Column(f"ratio, {interval}"), Column("what it removes")),
        tuple((row.name, row.note, REMOVES[row.name]) for row in rows),
        note="Ratio of injuries per exposure, guarded over bare: below 1, guarded sites were hurt "
        f"less often. Not shown where a group has 1 to {masked.threshold - 1} injuries, or where "
        "such a count could be worked out.",
    )
    sides = ("hurt less often", "hurt more often")
    labels = PictureWords("forest", title, about, "guarded / bare", *sides)
    return Picture(title, about, forest(labels, rows), table)


def _forest_row(masked: MaskedPitch, comparison: Comparison) -> ForestRow:
    one, is_apart = comparison.ratio, comparison.name == CRUDE
    low, value, high, note = None, None, None, "too few injuries to publish"
    if masked.has_ratio(comparison) and (not is_apart or masked.may("crude ratio")):
        low, value, high = (
            None if ratio is None else float(words.ratio(ratio))
            for ratio in (one.low, one.value, one.high)
        )
        is_known = (low, value, high) != (None, None, None)
        interval = words.interval(one.low, one.high)
        note = f"{words.ratio(one.value)} ({interval})" if is_known else "not known"
    is_main = comparison.name == HEADLINE
    return ForestRow(comparison.name, value, low, high, note, is_main, is_apart)


def _followed(masked: MaskedPitch) -> tuple[Part, ...]:
    followed = masked.sources.followed
    too_few = Paragraph(
        "Too few injuries to publish a curve: between two of its points, and in each group, "
        f"{masked.threshold} or more are needed, or none."
    )
    if followed is None:
        return (too_few,)
    arms = ((GUARDED, followed.guarded), (BARE, followed.unguarded))
    curves = [(arm, group, arm_points(group, followed, masked.threshold)) for arm, group in arms]
    if not all(points and masked.may(*curve_names(arm, points)) for arm, _, points in curves):
        return (too_few,)
    mixed = (
        "The curves are as played: of different mixes of athletes, sports and parts of the season, "
        "as in the crude ratio. The same-session ratio above is the one that compares like with "
        "like."
    )
    return (_curves(masked, followed, curves), Paragraph(mixed, "Read with care:"))


def _curves(
    masked: MaskedPitch,
    followed: GamesAnswer,
    curves: Sequence[tuple[str, Group, tuple[CoarsePoint, ...]]],
) -> Picture:
    clock = followed.options.clock
    one, ticks = ONE_TICK[clock], TICKS[clock]
    drawn = [
        CurveLine(
            _WORD[arm],
            tuple((p.at, p.share) for p in points),
            tuple((p.at, p.at_risk) for p in points),
            words.percent(points[-1].share),
        )
        for arm, _, points in curves
    ]
    by = "sessions taken part in" if clock.value == "sessions" else f"{ticks} played"
    title = f"Share of sites not yet injured, by {by}: {AS_PLAYED}"
    about = "; ".join(
        f"{_WORD[arm]}: {words.percent(points[-1].share)} after {one} {points[-1].at:g}"
        for arm, _, points in curves
    )
    rows: list[tuple[Cell, ...]] = [
        (_WORD[arm], int(point.at), point.share, point.at_risk)
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
        note=f"Only points are known between which {masked.threshold} or more were injured, or "
        "none, and at which as many were at risk; straight lines join them. Intervals are left "
        "out: they would tell how many were injured between two points; those of the ratios stand "
        "above. A site is guarded or bare by what was worn at each step.",
    )
    until = int(max(points[-1].at for _, _, points in curves))
    summary = PictureWords("survival", title, about, ticks, counts="at risk")
    return Picture(title, about, survival(summary, drawn, until=until), table)
