"""`seasonboard ask`: one answer as text, JSON or CSV. One module beside this a question."""

from typing import ClassVar

import click

from seasonboard.cli.lazy_group import LazyGroup

QUESTIONS = (
    "week",
    "roster",
    "orders",
    "turnaround",
    "remakes",
    "allotment",
    "take-up",
    "departments",
    "compare",
    "games",
    "pitch",
    "checks",
)


class Questions(LazyGroup):
    """The questions, each in the module named after it."""

    topics: ClassVar = dict.fromkeys(QUESTIONS, "ask")
    places: ClassVar = {
        question: f"seasonboard.cli.ask_{name}:ask_{name}"
        for question in QUESTIONS
        for name in [question.replace("-", "_")]
    }


@click.group(cls=Questions)
def ask() -> None:
    """Put one question to a store.

    Scope options take several values with commas; an unknown value lists the known ones.
    """
