"""The window: shows the models of logger and turns gestures into calls."""
