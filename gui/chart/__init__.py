"""The live chart."""
