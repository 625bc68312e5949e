"""Words of the store that may stand in no document for outsiders."""

from dataclasses import dataclass

from seasonboard.answers.reader import Reader


@dataclass(frozen=True, slots=True)
class Identities:
    """As recorded: names of athletes, keys of anything, jerseys, names of departments."""

    names: tuple[str, ...]
    keys: tuple[str, ...]
    jerseys: tuple[str, ...]
    clients: tuple[str, ...]


def identities(reader: Reader) -> Identities:
    """Return the words, never covered: they are looked for, not shown."""
    words: dict[str, list[str]] = {"name": [], "key": [], "jersey": [], "client": []}
    for kind, word in reader.read("handout/names").iter_rows():
        words[kind].append(word)
    return Identities(*map(tuple, words.values()))
