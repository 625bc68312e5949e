"""Makes README's picture of the board from the sample season.

python -m tests.pictures
"""

import asyncio
import re
from dataclasses import replace
from pathlib import Path

from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.wiring import open_sample

FOLDER = Path(__file__).resolve().parent.parent / ".images"


async def take(screen: str, size: tuple[int, int], **parts: object) -> None:
    """Open the board at one size and scope, and keep what it shows as SVG."""
    with open_sample() as board:
        app = SeasonboardApp(lambda: board, screen=screen)
        async with app.run_test(size=size) as pilot:
            await app.workers.wait_for_complete()
            await pilot.pause()
            assert app.scope is not None
            app.scope = replace(app.scope, **parts)  # type: ignore[arg-type]
            await pilot.pause()
            await app.workers.wait_for_complete()
            await pilot.pause()
            picture = app.export_screenshot(title="seasonboard")
    # The picture must not fetch a font from anywhere.
    picture = re.sub(r"@font-face\s*\{.*?\}", "", picture, flags=re.DOTALL)
    picture = picture.replace("Fira Code,", "DejaVu Sans Mono, Menlo, Consolas,")
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / f"{screen}.svg").write_text(picture, "utf-8")


def main() -> None:
    """Make it."""
    asyncio.run(take("compare", (120, 40), kinds=("shin",)))


if __name__ == "__main__":
    main()
