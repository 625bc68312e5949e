"""`seasonboard handout`: one document as a page, as print or as a workbook; a command each kind."""

import click

from seasonboard.cli.lazy_group import NearestGroup
from seasonboard.documents.kinds import DOCUMENTS


class DocumentKinds(NearestGroup):
    """The kinds of documents; what makes one is loaded when it is made."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click calls it
        """Return the names of the kinds."""
        return [document.kind for document in DOCUMENTS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return the command of a kind; None where there is none of that name."""
        from seasonboard.cli.document_command import document_command

        for document in DOCUMENTS:
            if document.kind == cmd_name:
                return document_command(document)
        return None


@click.group(cls=DocumentKinds)
def handout() -> None:
    """Make a document: a page, print or a workbook.

    .html, .pdf and .xlsx hold the same figures, those of `seasonboard ask`. Nothing is sent
    anywhere.
    """
