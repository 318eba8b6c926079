"""The shop's numbers for other programs: one JSON document, and a CSV file for each table."""

import csv
import io
from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from frame.report.shop.cut_plan_data import CUT_HEAD, clearance_data, cut_plan_data, cut_rows
from frame.shop.job import Job
from frame.shop.job_words import amount_words, foot_words, price_words
from frame.shop.steel.pieces import Joint, Mark, Piece, on_tape
from frame.shop.steel.templates import Template
from frame.shop.words import (
    CAUTION,
    around_words,
    end_words,
    hole_words,
    on_words,
    stock_words,
    tape,
)
from frame.shop.yard.lines import GuyLine
from frame.shop.yard.proof import anchor_tests
from frame.shop.yard.trenches import Trench
from frame.units import DEG, KG_WEIGHT

Data = dict[str, Any]
SCHEMA = 1
STEP = 10
"""Of the points of a template every so many are written."""


def document(job: Job) -> Data:
    """Return everything as plain data: SI, angles in degrees where the key says so."""
    return {
        "schema": SCHEMA,
        "rack": job.rack.name,
        "bracing": list(job.bracing),
        "racks": job.racks,
        "tilt_deg": job.tilt / DEG,
        "caution": CAUTION,
        "pieces": [
            {**_piece(p, job.rack.units), "there": job.there.count_of(p)} for p in job.pieces
        ],
        "joints": [_joint(j) for j in job.joints],
        "templates": [_template(t) for t in job.templates],
        "ground": {"slope_deg": job.ground.slope / DEG, "falls": job.ground.falls},
        "stakes": [
            {"name": s.name, "xyz": s.point.tolist(), "group": s.group or None} for s in job.stakes
        ],
        "measures": [
            {
                "from": m.first,
                "to": m.second,
                "tape": on_tape(m.tape, job.rack.units),
                "level": on_tape(m.level, job.rack.units),
                "checks": m.checks,
            }
            for m in job.measures
        ],
        "trenches": [_trench(t, job.rack.units) for t in job.trenches],
        "guys": [_guy(line, job) for line in job.lines],
        "cards": [asdict(card) for card in job.cards],
        "cut_plan": cut_plan_data(job),
        "shopping": [
            {**asdict(item), "to_buy": item.to_buy(job.racks)} for item in job.shopping.items
        ],
        "cost_each": job.shopping.cost,
        "welds": [asdict(weld) for weld in job.welds],
        "bolts": [asdict(bolt) for bolt in job.bolted],
        "raising": asdict(job.raising),
        "clearance": clearance_data(job),
        "feet": foot_words(job),
        "crowded": [asdict(one) for one in job.crowded],
        "moved_rails": [asdict(one) for one in job.moved],
        "neighbours": asdict(job.beside) if job.beside else None,
    }


def _piece(piece: Piece, system: str) -> Data:
    data = asdict(piece)
    ends = [
        {
            "kind": end.kind,
            "onto": end.onto or None,
            "header": end.header or None,
            "angle_deg": end.angle / DEG,
            "offset": end.offset,
            "bore": end.bore or None,
            "flanks": end.flanks,
            "reach": end.reach or None,
            "words": end_words(end, system),
        }
        for end in piece.ends
    ]
    return {
        **{k: data[k] for k in ("letter", "name", "count", "kind", "stock", "od", "wall")},
        "length": on_tape(piece.length, system),
        "length_exact": piece.length,
        "length_words": tape(piece.length, system),
        "weight": piece.weight,
        "ends": ends,
        "lines": list(piece.lines),
        "marks": [_mark(m, piece, system) for m in piece.marks],
    }


def _mark(mark: Mark, piece: Piece, system: str) -> Data:
    return {
        "name": mark.name,
        "at": on_tape(mark.at, system),
        "at_exact": mark.at,
        "at_words": tape(mark.at, system),
        "around_deg": None if mark.around is None else mark.around / DEG,
        "around_words": around_words(mark, piece, system),
        "off": mark.off,
        "up": mark.up or None,
        "hole": mark.hole or None,
        "on": list(mark.on),
    }


def _joint(joint: Joint) -> Data:
    return {
        "name": joint.name,
        "kind": joint.kind,
        "apart": joint.apart,
        **{
            key: {"letter": p.letter, "number": p.number, "where": p.where}
            for key, p in (("first", joint.first), ("second", joint.second))
        },
    }


