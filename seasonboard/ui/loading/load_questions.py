"""What can be answered when a load stops: questions of a proposal, and choices it leaves open."""

import re
from dataclasses import dataclass, replace

from seasonboard.errors import IntakeError, OpenQuestion
from seasonboard.load_options import LoadOptions

_ORDERS = {"dmy": "day/month/year", "mdy": "month/day/year"}
_MARKS = {"comma": "it parts the decimals", "point": "the point parts the decimals"}
LEAVE_OUT = "leave it out"
FILL = "one value for all rows …"


@dataclass(frozen=True, slots=True)
class LoadAnswer:
    """One answer: how it is shown, what is wished then; `fills` asks for a value to be typed."""

    shown: str
    beside: str
    options: LoadOptions
    fills: str = ""


@dataclass(frozen=True, slots=True)
class LoadQuestion:
    """What stopped a load, in sentences, and the answers there are; none: it must be corrected."""

    sentences: tuple[str, ...]
    answers: tuple[LoadAnswer, ...]


def question_of(refused: IntakeError, options: LoadOptions) -> LoadQuestion:
    """Return what a load that was refused asks, one question at a time; `options` were wished."""
    questions = [one for one in refused.problems if isinstance(one, OpenQuestion)]
    if questions:
        first = questions[0]
        more = f"{len(questions) - 1:,} more to come." if len(questions) > 1 else ""
        where = f"{first.file}, column {first.column}" if first.column else first.file
        value = f" “{first.value}”" if first.value else ""
        asks = f"{where}:{value} {without_options(first.expected)}"
        return LoadQuestion(tuple(filter(None, (asks, more))), _answers(first, options))
    sentences = [one.sentence() for one in refused.problems] or [str(refused)]
    head = without_options(refused.what.partition(". ")[0].rstrip(".") + ".")
    return LoadQuestion((head, *map(without_options, sentences)), _open_ways(refused, options))


def without_options(text: str) -> str:
    """Return a text without the sentences that name options of the command line."""
    parts = re.split(r"(?<=[.?!;:]) (?=[A-Z“])", text)
    return " ".join(one for one in parts if not re.search(r"(?<!\w)--\w", one))


def _answers(question: OpenQuestion, options: LoadOptions) -> tuple[LoadAnswer, ...]:
    if question.wish == "dates":
        return tuple(
            LoadAnswer(_ORDERS[one], "", replace(options, dates=one)) for one in question.choices
        )
    if question.wish == "decimal":
        return tuple(
            LoadAnswer(one, _MARKS[one], replace(options, decimal=one)) for one in question.choices
        )
    key = f"{question.table}.{question.column}"

    def with_heading(heading: str) -> LoadOptions:
        return replace(options, columns={**options.columns, key: heading})

    answers = [LoadAnswer(one, "a heading", with_heading(one)) for one in question.choices]
    if question.may_fill:
        name = f"{question.table}.time" if question.wish == "time" else key
        answers.append(LoadAnswer(FILL, "", options, fills=name))
    if question.may_skip:
        answers.append(LoadAnswer(LEAVE_OUT, "", with_heading("")))
    return tuple(answers)


def _open_ways(refused: IntakeError, options: LoadOptions) -> tuple[LoadAnswer, ...]:
    """Return the ways that a refusal names by their options of the command line."""
    named = " ".join((refused.hint, *(one.expected for one in refused.problems)))
    ways = []
    if "--accept-likely" in named:
        likely = replace(options, accept_likely=True)
        ways.append(LoadAnswer("take what is likely", "each is noted", likely))
    if "--keep-good" in named and "does not go with" not in named:
        kept = "the others go into files beside the store"
        ways.append(LoadAnswer("load only the good rows", kept, replace(options, keep_good=True)))
    if "--newest-wins" in named and "--keep mine" in named:
        choices = {
            "mine": "take the values here",
            "theirs": "take the bundle's values",
            "newest": "take the newest of both",
        }
        ways += [
            LoadAnswer(shown, "where both changed", replace(options, conflicts=word))
            for word, shown in choices.items()
        ]
    return tuple(ways)
