"""What customers take home, until it expires."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "hand_outs",
        sa.Column("secret", sa.String(43), primary_key=True),
        sa.Column("sheet", sa.Text(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("expires_at", sa.String(32), nullable=False, index=True),
        sa.Column("idempotency_key", sa.String(255), unique=True),
        sa.Column("request_digest", sa.String(64), nullable=False),
    )


def downgrade() -> None:
    """Take the table away."""
    op.drop_table("hand_outs")
