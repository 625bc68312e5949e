"""What every document for outsiders goes through: settled, looked over, put in place, kept."""

import getpass
import platform
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

from seasonboard.answers.identities import Identities
from seasonboard.disclosure.document_release import DocumentRelease, Policy, RefusedError, Told
from seasonboard.disclosure.earlier_handouts import Difference, Handout
from seasonboard.disclosure.identifier_scan import Look, words_of_its_own
from seasonboard.disclosure.identifiers import Forbidden
from seasonboard.disclosure.ledger import Ledger, LedgerError
from seasonboard.documents.destination import ENDINGS, Place
from seasonboard.documents.model import Document
from seasonboard.documents.writers.html import as_html
from seasonboard.errors import SeasonboardError
from seasonboard.saving import files
from seasonboard.terms import nearest

_NEVER_OUT = (
    "If that handout was never given out, move its file away from the folder beside the store "
    "whose name ends in .handouts."
)


@dataclass(frozen=True, slots=True)
class Terms:
    """How a document for outsiders is made.

    Attributes:
        policy: How small a count it may show.
        earlier: Handouts of the same store that are out already.
        leave_out: Counts to hide in any case, by their names.
    """

    policy: Policy = Policy()  # noqa: RUF009 - frozen
    earlier: tuple[Handout, ...] = ()
    leave_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Handed:
    """A document that may go out, and what the ledger is to keep of it."""

    document: Document
    handout: Handout


def settled(release: DocumentRelease, terms: Terms, through: date) -> Told:
    """Return what may be shown.

    Raises:
        SeasonboardError: A count that is to be left out is not in the document.
        RefusedError: A small count could be worked out, alone or with earlier handouts.
    """
    cells = release.release().cells
    for name in terms.leave_out:
        if name not in cells:
            near = nearest(name, list(cells))
            meant = f"Did you mean “{near}”? " if near else ""
            raise SeasonboardError(
                f"--leave-out “{name}”: the document has no count of that name.",
                f"{meant}Its counts: {', '.join(sorted(cells))}.",
            )
    told = release.settle(terms.earlier, through, leave_out=terms.leave_out)
    try:
        told.check()
    except RefusedError as error:
        raise RefusedError(error.what, f"{error.hint} {_ways_out(told)}".strip()) from error
    return told


def _ways_out(told: Told) -> str:
    """Return which counts could be left out, each as it would be typed."""
    names = dict.fromkeys(
        name
        for difference in told.differences
        for name, counted in told.counted.items()
        if _is_in(counted.words(), difference)
    )
    found = [leak.cell for leak in told.leaks] + list(names)
    typed = " ".join(f'--leave-out "{name}"' for name in found)
    ways = [f"To leave out what this document adds: {typed}."] if typed else []
    return " ".join([*ways, _NEVER_OUT] if told.differences else ways)


def _is_in(words: str, difference: Difference) -> bool:
    summary = (difference.rest.removeprefix("The change of "), *difference.taken)
    return any(each == words or each.startswith(f"{words}, ") for each in summary)


def handed(told: Told, document: Document, *, scope: str, through: date) -> Handed:
    """Return a document with what the ledger is to keep of it."""
    now = datetime.now(UTC).astimezone()
    return Handed(document, told.handout(now, kind=document.kind, scope=scope, through=through))


def forbidden(found: Identities, store: Path) -> Forbidden:
    """Return the words that may stand nowhere in a document of a store."""
    home = Path.home()
    logins = [_or_nothing(getpass.getuser), home.name, platform.node()]
    folders = (store.resolve().parent, home)  # a folder right below the root is a word like others
    places = [store.name, *(str(folder) for folder in folders if len(folder.parts) > 2)]
    return Forbidden(
        names=(*found.names, *found.clients),
        keys=found.keys,
        jerseys=found.jerseys,
        logins=tuple(dict.fromkeys(login for login in logins if login)),
        places=tuple(places),
    )


def _or_nothing(ask: Callable[[], str]) -> str:
    try:
        return ask()
    except (KeyError, OSError, ImportError):  # nobody is known by name on this machine
        return ""


def hand_out(  # noqa: PLR0913 - all but what makes it by name
    make: Callable[[tuple[Handout, ...]], Handed],
    *,
    store: Path,
    identities: Callable[[], Identities],
    place: Place,
    paper: str,
    look: Callable[[], object] = lambda: None,
) -> tuple[str, ...]:
    """Make a document beside what is out already, look it over, put it in place and keep it.

    Args:
        make: Makes it, given the earlier handouts of the store.
        store: The file of the store, beside which the ledger stands.
        identities: Gives what may stand in no document of the store.
        place: Where it goes.
        paper: What it is printed on.
        look: Asked just before it is written; raises where it may not be after all.

    Returns:
        What is to be said of it, mostly nothing.

    Raises:
        SeasonboardError: As `settled` and `deliver` do.
    """
    ledger = Ledger(store)
    kept = ledger.read()
    made = make(kept.handouts)
    not_in = forbidden(identities(), store)
    look()
    summary = deliver(made, place, paper, ledger=ledger, not_in=not_in)
    return tuple(each for each in (*kept.said, summary) if each)


def deliver(made: Handed, place: Place, paper: str, *, ledger: Ledger, not_in: Forbidden) -> str:
    """Put a document in its place and into the ledger, both or neither.

    Returns:
        What is to be said of it, mostly nothing.

    Raises:
        NamedError: A name, key or path stands in what was made; nothing was written.
        SavingError: It could not be written.
        LedgerError: The ledger could not; the document was taken away again.
    """
    data, summary = ENDINGS[place.path.suffix.casefold()](made.document, paper)
    look = Look(not_in, words_of_its_own())
    look.check(place.path.name, data)
    if place.path.suffix.casefold() == ".pdf":  # its letters are numbers of its own type
        look.check("the text of the PDF", as_html(made.document, paper))
    before = place.path.read_bytes() if place.path.exists() else None
    files.save({place.path: data}, may_replace=place.may_replace)
    try:
        ledger.add(made.handout)
    except LedgerError as error:
        _take_back(place.path, before)
        what = "was taken away again" if before is None else "is as it was before"
        raise LedgerError(f"{error.what} {place.path} {what}.", error.hint) from error
    return summary


def _take_back(path: Path, before: bytes | None) -> None:
    if before is None:
        path.unlink(missing_ok=True)
    else:
        files.save({path: before}, may_replace=True)
