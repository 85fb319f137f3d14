"""How is a log line written?

One JSON object a line on standard error, with what the call put beside the message (request id, trace id, status).
"""

from __future__ import annotations

import json
import logging
from datetime import UTC, datetime
from typing import Any

_PLAIN = frozenset(vars(logging.makeLogRecord({}))) | {"message", "asctime", "color_message", "taskName"}


class JsonLines(logging.Formatter):
    """Formatter for one JSON object a line; control characters of a caller cannot break out of it."""

    def format(self, record: logging.LogRecord) -> str:
        line: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
        }
        line |= {name: value for name, value in vars(record).items() if name not in _PLAIN}
        if record.exc_info:
            line["exception"] = self.formatException(record.exc_info)
        return json.dumps(line, default=str)


LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": JsonLines}},
    "handlers": {"lines": {"class": "logging.StreamHandler", "formatter": "lines", "stream": "ext://sys.stderr"}},
    "loggers": {
        name: {"handlers": ["lines"], "level": "INFO", "propagate": False}
        for name in ("ampwright", "uvicorn", "uvicorn.error")
    },
}
# Its parent writes it already.
LOGGING["loggers"]["uvicorn.error"]["handlers"] = []
LOGGING["loggers"]["uvicorn.error"]["propagate"] = True
