"""Prove the rig in the browser: judge, keep, read again; the scale, the head with its map, a wrong reading, the sheet."""

from __future__ import annotations

import math
import re
from datetime import UTC, datetime

import numpy as np
import pytest
from starlette.testclient import TestClient

from checking.made import bar, scale
from evenpitch.store.book import Book
from evenpitch.store.files.rig_file import read_rig

MILL = "Museum horizontal mill"
AT = f"/rigs/{MILL}"
BLOCKS = {"block.left": "99.984", "block.middle": "99.982", "block.right": "99.979", "cutter.middle": "99.983"}
MOUNTED = {
    "along.top_left": "0", "along.top_middle": "0.02", "along.top_right": "0.03", "along.front_left": "0",
    "along.front_middle": "-0.01", "along.front_right": "0.02", "dial.read": "63.493", "strokes.read": "0 0.001 0.002 0",
    "mount.noise": "0", **BLOCKS,
}  # fmt: skip
LINK = {"job": "B:1", "link.up": "34.9911", "link.down": "34.9378", "pen.rise": "30.6"}
"""The workshop's evening: the readings and the results of the scenario, made up for it."""


def plain(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).replace("&#39;", "'").split())


def table_of_scale(seed: int = 1, **errors: float) -> str:
    rows = [
        f"{one.run},{one.direction},{one.reference:.4f},{one.reading:.6f}" for one in scale(np.random.default_rng(seed), **errors)
    ]
    return "\n".join(["run,direction,reference_mm,reading_mm", *rows])


def table_of_head() -> str:
    readings = bar(np.random.default_rng(2), ((1, 40, 20), (40, 15, 0)), backlash=192, degrees=np.arange(0, 361, 4.1))
    rows = [
        f"bar,{one.run},{one.direction},{math.degrees(one.nominal):.4f},{one.error * 648000 / math.pi:.3f}" for one in readings
    ]
    return "\n".join(["method,run,direction,nominal_deg,reading_arcsec", *rows])


def test_an_empty_page_says_what_to_do_and_judges_nothing(museum: TestClient) -> None:
    page = museum.get(f"{AT}/prove")
    assert page.status_code == 200
    words = plain(page.text)
    assert "ten turns, 63.500 mm" in words
    assert words.count("choose a job") == 3
    assert "Keep this proof" in words
    refused = museum.post(f"{AT}/prove", data={"press": "judge"})
    assert refused.status_code == 422
    assert "Nothing was typed yet" in refused.text


def test_mounting_needs_no_job(museum: TestClient, book: Book) -> None:
    judged = plain(museum.post(f"{AT}/prove", data=MOUNTED | {"press": "judge"}).text)
    assert "Your scale reads too little by 183 ± 39 µm in a metre, the same at left, middle and right within 5 µm." in judged
    assert "5 of 5" in judged
    kept = museum.post(f"{AT}/prove", data=MOUNTED)
    assert kept.status_code == 303
    assert kept.headers["location"].endswith("/proofs/1")
    (proof,) = book.proofs(MILL)
    assert (proof.kind, proof.job, proof.typed["dial.read"]) == ("mounting", None, "63.493")
    assert proof.facts["gain_ppm"]["value"] == pytest.approx(-183, abs=1)


def test_the_link_is_proven_on_a_gear_and_the_plan_says_so(museum: TestClient, book: Book) -> None:
    before = plain(museum.get("/jobs/B/plan").text)
    assert "Not yet proven by block and bar." in before
    wanted = plain(museum.get(f"{AT}/proof?job=B").text)
    assert "must turn 34.9934°" in wanted
    judged = museum.post(f"{AT}/prove", data=MOUNTED | LINK | {"press": "judge"})
    assert judged.status_code == 200
    words = plain(judged.text)
    assert "your link is good to ±2.5 µm along the face, limited by the worm's own wave" in words
    assert "8 of 8" in words
    assert judged.text.count('class="verdict pass"') == 7
    assert judged.text.count('class="verdict doubt"') == 1
    where = museum.post(f"{AT}/prove", data=MOUNTED | LINK).headers["location"]
    shown = museum.get(where)
    assert "±2.5 µm" in shown.text
    assert "12 March 2026" in shown.text
    (proof,) = book.proofs(MILL)
    assert (proof.kind, proof.job, proof.gear) == ("link", "B", 0)
    after = plain(museum.get("/jobs/B/plan").text)
    assert "Not yet proven by block and bar." not in after
    assert "Proven on 12 March 2026." in after
    mate = plain(museum.get("/jobs/B/plan?gear=2").text)
    assert "Not yet proven by block and bar." in mate


