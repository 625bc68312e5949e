"""`seasonboard handout`: one document as a page, as print or as a workbook; a module each kind."""

from typing import ClassVar

import click

from seasonboard.cli.lazy_group import LazyGroup

KINDS = ("week", "pitch")


class Kinds(LazyGroup):
    """The kinds of documents, each in the module named after it."""

    topics: ClassVar = dict.fromkeys(KINDS, "documents")
    places: ClassVar = {kind: f"seasonboard.cli.handout_{kind}:handout_{kind}" for kind in KINDS}


@click.group(cls=Kinds)
def handout() -> None:
    """Make a document: a page, print or a workbook.

    .html, .pdf and .xlsx hold the same figures, those of `seasonboard ask`. Nothing is sent
    anywhere.
    """
