"""What holds of every answer in words: nothing that only a program would say, no bare null."""

import json

from seasonboard.answers.fields import Group, Table

PROMISES = ("prevent", "safe", "protect", "guarantee")
"""Words that no claim says."""
SAID = {"question", "scope", "answer", "caveats", "left_out"}


def nulls_without_why(found, path=""):
    """Return where a number is null and nothing beside it says why."""
    if isinstance(found, list):
        return [
            bad for i, one in enumerate(found) for bad in nulls_without_why(one, f"{path}[{i}]")
        ]
    if not isinstance(found, dict):
        return []
    is_bin = "returned" in found  # the last one of severity has no end
    null = [k for k, v in found.items() if v is None and not (is_bin and k == "high")]
    bad = [f"{path}.{k}" for k in null if not (found.get("why") or found.get(f"{k}_why"))]
    for key, value in found.items():
        if key != "scope":  # there, null is everything
            bad += nulls_without_why(value, f"{path}.{key}")
    return bad


def plain(text):
    """Say whether a text holds nothing that only a program would say."""
    words = set(text.lower().replace("(", " ").replace(")", " ").replace(",", " ").split())
    return not words & {"nan", "inf", "-inf", "none", "null", "none."}


def check_words(found, question):
    """Check what all have in JSON: words that end, and counts with their reason."""
    assert found.keys() >= SAID
    assert found["question"] == question
    assert found["answer"].endswith((".", ")"))
    assert plain(found["answer"])
    assert all(plain(caveat) for caveat in found["caveats"])
    assert all(left["count"] > 0 and left["why"] for left in found["left_out"])


def check_said(found, question):
    """Check also that there are caveats, that numbers are finite, and a reason for each null."""
    check_words(found, question)
    assert found["caveats"]
    json.dumps(found, allow_nan=False)
    bad = nulls_without_why(found)
    assert bad == [], bad


def nulls_not_optional(elements, printed):
    """Yield what is null, is not optional, and has no `why` (`FIELD_why`) beside it."""
    for one in elements:
        if isinstance(one, Group) and one.in_json:
            inner = printed if not one.name else printed.get(one.name)
            if inner is not None:
                yield from _within(one, inner)
        elif isinstance(one, Table):
            if one.name not in printed and one.optional:
                continue
            if printed[one.name] is None and not printed.get("why"):
                yield one.name
            for row in printed[one.name] or ():
                yield from _within(one, row)
        elif one.in_json and not one.name.endswith("why") and printed[one.name] is None:
            has_why = printed.get("why") or printed.get(f"{one.name}_why")
            if not (one.optional or has_why):
                yield one.name


def _within(one, printed):
    return (f"{one.name}.{name}" for name in nulls_not_optional(one.elements, printed))
