"""How do search and a release grow from 500 to 50,000 entries, on both databases?

`python tests/bench/catalogue_scale.py [ENTRIES ...]`. What `ampwright bench catalogue` prints, also on a PostgreSQL
that the tests bring. Ratios from one run on one machine; no test is timed.
"""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from ampwright.bench.catalogue_rows import measured
from ampwright.bench.measured import told
from databases import BACKENDS, Servers, fresh_database


def main(sizes: list[int]) -> None:
    """Measure every size on both databases."""
    with tempfile.TemporaryDirectory(prefix="ampwright-bench-") as folder:
        servers = Servers(Path(folder))
        try:
            for size in sizes:
                for backend in BACKENDS:
                    with fresh_database(servers, backend) as database:
                        print(told(f"CATALOGUE, {backend}", list(measured(database, size))))
        finally:
            servers.close()


if __name__ == "__main__":
    main([int(argument) for argument in sys.argv[1:]] or [500, 50_000])
