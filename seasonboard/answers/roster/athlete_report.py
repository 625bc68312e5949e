"""One athlete's timeline described: every figure once, for text, JSON, CSV and pages."""

from dataclasses import replace

from seasonboard.answers.fields import Field, Kind, Privacy, Table, for_people, of
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.answers.roster.athlete import AthleteTimeline, TimelineEntry


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

LATEST_FIRST = replace(TIMELINE, rows=lambda timeline: reversed(timeline.entries))
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
        TIMELINE,
    ),
    csv=TIMELINE,
    text=(timeline_lines,),
)
