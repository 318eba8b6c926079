"""Why a rack moves: what of the sway at the post top comes from the ground."""

from frame.idealize.actions import PUSHES
from frame.idealize.posts import post_name
from frame.solved.blocks import Block

UY, RX = 1, 3


def ground_share(block: Block) -> float:
    """Share of the post top's movement across the beam that the ground gives, 0 to 1.

    Under a level push shared out as the weights are: what the post moves and turns at grade, its
    pipe stiff, over what its top moves. Guys left out.
    """
    rack, marks, response = block.rack, block.frame.ideal.marks, block.frame.response
    push = response.model.load_index[PUSHES[1]]
    name = post_name(rack, 0)
    grade, top = marks[f"{name} at grade"], marks[f"{name} top"]
    moved = response.displacements[push]
    height = response.model.nodes[top].xyz[2]
    stiff = moved[grade, UY] - moved[grade, RX] * height
    share = stiff / moved[top, UY] if moved[top, UY] else 0.0
    return float(min(max(share, 0.0), 1.0))
