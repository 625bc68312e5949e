"""One athlete's timeline as text, CSV and JSON."""

from dataclasses import asdict

from seasonboard.answers.json_parts import Json, summary_json
from seasonboard.answers.layout import as_csv, page, prose
from seasonboard.answers.roster.athlete import AthleteTimeline, TimelineEntry


def athlete_text(timeline: AthleteTimeline) -> str:
    """Return the timeline as lines of text, one or more an entry."""
    return page(timeline.summary, [line for entry in timeline.entries for line in _lines(entry)])


def athlete_csv(timeline: AthleteTimeline) -> str:
    """Return one row per entry as CSV."""
    heads = (
        "on", "at", "what", "item", "word", "reason", "kind", "side", "label", "guards",
        "days_lost",
    )  # fmt: skip
    rows = [
        (
            entry.on.isoformat(),
            entry.at.isoformat() if entry.at else None,
            entry.what.value,
            entry.item,
            entry.word,
            entry.reason,
            entry.kind,
            entry.side,
            entry.label,
            " ".join(entry.guards),
            entry.days_lost,
        )
        for entry in timeline.entries
    ]
    return as_csv(heads, rows)


def athlete_json(timeline: AthleteTimeline) -> Json:
    """Return the timeline as one JSON object."""
    return {
        **summary_json(timeline.summary, "roster"),
        "athlete": timeline.athlete,
        "name": timeline.name,
        "teams": list(timeline.teams),
        "parts": dict(timeline.parts),
        "guarded": timeline.guarded,
        "injuries": timeline.injuries,
        "timeline": [
            {
                **asdict(entry),
                "on": entry.on.isoformat(),
                "at": entry.at.isoformat() if entry.at else None,
                "what": entry.what.value,
                "guards": list(entry.guards),
            }
            for entry in timeline.entries
        ],
    }


def _lines(entry: TimelineEntry) -> list[str]:
    when = f"{entry.on:%a} {entry.on.day:>2} {entry.on:%b}"
    clock = f"{entry.at:%H:%M}" if entry.at else ""
    return prose(f"{when}  {clock:<5}  {entry.told}", hang=" " * 19)


class _Report:
    def output(self, answer, question):  # noqa
        import json
        from functools import partial

        from seasonboard.answers.output import Output

        return Output(
            partial(athlete_text, answer),
            lambda: (
                json.dumps(athlete_json(answer), allow_nan=False, ensure_ascii=False, indent=1)
                + "\n"
            ),
            partial(athlete_csv, answer),
        )


REPORT = _Report()
