"""The Remakes answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import control_limits, estimate, interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.layout import prose
from seasonboard.answers.layout import table as text_table
from seasonboard.answers.remakes import words as remake_words
from seasonboard.answers.remakes.groups import Reading
from seasonboard.answers.remakes.parts import RemakeMonth, RemakesAnswer
from seasonboard.answers.report import Report, table_text


def by_words(answer: RemakesAnswer) -> str:
    """Return what the groups are."""
    return answer.options.by.value.replace("-", " ")


def window_words(answer: RemakesAnswer) -> str:
    """Return the days after fitting that are looked at: `in 30 d`."""
    return f"in {answer.options.window} d"


_SAID = {Reading.TOO_FEW, Reading.ABOVE, Reading.BELOW}
"""What people read of how a group stands to its control limits."""

_SHARE = Field("share", "share of them remade", Kind.SHARE, get=of("value"), heading="share")

REASONS = Table.described(
    "reasons",
    "a reason, the most frequent first",
    Field("reason", "why they were asked for anew", heading="reason"),
    Field("counts_as", "remake, replacement, or neither", heading="counts as"),
    Field("count", "fitted guards", Kind.COUNT, heading="guards"),
    Field("share", "of all fitted ones asked for anew", Kind.SHARE, heading="share"),
    Field(
        "before_fitting",
        "guards that were never fitted; in no share",
        Kind.COUNT,
        heading="before fitting",
        when=lambda answer: any(reason.before_fitting for reason in answer.reasons),
    ),
    reading=("reason", "count", "share", "before_fitting", "counts_as"),
)

WITHIN = replace(
    estimate(
        *("within", of("within"), "share remade within the window; its key is within_30_days"),
        kind=Kind.SHARE,
        key="share",
        heading=window_words,
        more=(Field("days", "days of the window", Kind.COUNT),),
    ),
    json_name=lambda within: f"within_{within.days}_days",
)

WORN = Group.described(
    "per_100_worn",
    lambda group: group,
    "remakes per 100 sessions worn, all remakes of a guard counted",
    Field("value", "remakes per 100 sessions worn", Kind.HUNDREDTHS, get=of("per_100_worn")),
    *control_limits(of("worn_control_limits"), Kind.HUNDREDTHS, "such a rate"),
    why(
        lambda group: (
            "no session worn is recorded"
            if group.per_100_worn is None
            else group.worn_control_limits.why
        )
    ),
)


def _share_limits(of_what: str) -> tuple[Element, ...]:
    """Describe control limits of a share: as figures, and in one cell."""
    return (
        *control_limits(of("control_limits"), Kind.SHARE, of_what),
        for_people(
            *("control_limits", "control limits"),
            lambda row: words.share_interval(row.control_limits),
        ),
    )


GROUPS = Table.described(
    "groups",
    "a group of fitted guards; those outside their control limits first",
    Field("group", "name of the group", heading=by_words),
    Field("fitted", "fitted guards", Kind.COUNT, heading="fitted"),
    Field("remakes", "of them remade", Kind.COUNT, heading="remade"),
    Field("replacements", "of them replaced", Kind.COUNT, heading="replaced"),
    Field("reason_not_recorded", "asked for anew without a reason", Kind.COUNT),
    Group("", of("share"), (_SHARE, *interval(Kind.SHARE))),
    for_people(
        "share_with_interval", "share", lambda group: remake_words.share_with_interval(group.share)
    ),
    WITHIN,
    for_people(
        *("within_interval", lambda answer: words.interval_words(answer.summary.scope)),
        *(lambda group: words.share_interval(group.within), Kind.SHARE),
    ),
    *_share_limits("the share of a group of its size"),
    Field(
        "reading",
        "how it stands to them",
        heading="",
        show=lambda group: group.reading.value if group.reading in _SAID else "",
    ),
    Field("sessions_worn", "sessions worn in", Kind.COUNT),
    WORN,
    REASONS,
    why(lambda group: group.share.why or group.control_limits.why, in_csv=True),
    reading=(
        *("group", "fitted", "remakes", "share_with_interval", "within.share", "control_limits"),
        *("replacements", "reading"),
    ),
)
SHOWN_GROUPS = replace(GROUPS, rows=of("shown_groups"))
"""The groups, then all guards together: CSV, and what people read."""


def outside_words(month: RemakeMonth) -> str:
    """Return that a month lies outside its control limits; nothing where it does not."""
    return "outside its control limits" if month.control_limits.is_outside else ""


MONTHS = Table.described(
    "months",
    "a month, by the guards fitted in it",
    Field(
        "month",
        "first day of the month of fitting",
        Kind.DAY,
        heading="fitted in",
        show=lambda month: f"{month.month:%b %Y}",
    ),
    Field("fitted", "guards known for the whole window", Kind.COUNT, heading="guards"),
    Field("remakes", "of them remade within it", Kind.COUNT, heading=window_words),
    Field("share", "share of them", Kind.SHARE),
    *_share_limits("the share of a month of its size"),
    for_people("outside", "", outside_words),
    why(of("control_limits.why")),
)


ASKED = Table.described(
    "asked",
    "a whole month, by the remakes asked for in it",
    Field("month", "its first day", Kind.DAY),
    Field("remakes", "remakes asked for", Kind.COUNT),
    *control_limits(of("control_limits"), Kind.HUNDREDTHS, "such a count"),
    why(of("control_limits.why")),
)


def _share_of_firsts(name: str, meaning: str) -> Group:
    counts = (
        Field("successes", "of them asked for anew", Kind.COUNT),
        Field("trials", "first guards", Kind.COUNT),
    )
    return estimate(name, of(name), meaning, kind=Kind.SHARE, key="share", more=counts)


CHAINS = Group.described(
    "chains",
    of("chains"),
    "guards followed to the first of their chain",
    Field("firsts", "first guards", Kind.COUNT),
    _share_of_firsts(
        "remade_or_replaced", "share of them asked for anew at least once, whatever the reason"
    ),
    _share_of_firsts("remade_or_replaced_exact", "the same with an exact confidence interval"),
    _share_of_firsts("remade_or_replaced_within", "share asked for anew within the window"),
    Field("units", "guards asked for in their place", Kind.COUNT),
    Field("longest", "guards of the longest chain", Kind.COUNT),
    Field("days_to_stay", "median days to the fitting of the last guard", Kind.DURATION),
    Field("chains_fitted", "chains whose last is fitted", Kind.COUNT),
    why(lambda chains: "no chain has its last guard fitted" if chains.days_to_stay is None else ""),
)


def group_reason_lines(answer: RemakesAnswer) -> list[str]:
    """Return how often each reason was recorded in each group, one line a group."""
    if not answer.options.group_reasons or not answer.reasons:
        return []
    names = [reason.reason for reason in answer.reasons if reason.count]
    rows = []
    for group in answer.groups:
        counts = {reason.reason: reason.count for reason in group.reasons}
        rows.append((group.group, *(words.whole(counts.get(name, 0)) for name in names), ""))
    return text_table((by_words(answer), *names, ""), rows)


def _group_lines(answer: RemakesAnswer) -> list[str]:
    if not answer.whole.fitted:
        return []
    rates = (*prose(remake_words.within_line(answer)), *prose(remake_words.worn_line(answer)))
    return [*table_text(SHOWN_GROUPS, answer), "", *rates]


def _further_lines(answer: RemakesAnswer) -> list[str]:
    if not answer.whole.fitted and not answer.reasons:
        return []
    further = (
        remake_words.asked_line,
        remake_words.chains_line,
        remake_words.life_line,
        remake_words.bare_line,
    )
    return [line for sentence in further for line in prose(sentence(answer))]


REPORT = Report(
    (
        Field("by", "what the groups are", get=of("options.by")),
        Field("window", "days after fitting looked at", Kind.COUNT, get=of("options.window")),
        Group("all", of("whole"), GROUPS.elements, "all guards together, as a group"),
        GROUPS,
        REASONS,
        MONTHS,
        ASKED,
        CHAINS,
        estimate(
            *("life", of("life"), "median of sessions worn until retired or asked for anew"),
            kind=Kind.DURATION,
            more=(Field("unit", "what it is counted in", get=lambda _: "sessions worn"),),
        ),
        Field("guards_in_use", "guards still in use", Kind.COUNT),
        Field(
            "bare_exposures_waiting",
            "sessions played bare while waiting",
            Kind.COUNT,
            get=of("bare_exposures"),
        ),
        Field("waits", "waits for a guard asked for anew", Kind.COUNT),
    ),
    csv=SHOWN_GROUPS,
    text=(_group_lines, REASONS, group_reason_lines, MONTHS, _further_lines),
)
