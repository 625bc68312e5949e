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
from seasonboard.documents.pitch.masked import MaskedPitch, hundredths, ratio
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
    rates = ((GUARDED, compared.guarded), (BARE, compared.unguarded))
    rows = tuple(
        (
            _WORD[arm],
            masked.count(arm, rate.injuries),
            masked.count(EXPOSURES[arm], rate.exposures),
            masked.verdict.show(f"rate, {arm}", words.number(rate.value)),
            masked.verdict.show(
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
    return (_forest(masked), table)


def _forest(masked: MaskedPitch) -> Picture:
    compared = masked.sources.compared
    rows = [(each, *_ratio(masked, each)) for each in compared.comparisons]
    drawn = [
        ForestRow(
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
        f"less often. Not shown where a group has 1 to {masked.threshold - 1} injuries, or where "
        "such a count could be worked out.",
    )
    summary = PictureWords(
        "forest", title, about, "guarded / bare", "hurt less often", "hurt more often"
    )
    return Picture(title, about, forest(summary, drawn), table)


def _ratio(
    masked: MaskedPitch, found: Comparison
) -> tuple[float | None, float | None, float | None, str]:
    """Return ratio and limits as they are read, and the same in words."""
    if not masked.has_ratio(found) or (found.name == CRUDE and not masked.may("crude ratio")):
        return None, None, None, "too few injuries to publish"
    each = found.ratio
    if each.value is None and each.low is None and each.high is None:
        return None, None, None, "not known"
    note = f"{words.ratio(each.value)} ({words.interval(each.low, each.high)})"
    return ratio(each.value), ratio(each.low), ratio(each.high), note


def _followed(masked: MaskedPitch) -> tuple[Part, ...]:
    followed = masked.sources.followed
    if followed is None:
        return (Paragraph(_too_few(masked)),)
    arms = ((GUARDED, followed.guarded), (BARE, followed.unguarded))
    curves = [(arm, group, arm_points(group, followed, masked.threshold)) for arm, group in arms]
    if not all(points and masked.may(*curve_names(arm, points)) for arm, _, points in curves):
        return (Paragraph(_too_few(masked)),)
    mixed = (
        "The two groups are of different mixes of athletes, sports and parts of the season, as in "
        "the crude ratio; the same-session ratio above is the one that compares like with like."
    )
    return (_curves(masked, followed, curves), Paragraph(mixed, "Read with care:"))


def _too_few(masked: MaskedPitch) -> str:
    return (
        "Too few injuries to publish a curve: between two of its points, and in each group, "
        f"{masked.threshold} or more are needed, or none."
    )


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
        note=f"Only points are known between which {masked.threshold} or more were injured, or "
        "none, and at which as many were at risk; straight lines join them. Limits are left out: "
        "they would tell how many were injured between two points; those of the ratios stand "
        "above. A site is guarded or bare by what was worn at each step.",
    )
    until = int(max(points[-1].at for _, _, points in curves))
    summary = PictureWords("survival", title, about, ticks, counts="at risk")
    return Picture(title, about, survival(summary, drawn, until=until), table)
