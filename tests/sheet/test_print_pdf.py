"""PDF files: pages counted, everything said, no warning, both carried faces, the same bytes again."""

from __future__ import annotations

import re
import shutil
import subprocess
import zlib
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from evenpitch.sheet.document import Paper
from evenpitch.sheet.print_pdf import pdf_bytes, pdf_with_warnings
from sheet.every_block import document
from sheet.job_sheet import job_sheet

POPPLER = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="poppler-utils not installed: nothing to read the PDF with"
)


@cache
def sheet(spaces: int, paper: Paper, cautions: int = 8) -> bytes:
    pdf, warnings = pdf_with_warnings(job_sheet(spaces, paper, cautions))
    assert warnings == ()
    return pdf


def read(pdf: bytes, folder: Path, tool: str, *options: str) -> str:
    file = folder / "sheet.pdf"
    file.write_bytes(pdf)
    end = ["-"] if tool == "pdftotext" else []
    return subprocess.run([tool, *options, str(file), *end], capture_output=True, text=True, check=True).stdout


def pages(pdf: bytes, folder: Path) -> int:
    return int(next(line.split()[1] for line in read(pdf, folder, "pdfinfo").splitlines() if line.startswith("Pages:")))


@POPPLER
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_97_spaces_are_two_pages(paper: Paper, tmp_path: Path) -> None:
    pdf = sheet(97, paper)
    assert pages(pdf, tmp_path) == 2
    text = read(pdf, tmp_path, "pdftotext", "-layout")
    assert "1 of 2" in text
    assert "2 of 2" in text
    assert "192000" in text
    assert "Sources" in text


@POPPLER
def test_more_spaces_take_more_pages_and_lose_none(tmp_path: Path) -> None:
    pdf = sheet(200, "letter")
    assert pages(pdf, tmp_path) == 3
    words = set(read(pdf, tmp_path, "pdftotext").split())
    assert {str(k) for k in range(1, 201)} <= words


@POPPLER
def test_a_column_that_is_too_long_flows_on(tmp_path: Path) -> None:
    pdf = sheet(20, "a4", 60)
    text = read(pdf, tmp_path, "pdftotext", "-layout")
    assert text.count("Stop button tried: the motor lets go.") == 60
    assert pages(pdf, tmp_path) == 3


@POPPLER
def test_every_block_is_said(tmp_path: Path) -> None:
    pdf, warnings = pdf_with_warnings(document())
    assert warnings == ()
    text = " ".join(read(pdf, tmp_path, "pdftotext").split())
    for said in (
        "28 teeth, mn 2 & <b>", "Travel needed is 24.5 in; the table has 22.", "not for cutting", "runs on", "59.594", "28, right-hand",
        "6857 × 24", "not proven", "1979", "Guard on.", "Set the table.", "8 spaces < 9 holes", "28 × 10/7 = 40", "span found",
        "In the notes column.", "Everything", "1 of",
    ):  # fmt: skip
        assert said in text, said


@POPPLER
def test_only_the_carried_faces_and_tagged_pictures(tmp_path: Path) -> None:
    faces = read(sheet(97, "a4"), tmp_path, "pdffonts").splitlines()[2:]
    assert faces
    assert all("LibertinusSerif" in face or "DejaVuSansMono" in face for face in faces)
    assert all(" yes yes " in face for face in faces)
    assert b"/Alt" in pdf_text_of_objects(sheet(97, "a4"))


def pdf_text_of_objects(pdf: bytes) -> bytes:
    """The file with its compressed parts opened."""
    opened = [pdf]
    for found in re.finditer(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S):
        try:
            opened.append(zlib.decompress(found.group(1)))
        except zlib.error:
            continue
    return b"".join(opened)


@POPPLER
def test_no_lettering_below_10_points(tmp_path: Path) -> None:
    """Sizes as the file sets them; half a size is allowed for what the reader of the file rounds."""
    xml = read(sheet(97, "a4"), tmp_path, "pdftotext", "-bbox")
    heights = [
        float(line.split('yMax="')[1].split('"')[0]) - float(line.split('yMin="')[1].split('"')[0])
        for line in xml.splitlines()
        if "<word" in line
    ]
    assert min(heights) >= 9.5


def test_the_same_document_gives_the_same_bytes() -> None:
    assert pdf_bytes(document()) == pdf_bytes(document())


def test_a_letter_that_no_face_draws_is_a_warning_not_a_failure() -> None:
    pdf, warnings = pdf_with_warnings(replace(document(), title="歯車"))
    assert pdf.startswith(b"%PDF")
    assert any("could not be displayed" in warning for warning in warnings)
