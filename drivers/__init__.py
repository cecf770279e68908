"""Instruments: bytes in, samples out. Knows no file and no screen."""
