"""One athlete's timeline described: every figure once, for text, JSON, CSV and pages."""

from dataclasses import replace

from seasonboard.answers.fields import Field, Kind, Privacy, Table, for_people, of
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.answers.roster.athlete import AthleteTimeline, TimelineEntry, What, now_lines
from seasonboard.answers.roster.athletes_table import ATHLETES


def _clock(entry: TimelineEntry) -> str:
    return f"{entry.at:%H:%M}" if entry.at else ""


TIMELINE = Table(
    "timeline",
    of("entries"),
    (
        Field("on", "its day", Kind.DAY, heading="day"),
        Field("at", "when; null: the day alone is known", Kind.INSTANT, optional=True),
        for_people("clock", "at", _clock),
        Field("what", "what kind of entry it is", heading="what"),
        Field("sentence", "the entry in words", heading="recorded"),
        Field(
            "item",
            "key of the session, guard, offer, injury or team",
            heading="key",
            privacy=Privacy.KEY,
        ),
        Field("word", "part, stage, answer, body area or season"),
        Field("reason", "reason recorded", optional=True),
        Field("kind", "setting, guard kind or kind of injury", optional=True),
        Field("side", "left, right, both or midline", optional=True),
        Field("label", "label or note", privacy=Privacy.FREE_TEXT, optional=True),
        Field("guards", "keys of the guards worn", heading="guards worn", privacy=Privacy.KEY),
        Field("days_lost", "days lost by the injury", Kind.COUNT, optional=True),
    ),
    "an entry, in order of time",
    reading=("on", "clock", "what", "sentence", "guards", "item"),
)

_GROUPS = ((What.INJURY, What.RETURN), (What.STAGE, What.OFFER), (What.JOINED, What.LEFT))


def _by_group(timeline: AthleteTimeline) -> list[TimelineEntry]:
    """Return injuries, then guards and offers, then rosters, then sessions, each latest first."""
    group = {what: nth for nth, many in enumerate(_GROUPS) for what in many}
    latest = reversed(timeline.entries)
    return sorted(latest, key=lambda entry: group.get(entry.what, len(_GROUPS)))


BY_GROUP = replace(TIMELINE, rows=_by_group)
"""The same as rows that open on a screen."""


def timeline_lines(timeline: AthleteTimeline) -> list[str]:
    """Return one or more lines an entry."""
    return [
        line
        for entry in timeline.entries
        for line in prose(
            f"{entry.on:%a} {entry.on.day:>2} {entry.on:%b}  {_clock(entry):<5}  {entry.sentence}",
            hang=" " * 19,
        )
    ]


REPORT = Report(
    (
        Field("athlete", "key of the athlete", privacy=Privacy.KEY),
        Field("name", "of the athlete", privacy=Privacy.NAME),
        Field("teams", "names of the teams"),
        Field("parts", "sessions by the part taken", Kind.COUNT),
        Field("guarded", "sessions with a guard worn", Kind.COUNT),
        Field("injuries", "injuries", Kind.COUNT),
        replace(
            ATHLETES, name="now", rows=of("now"), meaning="a team's roster line of the athlete"
        ),
        TIMELINE,
    ),
    csv=TIMELINE,
    text=(now_lines, timeline_lines),
)
