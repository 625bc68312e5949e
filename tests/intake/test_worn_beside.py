"""Lists of attendance or injuries with a column on guards worn give rows of wear, too."""

from tests.intake.desk import Source

LOG = "Player,Date,Status,Guard worn?\nAna Reed,2026-09-05,full,{ana}\n"


def worn(source: Source, answer: str) -> list[tuple[str, str]]:
    plan = source.plan(source.file(LOG.format(ana=answer), "status log.csv"))
    return plan.rows["wear"].select("guard", "worn").rows() if "wear" in plan.rows else []


def test_yes_and_no_are_worn_and_not_worn(source: Source) -> None:
    ((guard, said),) = worn(source, "Yes")
    assert said == "yes"
    assert worn(source, "no") == [(guard, "no")]


def test_not_sure_gives_no_row_and_is_told(source: Source) -> None:
    text = LOG.format(ana="Not sure") + "Ana Reed,2026-09-06,full,yes\n"
    plan = source.plan(source.file(text, "status log.csv"), keep_good=True)
    assert any("neither" in note.expected for note in plan.notes)
