"""How many scopes were looked at since a question was fixed, said with an answer."""

from dataclasses import replace
from datetime import date

from seasonboard.answers import words
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.looks import Looks


def with_looks(answer: CompareAnswer, looks: Looks) -> CompareAnswer:
    """Return an answer that says how many scopes were looked at since its question was fixed."""
    since = answer.fixed.asked_on if answer.fixed else None
    counted = looks.since(since)
    caveats = (*answer.summary.caveats, _looks_sentence(counted, since))
    return replace(answer, summary=replace(answer.summary, caveats=caveats), looks=counted)


def _looks_sentence(looks: Looks, since: date | None) -> str:
    if looks.scopes is None or looks.first_on is None:
        return f"How many scopes of Compare and Games were looked at is not known: {looks.why}."
    if since is not None and looks.first_on <= since:
        rest = "how many elsewhere is not known"
    else:
        rest = "how many before or elsewhere is not known"
    begin = since if since is not None and looks.first_on <= since else looks.first_on
    many = f"{words.plural(looks.scopes, 'scope')} of Compare and Games"
    were = "was" if looks.scopes == 1 else "were"
    return f"{many} {were} looked at since {begin} by this user on this computer; {rest}."
