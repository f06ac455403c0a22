"""The tables of a logbook file, and the number of their form."""

from typing import Final

import sqlalchemy as sa

FORM: Final = 1  # raised with each migration

METADATA: Final = sa.MetaData()

# One line for each entry. No statement of this project changes or deletes one.
ENTRY: Final = sa.Table(
    "entry",
    METADATA,
    sa.Column("site", sa.String(40), primary_key=True),
    sa.Column("sequence", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("id", sa.String(64), nullable=False),
    sa.Column("text", sa.Text, nullable=False),  # as first stored, never made anew
    sa.Column("hash", sa.String(64), nullable=False),  # over the hash before it and this text
    sa.UniqueConstraint("site", "id", name="entry_once"),
)

# What the lines add up to, kept beside them so that it need not be worked out again: a head for each site, and parts
# that seldom change. All of it can be dropped at any time: it is made anew from the lines, never migrated.
KEPT_FORM: Final = "1"
KEPT: Final = sa.MetaData()
HEAD: Final = sa.Table(
    "kept_head",
    KEPT,
    sa.Column("site", sa.String(40), primary_key=True),
    sa.Column("sequence", sa.Integer, nullable=False),  # of the last line that it holds
    sa.Column("hash", sa.String(64), nullable=False),  # of that line, so that it can hold for no other history
    sa.Column("made_by", sa.String(64), nullable=False),  # which release with which evidence
    sa.Column("text", sa.Text, nullable=False),
)
PART: Final = sa.Table(
    "kept_part",
    KEPT,
    sa.Column("site", sa.String(40), primary_key=True),
    sa.Column("kind", sa.String(12), primary_key=True),
    sa.Column("id", sa.String(80), primary_key=True),
    sa.Column("text", sa.Text, nullable=False),
)

# What was forecast of a batch, and from what: the last one of each is kept, and shown with its age.
FORECAST: Final = sa.Table(
    "kept_forecast",
    KEPT,
    sa.Column("site", sa.String(40), primary_key=True),
    sa.Column("batch", sa.String(60), primary_key=True),
    sa.Column("entry", sa.String(64), nullable=False),  # the last entry about the batch that it knows of
    sa.Column("model", sa.String(64), nullable=False),
    sa.Column("seed", sa.Integer, nullable=False),
    sa.Column("made", sa.String(40), nullable=False),  # UTC
    sa.Column("text", sa.Text, nullable=False),
)

# What the file itself is.
BOOK: Final = sa.Table(
    "book",
    METADATA,
    sa.Column("key", sa.String(40), primary_key=True),
    sa.Column("value", sa.Text, nullable=False),
)
