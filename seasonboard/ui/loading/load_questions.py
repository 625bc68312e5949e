"""What can be answered when a load stops: questions of a proposal, and choices it leaves open."""

import re
from dataclasses import dataclass, replace

from seasonboard.errors import IntakeError, OpenQuestion
from seasonboard.load_options import LoadOptions
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from seasonboard.ui.loading.load_answer import LoadAnswer
from seasonboard.ui.loading.readings import TYPE_IT, reading_lines, without_sheet

_ORDERS = {"dmy": "day/month/year", "mdy": "month/day/year"}
_MARKS = {"comma": "it parts the decimals", "point": "the point parts the decimals"}
LEAVE_OUT = "leave it out"
FOR_ALL = "in all rows"
_LIKELY = "Is it “"
"""How a question ends that knows a likely heading."""
_MOST_WORDS = 8
"""Words of a closed list that are offered; more are typed."""
FILL = "one value for all rows …"
_VALUE = re.compile(r"--value (\w+)=(?:'([^']*)')?(?: \(([^)]*)\))?")
"""How a question names the value that answers it: its name, an example, the words it may be of."""


@dataclass(frozen=True, slots=True)
class LoadQuestion:
    """What stopped a load, in sentences, and the answers there are; none: it must be corrected.

    `readings` are the lines by which sheets and headings can be read otherwise.
    """

    sentences: tuple[str, ...]
    answers: tuple[LoadAnswer, ...]
    readings: tuple[LoadAnswer, ...] = ()


def question_of(refused: IntakeError, options: LoadOptions) -> LoadQuestion:
    """Return what a load that was refused asks, one question at a time; `options` were wished."""
    questions = [one for one in refused.problems if isinstance(one, OpenQuestion)]
    readings = reading_lines(refused.sheets, options)
    if questions:
        first = questions[0]
        more = f"{len(questions) - 1:,} more to come." if len(questions) > 1 else ""
        where = f"{first.file}, column {first.column}" if first.column else first.file
        value = f" “{first.value}”" if first.value else ""
        asks = f"{where}:{value} {without_options(first.expected)}"
        answers = _with_sheet_left_out(first, refused, _answers(first, options), options)
        return LoadQuestion(tuple(filter(None, (asks, more))), answers, readings)
    sentences = [one.sentence() for one in refused.problems] or [str(refused)]
    head = without_options(refused.what.partition(". ")[0].rstrip(".") + ".")
    told = (head, *map(without_options, sentences))
    return LoadQuestion(told, _open_ways(refused, options), readings)


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
    if question.wish == "value":
        return _value_answers(question, options)
    key = f"{question.table}.{question.column}"

    def with_heading(heading: str) -> LoadOptions:
        return replace(options, columns={**options.columns, key: heading})

    answers = [LoadAnswer(one, "a heading", with_heading(one)) for one in question.choices]
    if question.may_fill:
        words, typed = _word_answers(question, options), _typed_answer(question, options, FILL)
        if _LIKELY in question.expected:
            answers += [*words, typed]
        else:  # the first line is easily taken, and no heading is likely to be it
            answers = [*words, *answers, typed] if words else [typed, *answers]
    if question.may_skip:
        answers.append(LoadAnswer(LEAVE_OUT, "", with_heading("")))
    return tuple(answers)


def _word_answers(question: OpenQuestion, options: LoadOptions) -> list[LoadAnswer]:
    """Return the words of a column of few words, each as the value of all rows."""
    table, name = TABLES[question.table], str(question.column)
    column = table.column(name) if name in table.names else None
    if question.wish != "column" or column is None or column.holds is not CellType.WORD:
        return []
    return [
        LoadAnswer(one, FOR_ALL, replace(options, constants={**options.constants, name: one}))
        for one in column.words[:_MOST_WORDS]
    ]


def _value_answers(question: OpenQuestion, options: LoadOptions) -> tuple[LoadAnswer, ...]:
    """Return the answers that are one value; of marks each adds to those before."""
    name = str(question.column)
    before = options.constants.get(name)

    def with_value(value: str) -> LoadOptions:
        value = f"{before}, {value}" if before and name == "marks" else value
        return replace(options, constants={**options.constants, name: value})

    answers = [LoadAnswer(one, "", with_value(one)) for one in question.choices]
    if question.may_fill:
        answers.append(_typed_answer(question, options, TYPE_IT))
    return tuple(answers)


def _typed_answer(question: OpenQuestion, options: LoadOptions, shown: str) -> LoadAnswer:
    """Return the answer that is typed, under the name that the question itself gives it."""
    named = _VALUE.search(question.expected)
    name = "time" if question.wish == "time" else str(question.column)
    example = ""
    if named is not None:
        example = " ".join(filter(None, (named[2], f"({named[3]})" if named[3] else "")))
    return LoadAnswer(
        shown,
        f"such as {example}" if example else "",
        options,
        fills=named[1] if named else name,
        example=example,
    )


def _with_sheet_left_out(
    question: OpenQuestion,
    refused: IntakeError,
    answers: tuple[LoadAnswer, ...],
    options: LoadOptions,
) -> tuple[LoadAnswer, ...]:
    """Return the answers with one more: the sheet that asks is left out, by its line or its key."""
    sheet = next((one for one in refused.sheets if one.label == question.file), None)
    without = without_sheet(sheet, refused.sheets, options) if sheet else None
    if sheet is None or without is None:
        return answers
    left_out = LoadAnswer(f"leave the sheet “{sheet.name}” out", "", without)
    return tuple(replace(one, without=without) for one in (*answers, left_out))


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
