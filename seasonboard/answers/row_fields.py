"""Fields that many tables of rows have: who it is about, where, and what."""

from collections.abc import Iterator
from typing import Any

import polars as pl

from seasonboard.answers.fields import Field, Privacy

_USUAL = (
    Field("athlete", "key of the athlete", heading="athlete", privacy=Privacy.KEY),
    Field("name", "of the athlete", heading="name", privacy=Privacy.NAME),
    Field("team", "key of the team", heading="team"),
    Field("department", "key of the department", heading="department"),
    Field("guard", "key of the guard", heading="guard", privacy=Privacy.KEY),
    Field("kind", "guard kind", heading="kind"),
    Field("side", "left, right, both or midline", heading="side"),
    Field("purpose", "preventive or return", heading="purpose"),
    Field("stage", "stage reached last", heading="stage"),
    Field("injury", "key of the injury", heading="injury", privacy=Privacy.KEY),
    Field("area", "body area", heading="area", optional=True),
    Field("session", "key of the session", heading="session"),
)
_BY_NAME = {field.name: field for field in _USUAL}


def usual(*names: str) -> tuple[Field, ...]:
    """Return the usual fields of these names."""
    return tuple(_BY_NAME[name] for name in names)


def frame_rows(frame: pl.DataFrame) -> Iterator[dict[str, Any]]:
    """Return the rows of a frame, from which fields take their cells."""
    return frame.iter_rows(named=True)
