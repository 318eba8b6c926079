"""Every kind of check there is, in one place; a new one is added here."""

from frame.study.governing import Checker
from frame.study.parts.anchors import anchor_checks
from frame.study.parts.braces import brace_checks
from frame.study.parts.clamps import clamp_checks
from frame.study.parts.ground import ground_checks
from frame.study.parts.guys import guy_checks
from frame.study.parts.joints import joint_checks
from frame.study.parts.local_rails import local_rail_checks
from frame.study.parts.pipes import pipe_checks
from frame.study.parts.rails import rail_checks, tie_checks
from frame.study.parts.sleeve import sleeve_checks
from frame.study.parts.splices import splice_checks
from frame.study.parts.u_bolts import u_bolt_checks
from frame.study.parts.welds import weld_checks

CHECKERS: tuple[Checker, ...] = (
    pipe_checks,
    brace_checks,
    splice_checks,
    sleeve_checks,
    weld_checks,
    joint_checks,
    u_bolt_checks,
    rail_checks,
    local_rail_checks,
    tie_checks,
    clamp_checks,
    guy_checks,
    anchor_checks,
    ground_checks,
)
