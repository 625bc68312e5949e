"""`seasonboard undo`: show the last load, confirm, take it back."""

from pathlib import Path

import click

from seasonboard.cli.interrupted import told_when_stopped
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import named_store, store_option
from seasonboard.store_outcomes import UndoneLoad


@click.command()
@store_option
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.option("--no-backup", is_flag=True, help="Do not back the store up first.")
@click.pass_context
def undo(ctx: click.Context, store: Path | None, *, yes: bool, no_backup: bool) -> None:
    """Take the last load back: its new rows go, its changed cells get their old values.

    Refused, with the reason, when something that came later depends on it.
    """
    tools: Tools = ctx.obj["tools"]
    target = named_store(ctx, store)

    def confirm(last: UndoneLoad) -> bool:
        click.echo(undo_text(last), nl=False)
        return yes or click.confirm(f"Take this back from {target}?", default=False, err=True)

    with told_when_stopped(f"{target} is as it was"):
        done = tools.undo(target, confirm=confirm, tell=click.echo, backup=not no_backup)
    if done:
        click.echo(f"Taken back from {target}.")
    else:
        click.echo("Nothing was changed.")


def undo_text(last: UndoneLoad) -> str:
    """Return a load as a table of what would be taken back."""
    wide = max((len(table) for table, *_ in last.tables), default=5)
    cells = "1 cell gets" if last.cells == 1 else f"{last.cells:,} cells get"
    lines = [
        f"Load {last.load_no} of {last.loaded_at:%Y-%m-%d %H:%M} UTC; {cells} the old value again.",
        f"{'table':<{wide}} {'new rows go':>12} {'changed back':>13}  file",
    ]
    lines += [
        f"{table:<{wide}} {new:>12,} {changed:>13,}  {file}"
        for table, file, new, changed in last.tables
    ]
    return "\n".join(lines) + "\n"
