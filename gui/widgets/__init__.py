"""Small widgets without logic."""
