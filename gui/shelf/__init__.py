"""The shelf: recordings of a folder, and several laid over one another."""
