"""What would undo the headline, described for every reader."""

from typing import TYPE_CHECKING

from seasonboard.answers.compare.recording_checks import AS_IT_DIFFERS
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Field, Group, Kind, of, why
from seasonboard.answers.layout import listed

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer

TITLE = "What would undo this"


def _what_if(name: str, path: str, meaning: str) -> Group:
    return estimate(name, of(path), meaning, kind=Kind.RATIO, key="rate_ratio")


UNDO = Group(
    "undo",
    of("undo"),
    (
        Field("e_value", "E-value of the headline", Kind.RATIO, of("e_value.value")),
        Field(
            "e_value_of_limit",
            "E-value of its limit nearer 1; 1 where the interval holds 1",
            Kind.RATIO,
            of("e_value.of_limit"),
        ),
        Group(
            "wear_flips",
            lambda undo: undo,
            (
                Field(
                    "needed",
                    "injuries that undo the headline if recorded with the guard off for on",
                    Kind.COUNT,
                    of("flips.needed"),
                ),
                Field(
                    "candidates",
                    "injuries that might be recorded so: of guard owners, hurt bare",
                    Kind.COUNT,
                    of("flips.candidates"),
                ),
                Field(
                    "unrecorded",
                    "of those, the ones for which nobody recorded whether the guard was on",
                    Kind.COUNT,
                ),
                why(of("flips.why")),
            ),
            "injuries whose wear, recorded otherwise, undoes the headline",
        ),
        Field(
            "attendance_share",
            "least share of site-exposures that undoes the headline if never recorded",
            Kind.SHARE,
        ),
        Field("attendance_of", "whose site-exposures: bare or guarded", get=of("lost")),
        Group(
            "bounds",
            lambda undo: undo,
            (
                _what_if(
                    "all_flipped", "all_flipped", "the ratio with every candidate recorded so"
                ),
                Group("", of("recording"), AS_IT_DIFFERS),
            ),
            "how far wrong records could carry the ratio",
        ),
        _what_if("bias_analysis", "bias", "the ratio if wear was not always recorded"),
        why(of("why")),
    ),
    "what would undo the headline; it describes, and decides nothing",
    optional=True,
)


def _sentences(answer: "CompareAnswer") -> tuple[str, ...]:
    return () if answer.undo is None else answer.undo.sentences


undo_lines = listed(f"{TITLE}:", _sentences)
"""Return the sentences under their heading; nothing where it was not asked for."""
