"""`seasonboard load`: plan, confirm, write."""

from collections.abc import Sequence
from pathlib import Path

import click

from seasonboard.cli.tools import Planned, Tools
from seasonboard.errors import StoreError

MOST_NOTES = 20
"""Notes printed before the rest is only counted."""


@click.command()
@click.argument("paths", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--store",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="The store to load into; made when there is none.",
)
@click.option("--plan", "plan_only", is_flag=True, help="Show what would be done, write nothing.")
@click.option("--yes", is_flag=True, help="Do not ask before writing.")
@click.pass_context
def load(
    ctx: click.Context, paths: Sequence[Path], store: Path | None, *, plan_only: bool, yes: bool
) -> None:
    """Load a season's tables: a folder of CSV files, or the files themselves.

    Files are named after their tables (attendance.csv). Everything is checked first; if a row is
    wrong, nothing is written and every reason is told. The same file twice changes nothing.
    """
    tools: Tools = ctx.obj["tools"]
    target = store or ctx.obj["store"] or tools.last_store()
    if target is None:
        raise StoreError("No store was named.", "Name one with --store FILE; it is made if new.")

    def confirm(plan: Planned) -> bool:
        click.echo(plan_text(plan), nl=False)
        if plan_only or not any(table.new or table.changed for table in plan.tables):
            return False
        return yes or click.confirm(f"Write this to {target}?", default=True, err=True)

    if tools.load(target, paths, confirm):
        tools.remember_store(target)
        click.echo(f"Written to {target}.")
    else:
        click.echo("Nothing was written.")


def plan_text(plan: Planned) -> str:
    """Return a plan as a table, with what is doubtful below it."""
    wide = max((len(table.table) for table in plan.tables), default=5)
    lines = [f"{'table':<{wide}} {'new':>9} {'changed':>9} {'same':>9}  file"]
    lines += [
        f"{t.table:<{wide}} {t.new:>9,} {t.changed:>9,} {t.same:>9,}  {t.file}" for t in plan.tables
    ]
    if plan.notes:
        lines.append(f"Kept, but worth a look ({len(plan.notes):,}):")
        lines += [f"  {note.sentence()}" for note in plan.notes[:MOST_NOTES]]
        if len(plan.notes) > MOST_NOTES:
            lines.append(f"  and {len(plan.notes) - MOST_NOTES:,} more.")
    return "\n".join(lines) + "\n"
