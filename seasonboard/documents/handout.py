"""What every document for outsiders goes through: identifier scan, then its place."""

import getpass
import platform
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from seasonboard.answers.identities import Identities
from seasonboard.disclosure.identifier_scan import (
    ForbiddenWords,
    check_written,
    whole_words,
    words_of_its_own,
)
from seasonboard.documents.destination import Destination, document_bytes
from seasonboard.documents.kinds import DocumentRequest
from seasonboard.documents.model import Document
from seasonboard.documents.writers.html import as_html
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
    request: DocumentRequest,
    document: Document,
    destination: Destination,
    *,
    store: Path,
    check: Callable[[], None],
) -> tuple[str, ...]:
    """Scan a document and put it in its place; arguments are those of `kinds.write_document`.

    Raises:
        SeasonboardError: It could not be made, or as `deliver` does.
    """
    not_in = forbidden_words(request.source.identities(), store)
    check()
    summary = deliver(document, destination, request.paper, not_in=not_in)
    return (summary,) if summary else ()


def deliver(
    document: Document, destination: Destination, paper: str, *, not_in: ForbiddenWords
) -> str:
    """Put a document in its place, whole or not at all; return what to say of it.

    A word of a name that was typed for it may be an athlete's name too, but not all of one.

    Raises:
        IdentifierError: A name, key or path stands in what was made; nothing was written.
        SavingError: It could not be written.
    """
    path = destination.path
    data, summary = document_bytes(document, path, paper)
    own = words_of_its_own().union(*map(whole_words, document.typed))
    check_written(path.name, data, not_in, own)
    if path.suffix.casefold() == ".pdf":  # its letters are numbers of its own type
        check_written("the text of the PDF", as_html(document, paper), not_in, own)
    files.save({path: data}, may_replace=destination.may_replace)
    return summary
