"""`seasonboard load`: propose, plan, confirm, write."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import click

from seasonboard.cli.interrupted import told_when_stopped
from seasonboard.cli.progress import ProgressLine
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import named_store
from seasonboard.errors import Problem
from seasonboard.load_dialog import CellChange, PlanSummary
from seasonboard.load_options import LoadOptions

MOST_NOTES = 60
"""Notes printed before the rest is only counted."""

MOST_CHANGED = 30
"""Changed cells printed before the rest is only counted."""

MOST_REJECTED = 20
"""Rejected rows printed before the rest is only counted; all are in the files of them."""


@dataclass(slots=True)
class TerminalDialog:
    """Shows what a load would do on the terminal, and asks there; `plan` is what was shown."""

    target: Path
    options: LoadOptions
    yes: bool
    plan: PlanSummary | None = None
    line: ProgressLine = field(default_factory=ProgressLine)

    def progress(self, step: str) -> None:
        """Show what is being done on a line that goes again."""
        self.line.show(step)

    def tell(self, sentence: str) -> None:
        """Say what was done beside the store."""
        self.line.clear()
        click.echo(sentence)

    def accept_mapping(self, proposal: str) -> bool:
        """Show a mapping without open questions and ask whether it is right."""
        self.tell(proposal)
        if self.yes or not self.options.write:
            return True
        return click.confirm("Read the files so?", default=True, err=True)

    def confirm(self, plan: PlanSummary) -> bool:
        """Show the plan and ask whether it is to be written."""
        self.line.clear()
        click.echo(plan_text(plan), nl=False)
        self.plan = plan
        if not self.options.write or not plan.is_worth_writing:
            return False
        asked = f"Write this to {self.target}?"
        if not (self.yes or click.confirm(asked, default=plan.is_plain, err=True)):
            return False
        self.progress("writing")
        return True


def _pairs(_: click.Context, option: click.Parameter, given: Sequence[str]) -> dict[str, str]:
    """Part COLUMN=VALUE."""
    pairs = dict(one.partition("=")[::2] for one in given)
    for one in given:
        if "=" not in one:
            raise click.BadParameter(f"“{one}” is not COLUMN=…, such as season=2026.", param=option)
    return pairs


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
@click.option(
    "--dates",
    type=click.Choice(["dmy", "mdy", "ymd"]),
    help="How dates are written that can be read in two ways.",
)
@click.option(
    "--decimal",
    type=click.Choice(["comma", "point"]),
    help="What a lone comma or point before three digits is.",
)
@click.option("--mapping", metavar="NAME", help="Read with this mapping, or name a new one so.")
@click.option(
    "--column",
    "columns",
    multiple=True,
    callback=_pairs,
    metavar="COLUMN=HEADING",
    help="For a mapping, new or kept: which heading a column has (two joined: 'Date + Time').",
)
@click.option(
    "--value",
    "constants",
    multiple=True,
    callback=_pairs,
    metavar="COLUMN=VALUE",
    help="For a mapping, new or kept: one value for all rows.",
)
@click.option(
    "--leave-out",
    multiple=True,
    metavar="NAME",
    help="For a mapping, new or kept: a sheet or a heading that is not read.",
)
@click.option("--keep-good", is_flag=True, help="Write good rows, keep the others in files.")
@click.option(
    "--rejects",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="FOLDER",
    help="Where the rejected rows go; without it, beside the store.",
)
@click.option(
    "--accept-likely",
    is_flag=True,
    help="Take keys that match without leading zeros, and athletes of nearly the name.",
)
@click.option(
    "--wear-complete",
    is_flag=True,
    help="Mark the sessions of attendance and wear: all that was worn in them is recorded.",
)
@click.option(
    "--no-backup",
    "backup",
    is_flag=True,
    flag_value=False,
    default=True,
    help="Do not back the store up first.",
)
@click.option(
    "--keep",
    type=click.Choice(["mine", "theirs"]),
    help="Where this store and a bundle both changed a cell, take the value here, or the bundle's.",
)
@click.option("--newest-wins", is_flag=True, help="Take the value that was loaded last instead.")
@click.pass_context
def load(  # noqa: PLR0913 - one argument for each option
    ctx: click.Context,
    /,
    paths: Sequence[Path],
    store: Path | None,
    *,
    plan_only: bool,
    yes: bool,
    dates: str | None,
    decimal: str | None,
    mapping: str | None,
    columns: Mapping[str, str],
    constants: Mapping[str, str],
    leave_out: tuple[str, ...],
    keep_good: bool,
    rejects: Path | None,
    accept_likely: bool,
    wear_complete: bool,
    backup: bool,
    keep: str | None,
    newest_wins: bool,
) -> None:
    """Load a season's tables: folders, or CSV, XLSX and Parquet files.

    Files and sheets named after tables (attendance.csv) with the tables' own headings load as they
    are. For others a mapping is proposed, confirmed once, and kept beside the store. Everything is
    checked first; if a row is wrong, nothing is written and every reason is told. The same file
    twice changes nothing; “seasonboard undo” takes the last load back.

    A bundle of another store (“seasonboard bundle”) is loaded in the same way, by itself. Cells
    that both stores changed are listed for a decision: --keep or --newest-wins.
    """
    tools: Tools = ctx.obj["tools"]
    target = named_store(ctx, store, hint="Name one with --store FILE; it is made if new.")
    if keep and newest_wins:
        raise click.UsageError("--keep and --newest-wins exclude each other.")
    options = LoadOptions(
        dates=dates,
        decimal=decimal,
        mapping=mapping,
        keep_good=keep_good,
        accept_likely=accept_likely,
        wear_complete=wear_complete,
        columns=columns,
        constants=constants,
        leave_out=leave_out,
        propose=True,
        write=not plan_only,
        rejects=rejects,
        backup=backup,
        conflicts="newest" if newest_wins else keep,
    )
    dialog = TerminalDialog(target, options, yes)
    with told_when_stopped(f"{target} is as it was"), dialog.line:
        is_written = tools.load(target, paths, dialog)
    if is_written:
        tools.remember_store(target)
        click.echo(f"Written to {target}.")
    else:
        plan = dialog.plan
        why = f": {plan.why_nothing}" if plan and plan.is_empty else "."
        click.echo(f"Nothing was written{why}")
    if dialog.plan and dialog.plan.rejected:
        ctx.exit(1)


def plan_text(plan: PlanSummary) -> str:
    """Return a plan as a table, with what is left behind and what is doubtful below it."""
    wide = max((len(table.table) for table in plan.tables), default=5)
    lines = [f"{'table':<{wide}} {'new':>9} {'changed':>9} {'same':>9}  file"]
    lines += [
        f"{t.table:<{wide}} {t.new:>9,} {t.changed:>9,} {t.same:>9,}  {t.file}" for t in plan.tables
    ]
    lines += plan.sentences
    if plan.changes:
        lines.append(f"Cells that change ({plan.changed_cells:,}):")
        lines += [_changed(one) for one in plan.changes[:MOST_CHANGED]]
        if plan.changed_cells > MOST_CHANGED:
            lines.append(f"  and {plan.changed_cells - MOST_CHANGED:,} more.")
    if plan.rejected:
        lines.append(f"Left behind, to be corrected and loaded again ({plan.rejected:,} rows):")
        lines += _listed(plan.problems, MOST_REJECTED)
    doubts, notes = plan.notes[: plan.doubts], plan.notes[plan.doubts :]
    if doubts:
        lines.append(f"Doubtful, and kept ({len(doubts):,}):")
        lines += _listed(doubts, MOST_NOTES)
    if notes:
        lines.append(f"How it was read ({len(notes):,}):")
        lines += _listed(notes, MOST_NOTES)
    return "\n".join(lines) + "\n"


def _changed(one: CellChange) -> str:
    old, new = (value if value is not None else "–" for value in (one.old, one.new))
    cell = f"{one.table} {one.row_key}, {one.column}: {old} → {new}"
    return f"  {cell}  ({one.file}, row {one.file_row})"


def _listed(problems: Sequence[Problem], most: int) -> list[str]:
    lines = [f"  {one.sentence()}" for one in problems[:most]]
    if len(problems) > most:
        lines.append(f"  and {len(problems) - most:,} more.")
    return lines
