"""The virtual cut of one case: a file in, the object of figures and traces out."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.quantity.showing import mm, number
from evenpitch.sheet.answers import answer
from evenpitch.sheet.document import Block, Document, Row, Schedule, Section, Table, TableRow, Words
from evenpitch.store.files.bounded import read_bounded
from evenpitch.web.answer import Answer

WHAT = "a case: one JSON object with gear, cutter, setup, motion and evaluate"
SIGN = "As in the case file: µm square to the flank, + metal left on. (On the pages of a plan + is what is taken too much.)"


def flank_answer(file: Path) -> Answer:
    """The answer to a case file."""
    from evenpitch.flank.case import run_case

    case = read_case_file(read_bounded(file), file)
    found = run_case(case)
    return Answer(_document(str(case.get("name") or file.name), found), answer("flank", flank=found))


def read_case_file(content: bytes, file: Path) -> dict[str, Any]:
    """The object of a case file; a Refusal where it is none."""
    try:
        case = json.loads(content.decode("utf-8-sig"), parse_constant=_no_number)
    except UnicodeDecodeError:
        raise refuse("file", file, "text in UTF-8", "It is another kind of file.", "Check that it is the right one.") from None
    except json.JSONDecodeError as trouble:
        likely = f"Line {trouble.lineno}, column {trouble.colno}: {trouble.msg}."
        raise refuse("file", file, "JSON", likely, "Mend it there.") from None
    except RecursionError:
        raise refuse("file", file, WHAT, "It is nested too deep.", "Check that it is the right one.") from None
    if not isinstance(case, dict):
        raise refuse("file", file, WHAT, f"It holds a {_kind(case)}.", "Write the case as { ... }.")
    if "cases" in case and "gear" not in case:
        raise refuse("file", file, WHAT, f"It holds {len(case['cases'])} cases." if isinstance(case["cases"], list) else "",
                     "Take one case out of the list and write it into a file of its own.")  # fmt: skip
    return case


def _no_number(word: str) -> Refusal:
    raise refuse("file", word, "numbers", f"{word} is no number.", "Write a number there.")


def _kind(value: object) -> str:
    return {list: "list", str: "text", int: "number", float: "number", bool: "truth value"}.get(type(value), "nothing")


_FIGURES = ("F_alpha", "f_f_alpha", "f_H_alpha", "F_beta", "f_f_beta", "f_H_beta", "f_p", "F_p")


def _document(name: str, found: dict[str, Any]) -> Document:
    rows = [
        TableRow((word, *(number(found[sign][word], 3, plus=word.startswith("f_H")) for sign in ("+", "-"))))
        for word in _FIGURES
        if word in found["+"]
    ]
    span, thick = found["span"], found["tooth_thickness_dev_um"]
    more = [
        Row("inspected roll", f"{mm(found['u_mm'][0], 4)} to {mm(found['u_mm'][1], 4)}"),
        *([Row("lead", mm(found["lead_mm"], 4))] if "lead_mm" in found else []),
        Row(f"span over {span['over_teeth']}, nominal", mm(span["nominal_mm"], 4)),
        Row("span, off it", f"{number(span['mean_dev_um'], 3, plus=True)} µm, range {number(span['range_um'], 3)}"),
        Row("tooth thickness, off it", f"{number(thick['mean'], 3, plus=True)} µm, range {number(thick['range'], 3)}"),
    ]
    blocks: list[Block] = [Table(("µm", "+ flank", "− flank"), tuple(rows), right=(1, 2), note=SIGN), Schedule(tuple(more))]
    traces = [
        _trace(f"{kind} at equal distances, {sign} flank", found[sign], kind)
        for kind in ("profile", "helix")
        for sign in ("+", "-")
    ]
    sections = (
        Section("figures", "", (*blocks, *([Words(span["note"] + ".")] if span["note"] else []))),
        Section("traces", "Traces, µm", tuple(traces)),
    )
    return Document(kind="answer", title=f"Virtual cut: {name}", sections=sections)


def _trace(words: str, flank: dict[str, Any], kind: str) -> Words:
    values = next(value for key, value in flank.items() if key.startswith(f"{kind}_every_"))
    return Words(f"{words}: " + "  ".join(number(value, 2, plus=True) for value in values))
