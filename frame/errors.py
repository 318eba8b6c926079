"""Everything this package raises on purpose.

FrameError
    InputError          the rack file or an option is wrong (exit code 2)
        CatalogError    a name is not in the catalog
    MechanismError      the frame as described is loose somewhere (exit code 2)
    DisagreementError   the two solvers differ: no verdict (exit code 3)
"""

from dataclasses import dataclass


class FrameError(Exception):
    """Base of all errors a user can cause and act on; its text is one clear message."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with an input: where it stands, what is wrong, what would be right."""

    where: str
    what: str
    right: str

    def __str__(self) -> str:
        """Return the problem as one line."""
        return f"{self.where}: {self.what}; {self.right}"


class InputError(FrameError):
    """An input is wrong; carries every problem found, not just the first."""

    def __init__(self, problems: tuple[Problem, ...] | str) -> None:
        self.problems = problems if isinstance(problems, tuple) else ()
        text = problems if isinstance(problems, str) else "\n".join(map(str, problems))
        super().__init__(text)


class CatalogError(InputError):
    """A name is not in the catalog; the text offers the nearest ones."""


class MechanismError(FrameError):
    """The frame can move without straining anything; names the loose part and its motion."""


class DisagreementError(FrameError):
    """The space frame and the plane solver differ by more than the verdict can bear."""
