"""Every picture of `figures/`, made from the rack files of `cases/`.

Run as `python -m frame.draw.figures [CASES [FIGURES]]` from the top folder.
"""

import sys
from pathlib import Path

from frame.casefile.syntax import read_text
from frame.draw.whats import MOVING, DrawingAsked, draw

MOVES = "orchard_wall"
"""The case whose moving picture is kept too."""


def make(cases: Path, figures: Path) -> tuple[Path, ...]:
    """Draw the two panes of every rack file in `cases`, as `rack draw` does; return the pictures.

    And the moving picture of one.
    """
    figures.mkdir(parents=True, exist_ok=True)
    made = []
    for file in sorted(cases.glob("*.toml")):
        asked = DrawingAsked(text=read_text(file), name=file.name)
        made.append(figures / f"{file.stem}.png")
        draw("panes", asked, made[-1])
        if file.stem == MOVES:
            made.append(figures / f"{file.stem}.gif")
            draw(MOVING, asked, made[-1])
    return tuple(made)


if __name__ == "__main__":
    given = [Path(word) for word in sys.argv[1:3]]
    usual = [Path("cases"), Path("figures")]
    for picture in make(*given, *usual[len(given) :]):
        sys.stdout.write(f"{picture}\n")