def test_a_changed_belt_overtakes_the_proof(museum: TestClient, book: Book) -> None:
    museum.post(f"{AT}/prove", data=MOUNTED | LINK)
    text = book.rig(MILL).text.replace('belt = "20:60"', 'belt = "20:40"')
    book.add_rig(MILL, text, datetime(2026, 4, 1, tzinfo=UTC))
    assert "but the belt was changed since" in plain(museum.get("/jobs/B/plan").text)


def test_a_stop_is_not_kept(museum: TestClient, book: Book) -> None:
    half = MOUNTED | LINK | {"link.up": "17.4967", "link.down": "17.44"}
    judged = museum.post(f"{AT}/prove", data=half | {"press": "judge"})
    assert "exactly half" in judged.text
    assert "1 stop to clear" in judged.text
    assert museum.post(f"{AT}/prove", data=half).status_code == 422
    assert book.proofs(MILL) == ()


def test_faults_stand_at_their_fields_and_what_was_typed_stays(museum: TestClient) -> None:
    answer = museum.post(
        f"{AT}/prove", data=MOUNTED | LINK | {"block.left": "99,984 x", "dial.read": "sixty", "mount.noise": "-1"}
    )
    assert answer.status_code == 422
    assert answer.text.count('class="message stop"') == 3
    assert 'value="99,984 x"' in answer.text
    assert 'value="34.9911"' in answer.text
    assert "3 to clear, then keep it" in answer.text


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (b"\xff\xfe\x00x", "plain text"),
        (b"", "empty"),
        (b"check,moved_mm\ndial,63.5", "missing"),
        (b"check,place,approach,moved_mm,reading_mm\nblock,left,up,100,99,984", "decimal comma"),
        (b"check,place,approach,moved_mm,reading_mm\nblock,left,sideways,100,99.984", "up or down"),
        (b"check,place,approach,moved_mm,reading_mm\nblock,left,up,100,nan", "not a number"),
    ],
)
def test_a_table_that_cannot_be_read_is_named(museum: TestClient, content: bytes, word: str) -> None:
    answer = museum.post(f"{AT}/prove", data={"press": "judge"}, files={"file": ("readings.csv", content)})
    assert answer.status_code == 422
    assert word in plain(answer.text)


def test_a_file_and_fields_go_together(museum: TestClient) -> None:
    table = "check,place,approach,moved_mm,reading_mm\nblock,left,up,100,99.984\nblock,right,up,100,99.979\n"
    answer = museum.post(
        f"{AT}/prove", data={"press": "judge", "block.middle": "99.982 99.983"}, files={"file": ("b.csv", table.encode())}
    )
    assert "within 5 µm" in plain(answer.text)
    assert "block,right,up,100,99.979" in answer.text


def test_the_scale_is_judged_kept_and_read_again(museum: TestClient, book: Book) -> None:
    table = table_of_scale(gain=-180e-6, reversal=0.003)
    page = museum.get(f"{AT}/scale")
    assert "1,up,0," in page.text
    assert museum.post(f"{AT}/scale", data={"press": "judge", "readings": ""}).status_code == 422
    judged = museum.post(
        f"{AT}/scale", data={"press": "judge", "job": "B", "version": "1"}, files={"file": ("s.csv", table.encode())}
    )
    assert judged.status_code == 200
    assert "The scale reads too little by" in plain(judged.text)
    assert "Keep this calibration" in judged.text
    kept = museum.post(f"{AT}/scale", data={"readings": table, "version": "1"})
    assert kept.status_code == 303
    (proof,) = book.proofs(MILL)
    assert proof.kind == "scale"
    assert proof.typed["readings"] == table
    assert museum.get(f"{AT}/proofs/1/readings.csv").text.strip() == table
    assert table.splitlines()[3] in museum.get(f"{AT}/scale?from=1").text
    assert museum.get(f"{AT}/proofs/1/proof.pdf").content.startswith(b"%PDF")
    assert book.rig(MILL).version == 1


