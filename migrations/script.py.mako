"""${message}

Rollout rule: old and new code run side by side while a deployment rolls over. So a migration only adds what old code
can ignore (a table; a column that may be empty or has a default), and code that needs it ships after it. Removing or
renaming takes two releases: first the code stops using it, then a later migration drops it. The history (revisions,
releases, members, withdrawals, audit) is never rewritten, and a downgrade that would drop data refuses.
A batch change of a table on SQLite rebuilds it without its triggers: wrap it in `kept_triggers`. Test it on a filled
database.

Revision: ${up_revision}
Follows: ${down_revision | comma,n}
"""

import sqlalchemy as sa
from alembic import op
${imports if imports else ""}
revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = ${repr(branch_labels)}
depends_on = ${repr(depends_on)}


def upgrade() -> None:
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    ${downgrades if downgrades else "pass"}
