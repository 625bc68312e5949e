"""A document as lines of text, for a terminal."""

from collections.abc import Iterator

from seasonboard.answers.layout import prose, table
from seasonboard.documents.model import (
    Document,
    Paragraph,
    Part,
    Picture,
    Points,
    Room,
    Section,
    written,
)


def as_lines(document: Document, pages: int | None = None) -> list[str]:
    """Return what a document says, its pictures as their tables; the first `pages`, or all."""
    lines = [document.title, document.of, "", *prose(document.lead), *prose(document.notice)]
    for section in _sections(document, pages):
        lines += ["", section.heading.upper()]
        for part in section.parts:
            lines += _part(part)
    for heading, points in document.ends() if pages is None else ():
        lines += ["", heading.upper(), *_points(points)]
    return lines


def _sections(document: Document, pages: int | None) -> Iterator[Section]:
    page = 1
    for section in document.sections:
        page += section.starts_page
        if pages is not None and page > pages:
            return
        yield section


def _points(points: tuple[str, ...]) -> list[str]:
    return [line for point in points for line in prose(f"* {point}", hang="  ")]


def _part(part: Part) -> list[str]:
    if isinstance(part, Paragraph):
        return prose(f"{part.opening} {part.text}".strip())
    if isinstance(part, Points):
        return _points(part.points)
    if isinstance(part, Room):
        return [part.heading]
    shown = part.table if isinstance(part, Picture) else part
    cells = [
        [written(cell, column.form) for cell, column in zip(row, shown.columns, strict=True)]
        for row in shown.rows
    ]
    heads = [column.heading for column in shown.columns]
    note = prose(shown.note) if shown.note else []
    return ["", *prose(f"{shown.caption} {shown.lead}".strip()), *table(heads, cells), *note]
