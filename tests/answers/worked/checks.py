"""One check that found something and one that found nothing."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.checks.parts import Check, CheckCount, ChecksAnswer
from seasonboard.scope import Scope

TWICE = Check(
    name="worn-twice",
    asks="Was a guard worn twice in one session?",
    touches={"compare": "rates", "roster": "worn share"},
    why="It counts as two exposures.",
    mend="Take one of the rows out.",
    query="checks/worn_twice",
)
LATE = Check(
    name="fitted-early",
    asks="Was a guard fitted before it was asked for?",
    touches={"orders": "ages"},
    why="Its wait would be below 0.",
    mend="Set the day of the stage right.",
    query="checks/fitted_early",
)
ANSWER = ChecksAnswer(
    Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    (CheckCount(TWICE, 1234), CheckCount(LATE, 0)),
)
