"""Makes the pictures of README anew from the demo game: `python tools/pictures.py`."""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "src"))

from boxwright.build import Asked, build  # noqa: E402 - the path comes first
from boxwright.choose.chance import Chance  # noqa: E402
from boxwright.paper.frame import Look  # noqa: E402
from boxwright.paper.outs import key, sheets  # noqa: E402
from boxwright.paper.outs.printing import Printing  # noqa: E402
from boxwright.paper.render import render  # noqa: E402

DEMO = ROOT / "examples" / "tide-mill"
PICTURES = ROOT / "docs" / "pictures"
SEED = 7
PPI = 60.0


def main() -> None:
    """Write one pupils' sheet and the first page of the key."""
    look = Look("a4", 12, "en")
    built = build(Asked(DEMO, chance=Chance(SEED)))
    printing = Printing(built.folder, built.edition, look)
    PICTURES.mkdir(exist_ok=True)
    for name, pages in (("sheet", sheets.pages(printing)), ("key", key.pages(printing))):
        first = next(iter(pages))
        (PICTURES / f"{name}.png").write_bytes(render([first], look, "png", ppi=PPI)[0])


if __name__ == "__main__":
    main()
