"""`seasonboard backup`, `restore`, `verify` and `undo`: keep a store safe, and get it back."""

from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from seasonboard.cli.interrupted import told_when_stopped
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import named_store, store_option
from seasonboard.store_outcomes import ListedBackup, Replacement, UndoneLoad

ASIDE = ("about", "athletes", "changes", "load_tables")
"""Tables of the store's own keeping, which the short list of rows leaves out."""


@click.command()
@store_option
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="Where to; without it, FILE.backups beside the store.",
)
@click.option("--list", "is_list", is_flag=True, help="List the backups there are; make none.")
@click.pass_context
def backup(ctx: click.Context, store: Path | None, out: Path | None, *, is_list: bool) -> None:
    """Make a backup of a store, or list its backups.

    Before each load, each undo and each change of the store's form one is made by itself; of those
    the newest five are kept. One made by this command stays until you remove it. Each is read again
    as a whole before it counts.
    """
    tools: Tools = ctx.obj["tools"]
    target = named_store(ctx, store)
    if is_list:
        click.echo(list_text(target, tools.backups(target)), nl=False)
        return
    with told_when_stopped(f"{target} is as it was"):
        made = tools.backup(target, out)
    click.echo(f"Backed up to {made}.")


@click.command()
@click.argument("backup", required=False)
@store_option
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.pass_context
def restore(ctx: click.Context, backup: str | None, store: Path | None, *, yes: bool) -> None:
    """Put a backup in the place of a store.

    BACKUP is a number from “seasonboard backup --list” or a file; without it, the newest. Shows
    what would be replaced, then asks. What stands there now is kept: as a backup, or under another
    name if it can no longer be read.
    """
    tools: Tools = ctx.obj["tools"]
    target = named_store(ctx, store)

    def confirm(replaced: Replacement) -> bool:
        click.echo(restore_text(target, replaced), nl=False)
        return yes or click.confirm(f"Put this in the place of {target}?", default=False, err=True)

    with told_when_stopped(f"{target} is as it was"):
        kept = tools.restore(target, backup, confirm=confirm)
    if kept is None:
        click.echo("Nothing was changed.")
        return
    click.echo(f"Restored to {target}.")
    if kept.name != target.name:
        click.echo(f"What was there before is in {kept}.")


@click.command()
@store_option
@click.pass_context
def verify(ctx: click.Context, store: Path | None) -> None:
    """Read a store as a whole and say whether it is sound.

    Brings a store of an earlier version up to date, after a backup, and sets aside a log that
    cannot be read.
    """
    tools: Tools = ctx.obj["tools"]
    target = named_store(ctx, store)
    rows = tools.verify(target, tell=click.echo)
    wide = max(len(table) for table in rows)
    for table, count in rows.items():
        click.echo(f"{table:<{wide}} {count:>11,}")
    click.echo(f"{target} is sound: every row of every table was read.")


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


def list_text(store: Path, listed: Sequence[ListedBackup]) -> str:
    """Return the backups of a store as text: when, what caused each, rows by table."""
    if not listed:
        return f"There are no backups of {store}.\n"
    lines = []
    for one in listed:
        made = one.backup
        lines.append(f"{made.number:>4}  {made.made_at:%Y-%m-%d %H:%M:%S} UTC  {made.cause}")
        lines.append(f"      {one.why or rows_text(one.rows)}")
        lines.append(f"      {made.path}")
    return "\n".join(lines) + "\n"


def rows_text(rows: Mapping[str, int]) -> str:
    """Return rows by table in one line; empty tables and the store's own keeping left out."""
    shown = [f"{table} {n:,}" for table, n in rows.items() if n and table not in ASIDE]
    return ", ".join(shown) or "no rows"


def restore_text(store: Path, replaced: Replacement) -> str:
    """Return what a backup would replace, as a table of rows now and in the backup."""
    tables = [table for table in replaced.then if table != "about"]
    tables += [table for table in replaced.now if table not in replaced.then]
    wide = max(len(table) for table in tables)
    lines = [f"Backup: {replaced.sentence}.", f"{'rows of':<{wide}} {'now':>11} {'backup':>11}"]
    for table in tables:
        now, then = (
            f"{rows[table]:,}" if table in rows else "–" for rows in (replaced.now, replaced.then)
        )
        mark = "" if now == then else "  differs"
        lines.append(f"{table:<{wide}} {now:>11} {then:>11}{mark}")
    if replaced.why:
        lines.append(f"The rows there now cannot be counted. {replaced.why}")
    elif not replaced.now:
        lines.append(f"There is no store at {store} now.")
    return "\n".join(lines) + "\n"


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
    lines += [last.warning] if last.warning else []
    return "\n".join(lines) + "\n"
