# ruff: noqa
"""For answers whose fields are not described yet."""

import json
from functools import partial
from importlib import import_module
from typing import Any

from seasonboard.answers.output import Output


class LegacyReport:
    def __init__(self, folder: str) -> None:
        self.folder = folder

    def help(self) -> list[str]:
        return []

    def output(self, answer: Any, question: str) -> Output:
        text = import_module(f"seasonboard.answers.{self.folder}.text")
        where = (
            text
            if self.folder == "allotment"
            else import_module(f"seasonboard.answers.{self.folder}.json")
        )

        def as_json() -> str:
            return (
                json.dumps(
                    getattr(where, f"{self.folder}_json")(answer),
                    allow_nan=False,
                    ensure_ascii=False,
                    indent=1,
                )
                + "\n"
            )

        return Output(
            partial(getattr(text, f"{self.folder}_text"), answer),
            as_json,
            partial(getattr(text, f"{self.folder}_csv"), answer),
            1 if self.folder == "checks" and answer.found else 0,
        )