def test_the_head_is_measured_and_its_map_kept_with_the_rig(museum: TestClient, book: Book) -> None:
    before = book.rig(MILL).text
    table = table_of_head()
    judged = museum.post(f"{AT}/head", data={"press": "judge", "readings": table, "targets": "97"})
    words = plain(judged.text)
    assert "its play is 3.2′" in words
    assert "Targets of 97 with the map taken out" in words
    assert museum.post(f"{AT}/head", data={"readings": table, "version": "1"}).status_code == 303
    kept = book.rig(MILL)
    assert kept.version == 2
    assert kept.text.startswith(before.rstrip())
    newest = read_rig(kept.text).rig.latest_map()
    assert newest is not None
    assert {wave.per_turn for wave in newest.harmonics} >= {1, 40}
    assert all(wave.U is not None for wave in newest.harmonics)
    stale = museum.post(f"{AT}/head", data={"readings": table, "version": "1"})
    assert stale.status_code == 409
    assert book.rig(MILL).version == 2


def test_a_head_of_which_no_wave_is_shown_keeps_no_map(museum: TestClient, book: Book) -> None:
    rng = np.random.default_rng(4)
    rows = [f"bar,1,{side},{angle},{rng.normal(0, 3):.2f}" for angle in np.arange(0, 9.1, 0.75) for side in ("up", "down")]
    table = "\n".join(["method,run,direction,nominal_deg,reading_arcsec", *rows])
    assert museum.post(f"{AT}/head", data={"readings": table}).status_code == 303
    assert book.rig(MILL).version == 1
    assert book.proofs(MILL)[0].kind == "head"


def test_a_wrong_reading_is_explained(museum: TestClient) -> None:
    assert "Moved 50 mm, shows 200" in plain(museum.get("/reading").text)
    found = plain(museum.get("/reading?moved=50mm&shown=200mm").text)
    assert "all four edges of a period are counted, one is entered" in found
    assert "the test that decides" in found
    assert museum.get("/reading?moved=50mm&shown=").headers["location"] == "/reading?moved=50mm"
    bad = museum.get("/reading?moved=50mm&shown=much")
    assert bad.status_code == 422
    assert "“much”" in bad.text
    assert museum.get("/reading?moved=50mm&shown=200mm&rig=nowhere").status_code == 422
    assert "Nothing known here explains it" in museum.get("/reading?moved=50mm&shown=68.21mm").text


def test_the_sheets_to_fill_in(museum: TestClient) -> None:
    for path in ("prove.pdf", "prove.pdf?job=B&paper=letter", "head.pdf"):
        made = museum.get(f"{AT}/{path}")
        assert made.status_code == 200
        assert made.content.startswith(b"%PDF")
    assert museum.get(f"{AT}/prove.pdf?job=Z").status_code == 404


def test_the_rig_lists_its_proofs(museum: TestClient) -> None:
    assert "Nothing of it has been proven yet" in museum.get(AT).text
    museum.post(f"{AT}/prove", data=BLOCKS)
    museum.post(f"{AT}/prove", data=MOUNTED | LINK)
    words = plain(museum.get(AT).text)
    assert "2: link proven on B, 12 March 2026 1: mounting proven, 12 March 2026" in words


@pytest.mark.parametrize(
    "path", [f"{AT}/proofs/1", f"{AT}/proofs/1/proof.pdf", "/rigs/nowhere/prove", "/rigs/nowhere/scale", f"{AT}/prove?job=Z"]
)
def test_what_is_not_there_is_said(museum: TestClient, path: str) -> None:
    assert museum.get(path).status_code == 404


def test_the_usual_rig_form_names_no_prover(museum: TestClient) -> None:
    """A rig that cannot be linked still proves its mounting; a job on it is not offered."""
    museum.post("/rigs/new", data={"name": "Hand mill", "head.ratio": "40", "plate.0.circles": "15, 16, 17"})
    words = plain(museum.get("/rigs/Hand mill/prove").text)
    assert "No helical job with its face is planned on this rig yet" in words
    answer = museum.post("/rigs/Hand mill/prove", data={"press": "judge", "dial.read": "63.5"})
    assert answer.status_code == 422
    assert "screw lead" in plain(answer.text)
