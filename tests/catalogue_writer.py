"""A process that writes revisions and says which ones were acknowledged: `python catalogue_writer.py URL NAME COUNT`.

Each write goes to the entry `shared` and to one of its own, and each acknowledgement is printed at once as
`slug revision sha256`. Tests run several of these at a time, or kill one in mid-write.
"""

import sys

from ampwright.catalogue.database import Database
from ampwright.catalogue.revisions import write_revision
from catalogue_examples import new_revision


def main(url: str, name: str, count: int) -> None:
    database = Database.at(url, allow_unflushed=True)
    print("ready", flush=True)
    for number in range(count):
        for slug in ("shared", name):
            written = write_revision(database, new_revision(slug, {"by": name, "number": number}))
            print(slug, written.revision.revision, written.revision.sha256, flush=True)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
