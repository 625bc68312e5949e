"""The identifier scan of what was written, quick enough for a store of many thousand names."""

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from functools import cache
from html import unescape
from importlib.resources import files
from importlib.resources.abc import Traversable

from seasonboard.disclosure.identifiers import (
    ForbiddenWords,
    IdentifierError,
    folded,
    hidden_parts,
    identifiers_in,
    written_texts,
)
from seasonboard.errors import SeasonboardError

_WORD = re.compile(r"[^\W_]+")
_STYLE = re.compile(rb"<style>.*?</style>", re.DOTALL)
"""The page's own style, which leaves an empty cell out on a phone."""
_SOURCES = ("answers", "documents", "published", "stats")
_LETTERS_BY_CHANCE = 6
"""Letters from which a word does not stand in packed bytes by chance."""
_SHORTEST_KEY, _SHORTEST_NUMBER = 3, 5
"""Letters of a key below which it stands in any text; figures, where it is nothing else."""


@dataclass(frozen=True, slots=True)
class IdentifierScan:
    """Looks for words that may not stand in a document before it goes out.

    `own_words` are those that the program writes of itself; alone they are no part of a name.
    """

    not_in: ForbiddenWords
    own_words: frozenset[str]

    def check(self, name: str, data: bytes) -> None:
        """Refuse a file in which a forbidden word stands, or something that is not seen.

        Raises:
            IdentifierError: A word does.
            SeasonboardError: It has a hidden sheet, row, column or text.
        """
        texts = written_texts(name, data)
        is_packed = data.startswith(b"%PDF")
        present = set(_WORD.findall(" ".join(folded(unescape(text)) for text in texts.values())))
        possible = self._possible(present, is_packed=is_packed)
        identifiers = identifiers_in(texts, possible, but_for=self.own_words)
        if identifiers:
            raise IdentifierError(
                f"{len(identifiers)} words that may not be handed out stand in the document, and "
                "it was not kept.",
                " ".join(one.sentence() for one in identifiers[:5]),
            )
        unseen = () if is_packed else hidden_parts(name, _STYLE.sub(b"", data))
        if unseen:
            raise SeasonboardError("The document was not kept.", " ".join(unseen))

    def _possible(self, present: Collection[str], *, is_packed: bool) -> ForbiddenWords:
        """Return the words that can stand there at all: the others need no closer look."""
        least = _LETTERS_BY_CHANCE if is_packed else 1

        def telling_part(names: Iterable[str]) -> tuple[str, ...]:
            return tuple(
                name
                for name in names
                if any(_is(p, present, least) and p not in self.own_words for p in _parts(name))
                or all(_is(p, present, 1) for p in _parts(name))
            )

        def all_parts(words: Iterable[str]) -> tuple[str, ...]:
            return tuple(w for w in words if all(_is(p, present, least) for p in _parts(w)))

        keys = (key for key in self.not_in.keys if self._is_telling(key))
        logins = (name for name in self.not_in.logins if self._is_telling(name))
        return replace(
            self.not_in,
            names=telling_part(self.not_in.names),
            keys=all_parts(keys),
            jerseys=() if is_packed else self.not_in.jerseys,
            logins=all_parts(logins),
        )

    def _is_telling(self, word: str) -> bool:
        """Say whether a key would not stand in any text: no short one, none of our own words."""
        plain = folded(word.strip())
        least = _SHORTEST_NUMBER if plain.isdigit() else _SHORTEST_KEY
        return len(plain) >= least and plain not in self.own_words


def whole_words(text: str) -> list[str]:
    """Return the words of a text, without capitals and accents."""
    return _WORD.findall(folded(text))


def _parts(word: str) -> list[str]:
    return whole_words(word) or [""]


def _is(part: str, present: Collection[str], least: int) -> bool:
    return len(part) >= least and part in present


@cache
def words_of_its_own() -> frozenset[str]:
    """Return every word of the program's own texts, plain: an athlete may be called like one."""
    return frozenset(
        word
        for source in _SOURCES
        for path in _texts(files("seasonboard").joinpath(source))
        for word in whole_words(path.read_text("utf-8"))
    )


def _texts(folder: Traversable) -> Iterable[Traversable]:
    for path in folder.iterdir():
        if path.is_dir():
            yield from _texts(path)
        elif path.name.endswith((".py", ".csv", ".css", ".typ")):
            yield path
