"""Drawing turns on the board: what is asked, the plan, and a question before it is frozen."""

import secrets
from dataclasses import replace
from datetime import date

from textual import work

from seasonboard.answers.source import AnswerSource
from seasonboard.answers.turns.planning import DrawOptions, DrawPlan
from seasonboard.entries import Written
from seasonboard.errors import IntakeError, Problem, SeasonboardError
from seasonboard.scope import Scope
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.forms.form import (
    FieldKind,
    FormField,
    FormLists,
    FormValues,
    InputForm,
)
from seasonboard.ui.forms.form_screen import FormScreen
from seasonboard.ui.forms.form_values import (
    FormDraft,
    SaveOutcome,
    with_needed,
    with_proposals,
    with_refused,
)
from seasonboard.ui.forms.plan_form import read_number
from seasonboard.ui.windows.confirm import AskScreen

FREEZE = "y"
_SEEDS = 2**31


def _propose(_values: FormValues, form_lists: FormLists) -> dict[str, str]:
    return {"draw": form_lists.lists.free_key("turns"), "drawn_on": form_lists.day()}


DRAW = InputForm(
    "Draw whose preventive guard comes first",
    (
        FormField(
            "department", "department", FieldKind.LINE, finds="departments", is_required=True
        ),
        FormField("kind", "kind", FieldKind.LINE, finds="kinds", hint="empty: every kind made"),
        FormField("prints_per_week", "prints a week", hint="empty: as its plan says"),
        FormField("drawn_on", "drawn on", FieldKind.DAY, is_required=True),
        FormField("starts_on", "week 1 from", FieldKind.DAY, hint="empty: the next Monday"),
        FormField("ready_days", "ready in days", hint="empty: the median from print to fitting"),
        FormField("leave_out", "medical need", hint="keys of athletes who get no turn"),
        FormField("seed", "seed", hint="a whole number; empty: one is made"),
        FormField("draw", "key", is_required=True),
        FormField("board_number", "review board", hint="its number; research needs one"),
        FormField("no_board_reason", "none, because", hint="why no review board is needed"),
    ),
    propose=_propose,
)


class DrawForm(FormScreen):
    """Asks how turns are drawn, shows the plan, and freezes the draw once that is confirmed."""

    KEYS = "Tab next · ↑↓ choose · ↵ takes it · ^s plan · Esc leaves · * is needed"

    def __init__(self, answer_source: AnswerSource, scope: Scope) -> None:
        """Draw from the scope of the board, on the day that is typed."""
        departments = scope.departments or ()
        start = {"department": departments[0]} if len(departments) == 1 else {}
        super().__init__(DRAW, answer_source, start)
        self._scope = scope
        self.plan: DrawPlan | None = None

    def begins_at(self) -> str:
        """Return the department, or what stands after it where it is known."""
        return "kind" if self._draft.values.get("department") else "department"

    def attempt(
        self, draft: FormDraft, form_lists: FormLists, _doubts: tuple[str, ...]
    ) -> SaveOutcome:
        """Make the plan; runs in a thread."""
        draft = with_needed(with_proposals(replace(draft, problems={}), form_lists))
        if draft.problems:
            return SaveOutcome(draft)
        outcome = outcome_of(lambda: self._planned(draft.values), DRAW.title)
        if isinstance(outcome, IntakeError):
            wrong, others = with_refused(draft, outcome.problems)
            return SaveOutcome(wrong, others)
        if isinstance(outcome, SeasonboardError):
            return SaveOutcome(draft, (str(outcome),))
        self.plan = outcome
        return SaveOutcome(draft)

    def _planned(self, values: FormValues) -> DrawPlan:
        """Return the plan of what is typed, refused field by field."""
        options, drawn_on = read_draw(values)
        kinds = (values["kind"],) if values.get("kind") else self._scope.kinds
        asked = replace(
            self._scope, through=drawn_on, departments=(values["department"],), kinds=kinds
        )
        return self._answer_source.plan_draw(asked, options)

    def _attempted(self, draft: FormDraft, outcome: SaveOutcome) -> None:
        """Show the plan and ask; else what is wrong."""
        super()._attempted(draft, outcome)
        plan, self.plan = self.plan, None
        if plan is not None:
            title = "Draw the order now, and freeze it?"
            asked = AskScreen(title, plan.sentences(), {FREEZE: "draw it and freeze it"})
            self.app.push_screen(asked, lambda reply: self._replied(plan, reply))

    def _replied(self, plan: DrawPlan, reply: str | None) -> None:
        if reply == FREEZE:
            self._freeze(plan)

    @work(thread=True, exclusive=True, group="freeze")
    def _freeze(self, plan: DrawPlan) -> None:
        entry_writer = self._answer_source.entry_writer
        assert entry_writer is not None  # noqa: S101 - a form is opened only where there is one
        entry = plan.entry()
        written = outcome_of(lambda: entry_writer.write(entry), DRAW.title)
        self.call_later(self._frozen, entry.label, written)

    def _frozen(self, label: str, written: Written | SeasonboardError) -> None:
        """Tell the board, and leave; or say why it could not be written."""
        if isinstance(written, SeasonboardError):
            self._tell((str(written),))
            return
        self.has_written(label, written.load_no)
        self.dismiss(None)


def read_draw(values: FormValues) -> tuple[DrawOptions, date]:
    """Return how turns are drawn, and the day, as typed.

    Raises:
        IntakeError: A field cannot be read; its problem is named after its column.
    """
    problems: list[Problem] = []

    def read(name: str, *, is_whole: bool = False) -> float | None:
        text = values.get(name, "").strip()
        number = read_number(text, is_whole=is_whole)
        if text and number is None:
            kind = "a whole number" if is_whole else "a number"
            problems.append(Problem("", None, name, text, f"is not {kind}; write one, or nothing."))
        return number

    def day(name: str) -> date | None:
        text = values.get(name, "").strip()
        try:
            return date.fromisoformat(text) if text else None
        except ValueError:
            problems.append(Problem("", None, name, text, "is no day, such as 2026-09-07."))
            return None

    prints, seed = read("prints_per_week", is_whole=True), read("seed", is_whole=True)
    ready, starts_on, drawn_on = read("ready_days"), day("starts_on"), day("drawn_on")
    board, reason = (values.get(name, "").strip() for name in ("board_number", "no_board_reason"))
    if not board and not reason:
        said = "is needed, or why none is: drawing turns is research in many places."
        problems.append(Problem("", None, "board_number", None, said))
    if problems or drawn_on is None:
        raise IntakeError("The draw cannot be planned so.", problems)
    options = DrawOptions(
        seed=secrets.randbelow(_SEEDS) if seed is None else int(seed),
        draw=values["draw"].strip(),
        board_number=board,
        no_board_reason=reason,
        prints_per_week=None if prints is None else int(prints),
        starts_on=starts_on,
        ready_days=ready,
        leave_out=tuple(filter(None, values.get("leave_out", "").replace(",", " ").split())),
    )
    return options, drawn_on
