"""Every kind of check there is, in one place; a new one is added here."""

from frame.parts.checker import Alike, Checker, guyed, guys_fitted, panel_tilt, soil, stay_tilt
from frame.parts.forces import pulled_at_corners
from frame.parts.ground.posts import ground_checks
from frame.parts.guys.anchors import anchor_checks
from frame.parts.guys.guys import guy_checks
from frame.parts.rails.clamps import clamp_checks
from frame.parts.rails.local_rails import local_rail_checks
from frame.parts.rails.rail_ends import rail_end_checks
from frame.parts.rails.rails import rail_checks, tie_checks
from frame.parts.rails.tilt_stops import tilt_stop_checks
from frame.parts.rails.u_bolts import u_bolt_checks
from frame.parts.steel.braces import brace_checks
from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.sleeve import sleeve_checks
from frame.parts.steel.splices import splice_checks
from frame.parts.welds.guy_lugs import guy_lug_checks
from frame.parts.welds.joints import joint_checks
from frame.parts.welds.lugs import lug_checks
from frame.parts.welds.stay_heads import stay_head_checks
from frame.parts.welds.tabs import tab_checks
from frame.parts.welds.welds import weld_checks
from frame.parts.whole import rack_checks

CHECKERS: tuple[Checker, ...] = (
    Alike(pipe_checks),
    Alike(brace_checks, (stay_tilt,)),
    Alike(splice_checks),
    Alike(sleeve_checks),
    Alike(weld_checks, (stay_tilt,)),
    Alike(lug_checks),
    Alike(tab_checks, (stay_tilt,)),
    Alike(joint_checks),
    Alike(u_bolt_checks, (pulled_at_corners,)),
    Alike(tilt_stop_checks),
    Alike(rail_checks, (pulled_at_corners, panel_tilt)),
    Alike(local_rail_checks, (panel_tilt,), local=True),
    Alike(tie_checks),
    Alike(rail_end_checks, (guys_fitted,)),
    Alike(clamp_checks, (panel_tilt,), local=True),
    Alike(stay_head_checks, (stay_tilt,)),
    Alike(guy_checks, (guys_fitted,)),
    Alike(guy_lug_checks, (guys_fitted,)),
    Alike(anchor_checks, (guys_fitted,)),
    Alike(ground_checks, (soil, guyed)),
    Alike(rack_checks),
)
