"""What every command that makes a document takes, and how it writes it."""

import functools
import shlex
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seasonboard.cli.answer_command import CURTAIN, scope_options
from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import board_of, named_store, store_options
from seasonboard.scope import PARTS, Scope, read_scope

if TYPE_CHECKING:
    from seasonboard.answers.store_answers import StoreAnswers
    from seasonboard.documents.destination import Place
    from seasonboard.documents.handout import Handed
    from seasonboard.documents.model import Document
    from seasonboard.documents.origin import Making

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

USUAL = 11
"""The smallest count shown, as `Policy` has it."""
THRESHOLD = click.option(
    "--threshold",
    type=int,
    default=USUAL,
    show_default=True,
    help="The smallest count shown but 0. Raise it freely; to lower it takes --reason.",
)
REASON = click.option(
    "--reason", default="", metavar="TEXT", help="Why it is lowered; printed on the document."
)
LEAVE_OUT = click.option(
    "--leave-out",
    multiple=True,
    metavar="NAME",
    help="A count to hide with all that is worked out from it, as a refusal names it.",
)

Make = Callable[..., "Document"]


def hands_out(kind: str) -> Callable[[Make], Callable[..., None]]:
    """Make a command of a function from a board, a scope, a making and own options to a document.

    The command takes the store, every part of the scope, the function's own options, `--out`,
    `--paper`, `--curtain` and `--force`. A place that cannot be written to is told before
    anything is asked.
    """

    def command(make: Make) -> Callable[..., None]:
        @functools.wraps(make)
        def handing(  # noqa: PLR0913 - click hands over each option
            store: Path | None,
            *,
            use_sample: bool,
            curtain: bool,
            out: Path | None,
            paper: str,
            force: bool,
            **given: Any,  # noqa: ANN401 - as click hands the other options over
        ) -> None:
            from seasonboard.documents.destination import make as written
            from seasonboard.documents.destination import read_place
            from seasonboard.documents.origin import Making

            ctx = click.get_current_context()
            if out is not None:
                read_place(out, "", may_replace=force)
            parts = {part: given.pop(part.replace(" ", "_")) for part in PARTS}
            with board_of(ctx, store, use_sample=use_sample) as board:
                board.cover(is_down=curtain or ctx.obj["curtain"])
                asked = {part: text for part, text in parts.items() if text is not None}
                scope = read_scope(asked, board.scope_values)
                place = read_place(out, _name(kind, board, scope), may_replace=force)
                own = _typed(given) + (("--paper letter",) if paper == "letter" else ())
                today = date.today()  # noqa: DTZ011 - the day on the clock of who makes it
                document = make(board, scope, Making(kind, today, own), **given)
            summary = written(document, place, paper)
            click.echo(f"Written to {place.path}.")
            if summary:
                click.echo(summary, err=True)

        own = handing.__dict__.pop("__click_params__", [])
        plain = OUT(PAPER(CURTAIN(FORCE(handing))))
        plain.__dict__["__click_params__"] += own
        return store_options(scope_options(plain))

    return command


