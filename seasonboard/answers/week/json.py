"""The Week answer as JSON for scripts: every row of every item."""

from dataclasses import asdict

from seasonboard.answers.json_parts import Json, summary_json
from seasonboard.answers.week.parts import WeekAnswer, WeekItem


def week_json(answer: WeekAnswer) -> Json:
    """Return the Week answer as one JSON object."""
    return {
        **summary_json(answer.summary, "week"),
        "since": answer.since.isoformat(),
        "through": answer.through.isoformat(),
        "days": [asdict(day) | {"day": day.day.isoformat()} for day in answer.days],
        "items": [_item(item) for item in answer.items],
    }


def _item(item: WeekItem) -> Json:
    names = [column.name for column in item.columns]
    return {
        "item": item.key,
        "title": item.title,
        "sentence": item.sentence,
        "ahead": item.is_ahead,
        "rows": [dict(zip(names, row, strict=True)) for row in item.rows],
    }
