"""The parts of the findings page: budget, growth, Tafel, windows, export."""
