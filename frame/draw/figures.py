"""Every picture of `figures/`, made from the rack files of `cases/`.

Run as `python -m frame.draw.figures [CASES [FIGURES]]` from the top folder.
"""

import sys
from pathlib import Path

from frame.casefile.read import read_rack
from frame.draw.rack_sheet import rack_sheet
from frame.draw.sheet import save
from frame.verdict.pictured import braced_choice, pair


def make(cases: Path, figures: Path) -> tuple[Path, ...]:
    """Draw the sheet of every rack file in `cases`, as `rack draw` does; return the pictures."""
    figures.mkdir(parents=True, exist_ok=True)
    made = []
    for file in sorted(cases.glob("*.toml")):
        rack = read_rack(file)
        shown = pair(rack, braced_choice(rack), rack.site.service_gust)
        made.append(figures / f"{file.stem}.png")
        save(rack_sheet(shown, rack.units), made[-1])
    return tuple(made)


if __name__ == "__main__":
    given = [Path(word) for word in sys.argv[1:3]]
    usual = [Path("cases"), Path("figures")]
    for picture in make(*given, *usual[len(given) :]):
        sys.stdout.write(f"{picture}\n")
