"""/v1/catalogue-export and /v1/catalogue-imports: how does a whole catalogue get from one service to another?"""

from __future__ import annotations

import io
from tempfile import SpooledTemporaryFile
from typing import BinaryIO

from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.api.writers import writer
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.faults import Conflict
from ampwright.catalogue.intake import import_lines
from ampwright.contract.catalogue_exchange import CatalogueImport, CatalogueImported
from ampwright.studies.catalogue_writing import facets_of_body

LINES = "application/x-ndjson"
KEPT_IN_MEMORY_BYTES = 4_000_000  # what is longer waits in the folder for temporary files
operations = Operations(
    "Exchange",
    "The whole catalogue with its history, from one service to another, byte for byte. For what is larger than a "
    "request may be there are the commands ampwright export and ampwright import.",
)


@operations.get("/v1/catalogue-export", "export_catalogue", lane="database", sends=(LINES,), compress=False)
def export(call: Call) -> Reply[BinaryIO]:
    """Export the catalogue.

    One line a revision, release and withdrawal, with the stored bytes and their hashes. Two services with the same
    history give the same bytes, whichever database each has. Access keys and the audit trail are left out.
    """
    # Written out before it is sent: a slow reader would keep the view of the database open.
    file = SpooledTemporaryFile(max_size=KEPT_IN_MEMORY_BYTES)  # noqa: SIM115  # closed by who streams it
    try:
        for line in export_lines(call.services.database):
            call.cancel.check()
            file.write(line)
    except BaseException:
        file.close()
        raise
    return Reply(file, media_type=LINES)  # type: ignore[arg-type]  # a BinaryIO in all but name


@operations.post(
    "/v1/catalogue-imports",
    "import_catalogue",
    lane="database",
    scope="release",
    statuses={200: "All of it is here."},
    problems=("contradictory-request", "not-ready"),
    larger_body="The command `ampwright import FILE` takes an export of any size, beside the running service.",
)
def bring_in(body: CatalogueImport, call: Call) -> CatalogueImported:
    """Bring in an export, all of it or nothing.

    Every hash is verified, and what is here already must be the same. A key needs the scopes release and
    catalogue:write.
    """
    if call.key is not None and "catalogue:write" not in call.key.scopes:
        raise ProblemError("forbidden", "The key has no scope 'catalogue:write'.")
    who = writer(call, body.by)
    lines = (line.encode() for line in io.StringIO(body.ndjson, newline="\n") if line != "\n")
    try:
        done = import_lines(call.services.database, lines, facets_of=facets_of_body, who=who)
    except Conflict as error:
        fault = ProblemFault(code="import_refused", message=str(error), pointer="/ndjson")
        raise ProblemError("contradictory-request", "Nothing was taken.", errors=[fault]) from None
    call.services.store.forget_standing()
    return CatalogueImported(
        revisions=done.revisions,
        releases=done.releases,
        withdrawals=done.withdrawals,
        new_revisions=done.new_revisions,
        new_releases=done.new_releases,
        new_withdrawals=done.new_withdrawals,
    )
