"""Where a document's numbers come from: its facts, and the command that makes it again."""

import shlex
from dataclasses import dataclass
from datetime import date
from pathlib import PurePath

from seasonboard.answers.curtain.columns import A_STORE
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.model import Facts
from seasonboard.scope import Scope, ScopeValues, read_scope
from seasonboard.sentence import sentence


@dataclass(frozen=True, slots=True)
class Making:
    """How a document is made: its kind, the day, and options of its own as typed."""

    kind: str
    made_on: date
    options: tuple[str, ...] = ()


def facts(source: AnswerSource, scope: Scope, making: Making) -> Facts:
    """Return a document's facts; no path and no file's name is among them.

    Raises:
        StoreError: The store could not be read.
    """
    label = source.store_label
    where = "--store …" if is_file(label) else "--sample"
    usual = read_scope({}, source.scope_values).resolved()
    asked = [
        f"--{part.replace('_', '-')} {shlex.quote(_value(value))}"
        for part, value in scope.resolved().items()
        if part == "through" or value != usual[part]
    ]
    curtain = ["--curtain"] if source.is_covered else []
    words = ["seasonboard handout", making.kind, where, *asked, *making.options, *curtain]
    return Facts(
        made_on=making.made_on,
        through=scope.through,
        scope=" · ".join(phrase.text for phrase in sentence(scope, source.scope_values)),
        place="" if is_file(label) else label,
        mark=source.fingerprint(),
        command=" ".join(words),
    )


def is_file(label: str) -> bool:
    """Say whether the label of a store is a file's path, which tells too much."""
    return label == A_STORE or bool(PurePath(label).suffix or PurePath(label).anchor)


def _value(value: object) -> str:
    return ",".join(map(str, value)) if isinstance(value, list) else str(value)


def department_label(scope_values: ScopeValues, scope: Scope) -> str:
    """Return whom a document is about, in a word for its title and its file's name."""
    keys = scope.departments or ()
    return scope_values.name_of("department", keys[0]) if len(keys) == 1 else "all departments"
