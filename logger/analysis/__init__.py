"""What a run says: pure functions on arrays, each with its source."""
