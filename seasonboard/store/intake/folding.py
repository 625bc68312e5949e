"""When two spellings are one: words and names without the marks that writers differ in."""

import re
import unicodedata

_PARTING = re.compile(r"[\s_\-–—/\\.:,;()\[\]#]+")
_UNSEEN = re.compile("[\u200b\u2060\ufeff\u00ad]")
_APOSTROPHES = re.compile("['’‘`´ʼ]")


def folded(word: str) -> str:
    """Return a spelling without capitals, unseen characters, and marks that part words."""
    bare = _UNSEEN.sub("", unicodedata.normalize("NFKC", word)).casefold()
    return _PARTING.sub(" ", bare).strip()


def folded_name(name: str) -> str:
    """Return a person's name without capitals, apostrophes and dots, given name first.

    “O’BRIEN, JONATHAN” and “Jonathan O'Brien” are one name; accents and letters stay apart.
    """
    bare = _APOSTROPHES.sub("", _UNSEEN.sub("", unicodedata.normalize("NFKC", name)))
    last, comma, first = bare.partition(",")
    ordered = f"{first} {last}" if comma and first.strip() else bare
    return " ".join(ordered.casefold().replace(".", " ").split())
