"""Our own faults, written to a small log that never grows beyond its bound."""

from __future__ import annotations

import logging
import logging.handlers
from pathlib import Path

from evenpitch.store.where import places

LARGEST_LOG = 200_000
KEPT_LOGS = 3


def log_fault() -> Path | str:
    """Write the fault being handled to the log with its trace; where it stands, or the reason it could not be written."""
    logger = logging.getLogger("evenpitch.faults")
    logger.propagate = False
    try:
        path = places().log / "faults.log"
        path.parent.mkdir(parents=True, exist_ok=True)
        handler = logging.handlers.RotatingFileHandler(
            path, maxBytes=LARGEST_LOG, backupCount=KEPT_LOGS, encoding="utf-8", delay=True
        )
        handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
        logger.addHandler(handler)
        try:
            logger.exception("fault of ours")
        finally:
            logger.removeHandler(handler)
            handler.close()
    except OSError as trouble:
        return f"no file ({trouble.strerror or trouble})"
    return path
