"""What every document for outsiders goes through: verdict, identifier scan, place and ledger."""

import getpass
import platform
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from seasonboard.answers.identities import Identities
from seasonboard.disclosure.differencing import SmallDifference
from seasonboard.disclosure.document_release import DocumentRelease
from seasonboard.disclosure.identifier_scan import IdentifierScan, words_of_its_own
from seasonboard.disclosure.identifiers import ForbiddenWords
from seasonboard.disclosure.ledger import Ledger, LedgerEntry, LedgerError
from seasonboard.disclosure.verdict import DisclosureVerdict, RefusedError
from seasonboard.documents.destination import Destination, document_bytes
from seasonboard.documents.kinds import DocumentRequest, ReleaseTerms
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
class Handout:
    """A document that may go out, and what the ledger is to keep of it."""

    document: Document
    entry: LedgerEntry


def release_verdict(
    release: DocumentRelease, terms: ReleaseTerms, through: date
) -> DisclosureVerdict:
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
    verdict = release.verdict(terms.earlier, through, leave_out=terms.leave_out)
    try:
        verdict.check()
    except RefusedError as error:
        raise RefusedError(error.what, f"{error.hint} {_ways_out(verdict)}".strip()) from error
    return verdict


def _ways_out(verdict: DisclosureVerdict) -> str:
    names = [disclosure.cell for disclosure in verdict.disclosures]
    names += dict.fromkeys(
        name
        for difference in verdict.differences
        for name, definition in verdict.definitions.items()
        if _is_in(definition.words(), difference)
    )
    typed = " ".join(f'--leave-out "{name}"' for name in names)
    ways = [f"To leave out what this document adds: {typed}."] if typed else []
    return " ".join([*ways, _NEVER_OUT] if verdict.differences else ways)


def _is_in(words: str, difference: SmallDifference) -> bool:
    counts = (difference.rest.removeprefix("The change of "), *difference.taken)
    return any(count == words or count.startswith(f"{words}, ") for count in counts)


def forbidden_words(identities: Identities, store: Path) -> ForbiddenWords:
    """Return the words that may stand nowhere in a document of a store."""
    home = Path.home()
    logins = [home.name, platform.node()]
    with suppress(KeyError, OSError, ImportError):  # nobody is known by name on this machine
        logins.insert(0, getpass.getuser())
    folders = (store.resolve().parent, home)  # a folder right below the root is a word like others
    places = [store.name, *(str(folder) for folder in folders if len(folder.parts) > 2)]
    return ForbiddenWords(
        names=(*identities.names, *identities.clients),
        keys=identities.keys,
        jerseys=identities.jerseys,
        logins=tuple(dict.fromkeys(login for login in logins if login)),
        places=tuple(places),
    )


def hand_out(
    request: DocumentRequest, destination: Destination, *, store: Path, check: Callable[[], None]
) -> tuple[str, ...]:
    """Make a document beside what is out already, scan it, put it in place and keep it.

    Arguments and result are those of `kinds.write_document`; the ledger stands beside `store`.

    Raises:
        SeasonboardError: As `release_verdict` and `deliver` do.
    """
    ledger = Ledger(store)
    contents = ledger.read()
    terms = replace(request.terms, earlier=contents.entries)
    handout: Handout = request.kind.make(
        request.source, request.scope, request.making(), terms, request.options
    )
    not_in = forbidden_words(request.source.identities(), store)
    check()
    summary = deliver(handout, destination, request.paper, ledger=ledger, not_in=not_in)
    return tuple(line for line in (*contents.warnings, summary) if line)


def deliver(
    handout: Handout,
    destination: Destination,
    paper: str,
    *,
    ledger: Ledger,
    not_in: ForbiddenWords,
) -> str:
    """Put a document in its place and into the ledger, both or neither; return what to say of it.

    Raises:
        IdentifierError: A name, key or path stands in what was made; nothing was written.
        SavingError: It could not be written.
        LedgerError: The ledger could not; the document was taken away again.
    """
    path = destination.path
    data, summary = document_bytes(handout.document, path, paper)
    scan = IdentifierScan(not_in, words_of_its_own())
    scan.check(path.name, data)
    if path.suffix.casefold() == ".pdf":  # its letters are numbers of its own type
        scan.check("the text of the PDF", as_html(handout.document, paper))
    before = path.read_bytes() if path.exists() else None
    files.save({path: data}, may_replace=destination.may_replace)
    try:
        ledger.add(handout.entry)
    except LedgerError as error:
        if before is None:
            path.unlink(missing_ok=True)
            what = "was taken away again"
        else:
            files.save({path: before}, may_replace=True)
            what = "is as it was before"
        raise LedgerError(f"{error.what} {path} {what}.", error.hint) from error
    return summary
