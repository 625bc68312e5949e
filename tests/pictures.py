"""Makes README's pictures of the board from the sample season.

python -m tests.pictures
"""

import asyncio
import re
from pathlib import Path

from seasonboard.ui.app import SeasonboardApp
from seasonboard.wiring import open_sample

FOLDER = Path(__file__).resolve().parent.parent / ".images"


async def take(screen: str, keys: str, size: tuple[int, int], name: str) -> None:
    """Open the board at one size, press keys, and keep what it shows as SVG."""
    with open_sample() as board:
        app = SeasonboardApp(lambda: board, screen=screen)
        async with app.run_test(size=size) as pilot:
            await app.workers.wait_for_complete()
            await pilot.pause()
            await pilot.press(*keys)
            await app.workers.wait_for_complete()
            await pilot.pause()
            picture = app.export_screenshot(title="seasonboard")
    # The picture must not fetch a font from anywhere.
    picture = re.sub(r"@font-face\s*\{.*?\}", "", picture, flags=re.DOTALL)
    picture = picture.replace("Fira Code,", "DejaVu Sans Mono, Menlo, Consolas,")
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / f"{name}.svg").write_text(picture, "utf-8")


def main() -> None:
    """Make every picture."""
    asyncio.run(take("compare", "", (120, 40), "compare"))
    asyncio.run(take("games", "", (120, 40), "games"))


if __name__ == "__main__":
    main()
