"""${message}"""

from alembic import op
import sqlalchemy as sa

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}


def upgrade() -> None:
    """Migrate upwards."""
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    """Migrate downwards."""
    ${downgrades if downgrades else "pass"}
