"""Set evenpitch up and run it, or set it up and test it. Needs only Python 3.11+ with its venv part.

python3 go.py                 make the environment, set up the worked example, print its plan, serve the pages
python3 go.py test [ARGS]     make the environment with the test tools, run the tests (ARGS go to pytest)
python3 go.py check           formatting, lint, types, import contract, lock files
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
VENV = HERE / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
STAMP = VENV / "evenpitch-lock"


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def wanted(lock: Path) -> str:
    """What the environment must have been made from: this Python, this lock file, this build description."""
    digest = hashlib.sha256(sys.version.encode())
    for path in (lock, HERE / "pyproject.toml"):
        digest.update(path.read_bytes())
    return f"{lock.name} {digest.hexdigest()}"


def pip(*arguments: str) -> None:
    command = [str(PYTHON), "-m", "pip", "--disable-pip-version-check", "--quiet", "install", *arguments]
    if subprocess.run(command, stdin=subprocess.DEVNULL, check=False).returncode:
        say("The environment could not be made: see the lines above. It needs the network the first time only.")
        sys.exit(3)


def environment(*, dev: bool) -> None:
    """Make .venv from the lock file, or leave it alone where it already is what that file asks for."""
    lock = HERE / ("requirements-dev.lock" if dev else "requirements.lock")
    stamp = STAMP.read_text(encoding="utf-8") if STAMP.exists() else ""
    acceptable = {wanted(lock), wanted(HERE / "requirements-dev.lock")}
    if stamp in acceptable and PYTHON.exists():
        return
    if dev and stamp == wanted(HERE / "requirements.lock") and PYTHON.exists():
        say("Adding the test tools to the environment (.venv) ...")  # both locks pin the same releases of what both hold
        pip("--require-hashes", "-r", str(lock))
        STAMP.write_text(wanted(lock), encoding="utf-8")
        return
    say("Making the environment (.venv); the first time takes a minute or two ...")
    if VENV.exists():
        shutil.rmtree(VENV)
    try:
        import venv

        venv.create(VENV, with_pip=True, symlinks=os.name != "nt")
    except (ImportError, subprocess.CalledProcessError, OSError) as trouble:
        shutil.rmtree(VENV, ignore_errors=True)
        say(f"Python's venv part is missing or cannot write here ({trouble}): on Debian or Ubuntu, sudo apt install python3-venv")
        sys.exit(3)
    pip("--require-hashes", "-r", str(lock))
    pip("--no-deps", "--no-build-isolation", "-e", str(HERE))
    STAMP.write_text(wanted(lock), encoding="utf-8")


def run(*command: str) -> int:
    return subprocess.run(command, cwd=HERE, check=False).returncode


def tests(arguments: list[str]) -> int:
    """All tests; with no arguments spread over the cores."""
    spread = [] if arguments else ["-n", str(min(os.cpu_count() or 1, 8)), "-q"]
    return run(str(PYTHON), "-W", "error::SyntaxWarning", "-m", "pytest", *spread, *arguments)


def checks() -> int:
    """What .ci/run checks besides the tests."""
    tools = [
        ("ruff", "format", "--check", "."),
        ("ruff", "check", "."),
        ("mypy",),
        ("lint-imports",),
    ]
    failed = [tool for tool in tools if run(str(BIN / tool[0]), *tool[1:])]
    for tool in failed:
        say(f"failed: {' '.join(tool)}")
    return 1 if failed else 0


def main() -> int:
    if sys.version_info < (3, 11):
        say(f"evenpitch needs Python 3.11 or newer; this is {sys.version.split()[0]}. Install a newer Python and use it here.")
        return 3
    word, rest = (sys.argv[1], sys.argv[2:]) if len(sys.argv) > 1 and not sys.argv[1].startswith("-") else ("demo", sys.argv[1:])
    if word == "demo":
        environment(dev=False)
        return run(str(BIN / "evenpitch"), "demo", *rest)
    if word == "test":
        environment(dev=True)
        return tests(rest)
    if word == "check":
        environment(dev=True)
        return checks()
    say(__doc__ or "")
    return 1


if __name__ == "__main__":
    sys.exit(main())
