"""The bench: where readings come from, and what stands on the table."""
