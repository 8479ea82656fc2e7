"""The typesetter, in a process of its own so that a server keeps its memory: JSON on standard input, PDF on standard output.

Warnings go to standard error, one a line. Compiled as PDF/UA, which refuses a letter that no carried face can draw; where a
name typed by a person holds one, it is set again without that promise, and the refusal becomes a warning.
"""

from __future__ import annotations

import sys
from importlib import resources

import typst


def typeset(data: str) -> tuple[bytes, tuple[str, ...]]:
    """The PDF of the data of a document, and the warnings of the typesetter."""
    template = resources.files("evenpitch.sheet").joinpath("sheet.typ").read_bytes()

    def compiler() -> typst.Compiler:
        return typst.Compiler(input=template, ignore_system_fonts=True, sys_inputs={"data": data})

    try:
        pdf, warnings = compiler().compile_with_warnings(format="pdf", pdf_standards="ua-1", timestamp=0)
        told: tuple[str, ...] = ()
    except typst.TypstError as refused:
        if "could not be displayed" not in refused.message:
            raise
        pdf, warnings = compiler().compile_with_warnings(format="pdf", timestamp=0)
        told = (refused.message,)
    if not isinstance(pdf, bytes):
        raise RuntimeError("the typesetter gave no single file")
    return pdf, (*told, *(warning.message for warning in warnings))


def main() -> None:
    """Read, set, write."""
    pdf, warnings = typeset(sys.stdin.buffer.read().decode("utf-8"))
    sys.stderr.writelines(f"{warning}\n" for warning in warnings)
    sys.stdout.buffer.write(pdf)


if __name__ == "__main__":
    main()
