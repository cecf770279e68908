"""The growth with its fit and what the fit leaves, and the Tafel line where there are several currents."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from gui.findings.plot_data import Axis, PlotData, linear_axis, log_axis
from gui.findings.small_plot import SmallPlot
from gui.findings_texts import growth_rows, growth_sentence, tafel_rows, tafel_sentence
from gui.fonts import font
from gui.numbers import time_label
from gui.theme import Theme
from gui.widgets.value_table import ValueTable
from gui.words import translate
from logger.scale import marks, time_step

if TYPE_CHECKING:
    from logger.analysis.growth_curve import GrowthCurve

__all__ = ["GrowthView", "TafelView", "growth_plot", "residual_plot", "tafel_plot"]

MARKS_ACROSS, MARKS_UP = 4.0, 5.0


class GrowthView(QWidget):
    """Readings and model over time since the salt, and residuals below."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sentence = _wrapped()
        self._table = ValueTable()
        self.plot = SmallPlot(theme, translate("Findings", "Growth and fitted curve"), 210)
        self.residuals = SmallPlot(theme, translate("Findings", "Readings less fit"), 150)
        _stack(self, self._sentence, self.plot, self.residuals, self._table)

    def show_growth(self, findings: Mapping[str, Any], curve: GrowthCurve | None) -> None:
        """Show the growth; the sentence says why where there is no fit."""
        sentence = growth_sentence(findings)
        self._sentence.setText(sentence)
        self.plot.show_data(growth_plot(curve), sentence)
        self.residuals.show_data(residual_plot(curve), sentence)
        self._table.show_rows(growth_rows(findings))


class TafelView(QWidget):
    """Settled voltages over the logarithm of the current, with the line through them."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sentence = _wrapped()
        self._table = ValueTable()
        self.plot = SmallPlot(theme, translate("Findings", "Voltage over current, Tafel line"), 230)
        _stack(self, self._sentence, self.plot, self._table)

    def show_tafel(self, findings: Mapping[str, Any]) -> None:
        """Show the Tafel line; the sentence says why where there is none."""
        self._sentence.setText(tafel_sentence(findings))
        self.plot.show_data(tafel_plot(findings), tafel_sentence(findings))
        self._table.show_rows(tafel_rows(findings))


def growth_plot(curve: GrowthCurve | None) -> PlotData | None:
    """Return the growth as a plot."""
    if curve is None:
        return None
    across = _time_axis(curve)
    fitted = curve.fitted_V
    shown = curve.voltage_V if fitted is None else np.concatenate([curve.voltage_V, fitted])
    up = linear_axis(shown, translate("Findings", "Cell voltage, V"), MARKS_UP)
    if fitted is None:
        return PlotData(curve.times_s, curve.voltage_V, across, up)
    return PlotData(curve.times_s, curve.voltage_V, across, up, curve.times_s, fitted)


def residual_plot(curve: GrowthCurve | None) -> PlotData | None:
    """Return what the fit leaves as a plot; None without a fit."""
    residual_V = None if curve is None else curve.residual_V
    if curve is None or residual_V is None:
        return None
    residual_mV = 1000 * residual_V
    largest = float(np.abs(residual_mV).max())
    up = linear_axis(np.array([-largest, largest]), translate("Findings", "Readings less fit, mV"), 3.0)
    return PlotData(curve.times_s, residual_mV, _time_axis(curve), up, shows_zero=True)


def tafel_plot(findings: Mapping[str, Any]) -> PlotData | None:
    """Return the Tafel points and their line as a plot; None where there is none."""
    from logger.analysis.tafel_line import tafel_line  # late: the window is to be there soon

    found = tafel_line(findings)
    if found is None:
        return None
    heights = np.concatenate(
        [found.voltage_V - found.half_width_V, found.voltage_V + found.half_width_V, found.line_V]
    )
    return PlotData(
        found.log_mA,
        found.voltage_V,
        log_axis(found.log_mA, translate("Findings", "Current, mA")),
        linear_axis(heights, translate("Findings", "Cell voltage, V"), MARKS_UP),
        found.line_log_mA,
        found.line_V,
        found.half_width_V,
    )


def _time_axis(curve: GrowthCurve) -> Axis:
    last_s = float(curve.times_s[-1])
    step_s = time_step(max(last_s, 1.0), MARKS_ACROSS)
    found = tuple((at_s, time_label(at_s, step_s)) for at_s in marks(0.0, last_s, step_s))
    return Axis(-0.03 * last_s, 1.03 * last_s, found, translate("Findings", "since the salt"))


def _wrapped() -> QLabel:
    label = QLabel()
    label.setFont(font(14))
    label.setWordWrap(True)
    return label


def _stack(owner: QWidget, *widgets: QWidget) -> None:
    layout = QVBoxLayout(owner)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(8)
    for widget in widgets:
        layout.addWidget(widget)
    layout.addStretch(1)