def _guy(line: GuyLine, job: Job) -> Data:
    tests = anchor_tests(job.result, job.lines) if job.result else {}
    test = tests.get(line.group)
    return {
        "name": line.name,
        "group": line.group,
        "tilt_deg": None if line.tilt is None else line.tilt / DEG,
        "eye": line.eye.point.tolist(),
        "eye_on": line.eye.carrier,
        "eye_number": line.eye.number,
        "eye_mark": f"eye of {line.group}, {line.eye.which}",
        "anchor": line.anchor.tolist(),
        "pins": on_tape(line.pins, job.rack.units),
        "cut": on_tape(line.cut, job.rack.units),
        "rise_deg": line.rise / DEG,
        "proof_pull": test[0] if test else None,
        "pull": test[1] if test else None,
    }


def _trench(one: Trench, system: str) -> Data:
    return {
        "name": f"log of {one.guy}",
        "stake": one.stake,
        "post": one.post,
        "xyz": one.point.tolist(),
        "out": on_tape(one.out, system),
        "level": on_tape(one.level, system),
        "from_post": on_tape(one.from_post, system),
        "depth": one.depth,
        "rod": on_tape(one.rod, system),
        "rise_deg": one.slope / DEG,
        "far": one.far,
    }


def _template(one: Template) -> Data:
    return {
        "letter": one.letter,
        "where": one.where,
        "count": one.count,
        "od": one.od,
        "girth": one.girth,
        "depth": one.depth,
        "across": one.across[::STEP].tolist(),
        "cut": one.cut[::STEP].tolist(),
    }


def csv_tables(job: Job) -> dict[str, str]:
    """Return every table as the text of a CSV file, by the name of the file."""
    found = {"cut_list.csv": _cut_list(job), "marks.csv": _marks(job)}
    found["shopping.csv"] = _shopping(job)
    if job.cuts:
        found["cuts.csv"] = as_csv(CUT_HEAD, cut_rows(job))
    if len(job.stakes) > 1:
        found["stakes.csv"] = _stakes(job)
    return found


def _shopping(job: Job) -> str:
    system = job.rack.units
    head = ("what", "for_one", "to_buy", "cost", "note")
    rows = [
        (
            item.name,
            amount_words(item, item.amount, system),
            amount_words(item, item.to_buy(job.racks), system),
            price_words(item, job),
            item.note,
        )
        for item in job.shopping.items
    ]
    return as_csv(head, rows)


def _stakes(job: Job) -> str:
    system = job.rack.units
    head = ("from", "to", "tape", "tape_m", "level_m", "checks_only", "deep_m", "rod", "rod_m")
    rows: list[tuple[str, ...]] = [
        (
            m.first,
            m.second,
            tape(m.tape, system),
            f"{on_tape(m.tape, system):.5f}",
            f"{on_tape(m.level, system):.5f}",
            "yes" if m.checks else "no",
            "",
            "",
            "",
        )
        for m in job.measures
    ]
    rows += [
        (
            start,
            f"log of {t.guy}",
            tape(length, system),
            f"{on_tape(length, system):.5f}",
            level,
            "no",
            f"{on_tape(t.depth, system):.5f}",
            tape(t.rod, system),
            f"{on_tape(t.rod, system):.5f}",
        )
        for t in job.trenches
        for start, length, level in (
            (t.stake, t.out, f"{on_tape(t.level, system):.5f}"),
            (t.post, t.from_post, ""),
        )
    ]
    return as_csv(head, rows)


def _cut_list(job: Job) -> str:
    system = job.rack.units
    head = (
        "letter", "count", "piece", "stock", "length", "length_m", "ends", "weight_kg", "there",
    )  # fmt: skip
    rows = [
        (
            p.letter,
            p.count * job.racks,
            p.name,
            stock_words(p, system),
            tape(p.length, system),
            f"{on_tape(p.length, system):.5f}",
            "; ".join(end_words(e, system) for e in p.ends),
            f"{p.weight / KG_WEIGHT:.2f}",
            job.there.count_of(p),
        )
        for p in job.pieces
    ]
    return as_csv(head, rows)


def _marks(job: Job) -> str:
    system = job.rack.units
    head = ("letter", "at", "at_m", "mark", "round", "drill", "only_on")
    rows = [
        (
            p.letter,
            tape(m.at, system),
            f"{on_tape(m.at, system):.5f}",
            m.name,
            around_words(m, p, system),
            hole_words(m, system),
            on_words(m, p),
        )
        for p in job.pieces
        for m in p.marks
    ]
    return as_csv(head, rows)


def as_csv(head: tuple[str, ...], rows: Sequence[tuple[object, ...]]) -> str:
    """Return rows under a head as CSV."""
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    return made.getvalue()
