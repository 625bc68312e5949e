"""`seasonboard handout`: one document as a page, as print or as a workbook; a command each kind."""

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import click

from seasonboard.cli.answer_command import (
    CURTAIN,
    read_options,
    scope_options,
    scope_typed,
    with_options_of,
)
from seasonboard.cli.lazy_group import MORE, NearestGroup
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import board_of, named_store, store_options
from seasonboard.documents.kinds import (
    DOCUMENTS,
    DocumentKind,
    DocumentRequest,
    write_document,
)
from seasonboard.errors import SeasonboardError
from seasonboard.scope import read_scope

OUT = click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="The file: .html, .pdf or .xlsx. Without it, a page in this folder, named after kind, "
    "department and date.",
)
PAPER = click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="The paper it is printed on.",
)
FORCE = click.option("--force", is_flag=True, help="Replace a file that is there.")
GUARD_KIND = click.option(
    "--kind", help="The kind of guard, as in the release; else that with the most orders."
)


YES = click.option("--yes", is_flag=True, help="Save it also where a main part lacks something.")
SHOW = click.option("--show", is_flag=True, help="Print it here as text, and write nothing.")
TEMPLATE = click.option("--template", is_flag=True, help="Print a file for --offer to fill in.")


class DocumentKinds(NearestGroup):
    """The kinds of documents; what makes one is loaded when it is made."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click calls it
        """Return the names of the kinds."""
        return [document.kind for document in DOCUMENTS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return the command of a kind; None where there is none of that name."""
        return next((document_command(one) for one in DOCUMENTS if one.kind == cmd_name), None)


@click.group(cls=DocumentKinds)
def handout() -> None:
    """Make a document: a page, print or a workbook.

    .html, .pdf and .xlsx hold the same figures, those of `seasonboard ask`. Nothing is sent
    anywhere.
    """


def document_command(kind: DocumentKind) -> click.Command:
    """Return the command that makes a document.

    It takes the store, the options of the question of its kind, `--out`, `--paper` and `--force`;
    one of insiders' records every part of the scope and `--curtain`, one that quotes a release the
    kind of guard alone. A place that cannot be written to is told before anything is asked.
    """

    def write(  # noqa: PLR0913 - click hands over each option
        store: Path | None,
        *,
        use_sample: bool,
        out: Path | None,
        paper: str,
        force: bool,
        curtain: bool = False,
        yes: bool = False,
        show: bool = False,
        template: bool = False,
        **typed: Any,  # noqa: ANN401 - as click hands the other options over
    ) -> None:
        context = click.get_current_context()
        if template:
            from seasonboard.documents.proposal.options import offer_template

            click.echo(offer_template(), nl=False)
            return
        if out is not None:
            from seasonboard.documents.destination import read_destination

            read_destination(out, "", may_replace=force)
        parts = _kind_typed(typed) if kind.quotes_release else scope_typed(typed)
        with board_of(context, store, use_sample=use_sample) as board:
            if not kind.quotes_release:
                board.cover(is_down=curtain or context.obj["curtain"])
            scope = read_scope(parts, board.scope_values)
            today = date.today()  # noqa: DTZ011 - the day on the clock of who makes it
            options = read_options(kind.options(), typed)
            request = DocumentRequest(kind, board, scope, options, today, paper)
            path = partial(_store_path, context, store, use_sample=use_sample)
            if show:
                _show(request)
            else:
                _save(request, out, path, may_replace=force, yes=yes)

    command: Any = with_options_of(kind.options(), write)
    more: tuple[Any, ...] = (GUARD_KIND, SHOW, TEMPLATE) if kind.quotes_release else (CURTAIN,)
    more += (YES,) if kind.is_for_outsiders else ()
    for option in (*more, OUT, PAPER, FORCE)[::-1]:
        command = option(command)
    command = store_options(command if kind.quotes_release else scope_options(command))
    brief, epilog = kind.about.partition("\n")[0], f"{MORE}documents"
    return click.command(kind.kind, help=kind.about, short_help=brief, epilog=epilog)(command)


def _show(request: DocumentRequest) -> None:
    from seasonboard.documents.writers.text import as_lines

    click.echo("\n".join(as_lines(request.document())))


def _save(
    request: DocumentRequest,
    out: Path | None,
    store: Callable[[], Path],
    *,
    may_replace: bool,
    yes: bool,
) -> None:
    from seasonboard.documents.destination import read_destination

    proposed = request.kind.file_name(request.source, request.scope)
    destination = read_destination(out, proposed, may_replace=may_replace)
    agree = partial(_agree, yes=yes)
    lines = write_document(request, destination, store=store, agree=agree)
    click.echo(f"Written to {destination.path}.")
    for line in lines:
        click.echo(line, err=True)


def _agree(hollow: tuple[str, ...], *, yes: bool) -> None:
    """Say what the document lacks, and ask whether it is to be saved so.

    Raises:
        SeasonboardError: It is not.
    """
    for line in hollow:
        click.echo(line, err=True)
    if not (yes or click.confirm("Save it so?", default=False, err=True)):
        raise SeasonboardError("Nothing was written.", "Give what it lacks, or say --yes.")


def _kind_typed(typed: dict[str, Any]) -> dict[str, str]:
    kind = typed.pop("kind")
    return {} if kind is None else {"kind": kind}


def _store_path(context: click.Context, store: Path | None, *, use_sample: bool) -> Path:
    tools: Tools = context.obj["tools"]
    if use_sample or context.obj["sample"]:
        return tools.sample_path()
    return named_store(context, store)
