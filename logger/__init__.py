"""A run from start to finished file, and what can be learned from it. No Qt anywhere."""
