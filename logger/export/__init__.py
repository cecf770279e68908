"""Handing a recording over to others."""
