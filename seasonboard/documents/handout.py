"""What every document for outsiders goes through: a release to quote, identifier scan, place."""

import getpass
import platform
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from seasonboard.answers.identities import Identities
from seasonboard.disclosure.identifier_scan import IdentifierScan, words_of_its_own
from seasonboard.disclosure.identifiers import ForbiddenWords
from seasonboard.documents.destination import Destination, document_bytes
from seasonboard.documents.kinds import DocumentRequest
from seasonboard.documents.model import Document
from seasonboard.documents.writers.html import as_html
from seasonboard.releases.reading import ReleaseMemory, current_release
from seasonboard.saving import files


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
    """Make a document from the last release, scan it and put it in its place.

    Arguments and result are those of `kinds.write_document`.

    Raises:
        ReleaseError: There is no release to quote.
        SeasonboardError: It could not be made, or as `deliver` does.
    """
    source, kinds = request.source, request.scope.kinds
    release = current_release(source, ReleaseMemory(source.releases_path))
    kind = kinds[0] if len(kinds) == 1 else None
    document: Document = request.kind.make(source, release, kind, request.making(), request.options)
    not_in = forbidden_words(source.identities(), store)
    check()
    summary = deliver(document, destination, request.paper, not_in=not_in)
    return (summary,) if summary else ()


def deliver(
    document: Document, destination: Destination, paper: str, *, not_in: ForbiddenWords
) -> str:
    """Put a document in its place, whole or not at all; return what to say of it.

    Raises:
        IdentifierError: A name, key or path stands in what was made; nothing was written.
        SavingError: It could not be written.
    """
    path = destination.path
    data, summary = document_bytes(document, path, paper)
    scan = IdentifierScan(not_in, words_of_its_own())
    scan.check(path.name, data)
    if path.suffix.casefold() == ".pdf":  # its letters are numbers of its own type
        scan.check("the text of the PDF", as_html(document, paper))
    files.save({path: data}, may_replace=destination.may_replace)
    return summary
