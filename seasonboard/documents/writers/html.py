"""A document as one page of HTML that needs nothing from elsewhere and runs nothing."""

import base64
import hashlib
from collections.abc import Iterable, Mapping
from html import escape
from pathlib import Path

from seasonboard.documents.model import (
    Document,
    Paragraph,
    Part,
    Picture,
    Points,
    Room,
    Section,
    Table,
    written,
)
from seasonboard.saving.text import harmless


def as_html(document: Document, paper: str = "") -> bytes:
    """Return a document as a page in UTF-8, for `a4`, `letter`, or what the reader's printer holds.

    It holds its style and pictures, no script, and tells the reader's program to fetch nothing.
    """
    foot = f"{document.title} · {document.of}"
    foot = foot if len(foot) <= _FOOT else document.title
    style = page_style().replace("FOOT", _css(foot))
    if paper:
        style += f"@page {{ size: {paper}; }}\n"
    mark = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    rules = f"default-src 'none'; style-src 'sha256-{mark}'; base-uri 'none'; form-action 'none'"
    tight = ' class="tight"' if document.is_tight else ""
    body = [
        "<header>",
        f"<h1>{_text(document.title)}</h1>",
        f'<p class="of">{_text(document.of)}</p>',
        f'<p class="lead">{_text(document.lead)}</p>',
        f'<p class="notice">{_text(document.notice)}</p>',
        "</header>",
        "<main>",
        *(line for n, section in enumerate(document.sections) for line in _section(section, n)),
        "</main>",
        *_footer(document),
    ]
    head = [
        "<!DOCTYPE html>",
        f'<html lang="en"{tight}>',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{rules}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">',
        f"<title>{_text(document.title)} · {_text(document.of)}</title>",
        f"<style>{style}</style>",
        "</head>",
        "<body>",
    ]
    return ("\n".join([*head, *body, "</body>", "</html>"]) + "\n").encode()


def page_style() -> str:
    """Return how a page looks, on a screen, on a phone and on paper; its foot is still `FOOT`."""
    return "\n" + Path(__file__).with_name("page.css").read_text("utf-8")


def _text(text: str) -> str:
    return escape(harmless(text))


def _css(text: str) -> str:
    """Return text as a string of a style sheet: all but plain letters and figures by numbers."""
    kept = (c if c.isalnum() and c.isascii() else f"\\{ord(c):06x}" for c in harmless(text))
    return f'"{"".join(kept)}"'


def _section(section: Section, number: int) -> Iterable[str]:
    page = ' class="page"' if section.starts_page else ""
    yield f"<h2{page}>{_text(section.heading)}</h2>"
    for n, part in enumerate(section.parts):
        yield from _part(part, f"t{number}-{n}")


def _part(part: Part, name: str) -> Iterable[str]:
    if isinstance(part, Paragraph):
        opening = f"<strong>{_text(part.opening)}</strong> " if part.opening else ""
        yield f"<p>{opening}{_text(part.text)}</p>"
    elif isinstance(part, Points):
        yield from _list(part.points)
    elif isinstance(part, Table):
        yield from _table(part, name)
    elif isinstance(part, Room):
        yield f'<div class="room"><p>{_text(part.heading)}</p>{"<div></div>" * part.lines}</div>'
    else:
        yield from _picture(part, name)


def _picture(picture: Picture, name: str) -> Iterable[str]:
    yield "<figure>"
    yield f'<figcaption id="{name}-picture">{_text(picture.title)}</figcaption>'
    yield f'<div class="over" tabindex="0" role="group" aria-labelledby="{name}-picture">'
    yield picture.svg
    yield "</div>"
    yield "</figure>"
    yield from _table(picture.table, name)


def _table(table: Table, name: str) -> Iterable[str]:
    short = " s" if len(table.rows) <= _SHORT else ""
    short += " c" if is_narrow(table) else ""
    yield f'<div class="over{short}" tabindex="0" role="group" aria-labelledby="{name}">'
    yield from _lines(table, name, roles=_ROLES if is_unfolded(table) else {})
    yield "</div>"
    if table.note:
        yield f'<p class="note">{_text(table.note)}</p>'


def _lines(table: Table, name: str, *, roles: Mapping[str, str]) -> Iterable[str]:
    row_, cell_ = roles.get("tr", ""), roles.get("td", "")
    lead = f" <span>{_text(table.lead)}</span>" if table.lead else ""
    yield f"<table{roles.get('table', '')}>"
    yield f'<caption id="{name}"><div>{_text(table.caption)}{lead}</div></caption>'
    heads = [_text(column.heading) for column in table.columns]
    named = [f' data-h="{head}"' if cell_ else "" for head in heads]
    cells = (
        f'<th scope="col"{roles.get("th", "")}{_kind(table, place)}>{head}</th>'
        for place, head in enumerate(heads)
    )
    group = roles.get("group", "")
    yield f"<thead{group}><tr{row_}>{''.join(cells)}</tr></thead>"
    yield f"<tbody{group}>"
    for row in table.rows:
        pairs = zip(row, table.columns, strict=True)
        told = [_text(written(cell, column.form)) for cell, column in pairs]
        first = f'<th scope="row"{roles.get("row", "")}{_kind(table, 0)}>{told[0]}</th>'
        rest = (
            f"<td{cell_}{_kind(table, n)}{named[n]}>{text}</td>"
            for n, text in enumerate(told[1:], 1)
        )
        yield f"<tr{row_}>{first}{''.join(rest)}</tr>"
    yield "</tbody>"
    yield "</table>"


_FOOT = 90
"""Letters that the foot of a printed page has room for."""

_SHORT = 8
"""Rows of a table that is not parted between two sheets of paper."""

_SHORT_CELL = 28
"""Letters of a cell that needs no share of the width."""

_FEW = 5
"""Columns of text that a phone has room for, if one moves them sideways."""

_ROLES = {
    "table": ' class="u" role="table"',
    "group": ' role="rowgroup"',
    "tr": ' role="row"',
    "th": ' role="columnheader"',
    "row": ' role="rowheader"',
    "td": ' role="cell"',
}
"""Said aloud where a phone shows rows unfolded: what is laid out otherwise loses its own roles."""


def is_narrow(table: Table) -> bool:
    """Say whether a table is a few columns of short cells, which are not to be drawn apart."""
    cells = (cell for row in table.rows for cell in row if isinstance(cell, str))
    return len(table.columns) < _FEW and all(len(cell) <= _SHORT_CELL for cell in cells)


def is_unfolded(table: Table) -> bool:
    """Say whether a phone shows each row as lines of its own: of many columns half are text."""
    text = [column for column in table.columns if not column.is_number]
    return len(table.columns) >= _FEW and 2 * len(text) >= len(table.columns)


def _kind(table: Table, place: int) -> str:
    if place == table.marks:
        return ' class="m"'
    return ' class="n"' if table.columns[place].is_number else ""


def _list(points: Iterable[str]) -> Iterable[str]:
    yield "<ul>"
    yield from (f"<li>{_text(point)}</li>" for point in points)
    yield "</ul>"


def _footer(document: Document) -> Iterable[str]:
    yield "<footer>"
    for heading, points in document.ends():
        yield f"<h2>{_text(heading)}</h2>"
        yield from _list(points)
    yield "<h2>Where this comes from</h2>"
    yield "<dl>"
    for heading, text in document.facts.lines():
        yield f"<dt>{_text(heading)}</dt><dd>{_text(text)}</dd>"
    yield "</dl>"
    yield "</footer>"
