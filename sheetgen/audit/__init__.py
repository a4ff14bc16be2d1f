"""The audit: what came back against what was sent. Rules of one family stand in one file."""