def hands_out_to_outsiders(kind: str) -> Callable[[Callable[..., "Handed"]], Callable[..., None]]:
    """Make a command of a function from a board, a scope, a making, terms and own options.

    It is as `hands_out`, and takes `--threshold`, `--reason` and `--leave-out` as well. What is
    out already is looked at, a last look is taken for names, and what goes out is kept in the
    ledger beside the store. Paths are not repeated in the document's command.
    """

    def command(make: "Callable[..., Handed]") -> Callable[..., None]:
        @functools.wraps(make)
        def handing(  # noqa: PLR0913 - click hands over each option
            store: Path | None,
            *,
            use_sample: bool,
            out: Path | None,
            paper: str,
            force: bool,
            threshold: int,
            reason: str,
            leave_out: tuple[str, ...],
            **given: Any,  # noqa: ANN401 - as click hands the other options over
        ) -> None:
            from seasonboard.documents.destination import read_place
            from seasonboard.documents.origin import Making

            if out is not None:
                read_place(out, "", may_replace=force)
            asked = {
                part: text
                for part in PARTS
                if (text := given.pop(part.replace(" ", "_"))) is not None
            }
            own = (*_typed(given), *_typed_of_terms(threshold, reason, leave_out))
            own += ("--paper letter",) if paper == "letter" else ()
            going = _Going(click.get_current_context(), store, use_sample=use_sample)
            today = date.today()  # noqa: DTZ011 - the day on the clock of who makes it
            place, summary = going.go(
                functools.partial(make, **given),
                asked,
                Making(kind, today, own),
                (threshold, reason, leave_out),
                lambda scope: read_place(out, _plain_name(kind, scope), may_replace=force),
                paper,
            )
            click.echo(f"Written to {place.path}.")
            for each in summary:
                click.echo(each, err=True)

        own = handing.__dict__.pop("__click_params__", [])
        plain = THRESHOLD(REASON(LEAVE_OUT(OUT(PAPER(FORCE(handing))))))
        plain.__dict__["__click_params__"] += own
        return store_options(scope_options(plain))

    return command


@dataclass(frozen=True, slots=True)
class _Going:
    """One document on its way to outsiders."""

    ctx: click.Context
    store: Path | None
    use_sample: bool

    def go(  # noqa: PLR0913, PLR0917 - what the options say
        self,
        make: "Callable[..., Handed]",
        asked: dict[str, str],
        making: "Making",
        typed: tuple[int, str, tuple[str, ...]],
        place_of: Callable[[Scope], "Place"],
        paper: str,
    ) -> tuple["Place", tuple[str, ...]]:
        """Make it, look it over, put it in place and keep it; return where, and what to say."""
        from seasonboard.disclosure.document_release import Policy
        from seasonboard.documents.handout import Terms, hand_out

        threshold, reason, leave_out = typed
        policy = Policy(threshold, reason)
        with board_of(self.ctx, self.store, use_sample=self.use_sample) as board:
            scope = read_scope(asked, board.scope_values)
            place = place_of(scope)
            summary = hand_out(
                lambda earlier: make(board, scope, making, Terms(policy, earlier, leave_out)),
                store=self._path(),
                identities=board.identities,
                place=place,
                paper=paper,
            )
        return place, summary

    def _path(self) -> Path:
        tools: Tools = self.ctx.obj["tools"]
        if self.use_sample or self.ctx.obj["sample"]:
            return tools.sample_path()
        return named_store(self.ctx, self.store)


def _typed_of_terms(threshold: int, reason: str, leave_out: tuple[str, ...]) -> tuple[str, ...]:
    told = [] if threshold == USUAL else [f"--threshold {threshold}"]
    told += [f"--reason {shlex.quote(reason)}"] if reason else []
    return (*told, *(f"--leave-out {shlex.quote(name)}" for name in leave_out))


def _plain_name(kind: str, scope: Scope) -> str:
    """Return a file's name for outsiders: kind and day."""
    from seasonboard.disclosure.identifiers import handout_name

    return handout_name(kind, "", scope.through, ".html")


def _typed(given: dict[str, Any]) -> tuple[str, ...]:
    """Return the options of a document's own as they would be typed again; no path is."""
    params = {p.name: p for p in click.get_current_context().command.params}
    told = []
    for name, value in given.items():
        if value is None or (name in params and value == params[name].default):
            continue
        plain = f"{value:g}" if isinstance(value, float) else str(value)
        typed = "…" if isinstance(value, Path) else shlex.quote(plain)
        told.append(f"--{name.replace('_', '-')} {typed}")
    return tuple(told)


def _name(kind: str, board: "StoreAnswers", scope: Scope) -> str:
    """Return a file's name of kind, department and date, and nothing else."""
    from seasonboard.documents.origin import label
    from seasonboard.saving.files import named

    return named(kind, label(board.scope_values, scope), scope.through.isoformat(), ending=".html")
