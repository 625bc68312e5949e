"""`seasonboard evidence`: what Compare and Games rest on, for somebody who checks them."""

from pathlib import Path
from typing import Any

import click

from seasonboard.cli.answer_command import scope_options, scope_typed
from seasonboard.cli.store_options import board_of, store_options
from seasonboard.scope import read_scope


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@store_options
@scope_options
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.option("--force", is_flag=True, help="Replace earlier evidence in FOLDER.")
@click.pass_context
def evidence(  # noqa: PLR0913 - click hands over each option
    ctx: click.Context,
    /,
    folder: Path,
    store: Path | None,
    *,
    use_sample: bool,
    yes: bool,
    force: bool,
    **typed: Any,  # noqa: ANN401 - as click hands the parts of the scope over
) -> None:
    """Write what Compare and Games rest on into FOLDER, for a reviewer to check.

    Tables with a code in place of each athlete, what their columns mean, what a report must say,
    and scripts in Python and R that make the figures again. It is personal data all the same.
    """
    from seasonboard.answers.evidence.tables import gather_evidence
    from seasonboard.documents.evidence.folder import refuse_taken, write_evidence

    if not force:
        refuse_taken(folder)
    parts = scope_typed(typed)
    with board_of(ctx, store, use_sample=use_sample) as board:
        gathered = gather_evidence(board, read_scope(parts, board.scope_values))
    click.echo(
        f"{gathered.rows:,} rows. Athletes are codes, but who knows the season can tell people by "
        "team, position and injury: keep the folder as a record of health."
    )
    if gathered.why_no_games:
        click.echo(f"Without games before an injury: {gathered.why_no_games}")
    if not (yes or click.confirm(f"Write this into {folder}?", err=True)):
        raise click.Abort
    for path in write_evidence(gathered, folder, may_replace=force):
        click.echo(f"  {path.name}")
    click.echo(f"Written to {folder}.")
