"""What customers told at the kiosk, under short numbers, until the day ends."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "tickets",
        sa.Column("number", sa.String(6), primary_key=True),
        sa.Column("told", sa.Text(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("expires_at", sa.String(32), nullable=False, index=True),
        sa.Column("idempotency_key", sa.String(255), unique=True),
        sa.Column("request_digest", sa.String(64), nullable=False),
    )


def downgrade() -> None:
    """Take the table away."""
    op.drop_table("tickets")
