"""The simulated cell and the emulated instruments in front of it."""
