"""Write the service's answers of today into the examples: `python tests/api/record_examples.py [OPERATION ...]`.

Prints which answers changed; a change is to be read, not taken. Tests compare, and never write.
"""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path[:0] = [str(Path(__file__).parents[1])]

from api.replayed_examples import NAMES, Replay, content_of, file_of  # noqa: E402

WIDTH = 120
MOST_SHOWN = 64_000  # characters; a longer answer helps nobody on a reference page
EXCERPT = 2  # rows of a list that grows with every code, word or table that is added


def written(value: Any, depth: int = 0) -> str:
    """JSON with a line for whatever fits on one."""
    flat = json.dumps(value, ensure_ascii=False)
    if len(flat) + depth <= WIDTH or not isinstance(value, dict | list):
        return flat
    pad = " " * (depth + 1)
    if isinstance(value, dict):
        rows = [f"{pad}{json.dumps(key, ensure_ascii=False)}: {written(one, depth + 1)}" for key, one in value.items()]
        return "{\n" + ",\n".join(rows) + "\n" + " " * depth + "}"
    return "[\n" + ",\n".join(pad + written(one, depth + 1) for one in value) + "\n" + " " * depth + "]"


def main(wanted: list[str]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        replay = Replay(Path(folder))
        for operation_id, name in NAMES:
            if wanted and operation_id not in wanted:
                continue
            file = file_of(operation_id, name)
            example = json.loads(file.read_text("utf-8"))
            response = replay.answer(operation_id, name)
            fresh = {**example, "status": response.status_code, "response": content_of(response)}
            if fresh["status"] == 200:
                del fresh["status"]
            if example.get("excerpt"):
                fresh["response"]["items"] = fresh["response"]["items"][:EXCERPT]
            elif len(response.text) > MOST_SHOWN:
                del fresh["response"]
            text = written(fresh) + "\n"
            if text != file.read_text("utf-8"):
                file.write_text(text, "utf-8")
                print(operation_id, name, response.status_code, len(response.content))
        replay.close()


if __name__ == "__main__":
    main(sys.argv[1:])
