"""Decoders without I/O: feed(bytes) returns readings. One module a format."""
