"""Several runs side by side: what they saved together, how they scatter, and whether blanks do the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

import numpy as np

from logger.analysis.caution import Caution, Cautions
from logger.analysis.compared_run import ComparedRun, Kind, leave_out_copies, leave_out_unlike
from logger.analysis.outlier import FEWEST_VALUES, GrubbsTest, grubbs_test, second_outlier
from logger.analysis.refusal import Refused
from logger.analysis.replicates import (
    FEWEST_REPLICATES,
    AgainstBlanks,
    Replicates,
    against_blanks,
    replicates,
)
from logger.analysis.uncertainty import Component, combine
from logger.version import PROGRAM, VERSION

__all__ = ["Group", "RunComparison", "compare_runs"]

_EXPLAINED_PROBABILITY = 0.05
_COMPARED_KEYS = ("anode", "cathode", "electrolyte", "pH", "metal_salt", "salt_mass_mg", "stirring_rpm")


@dataclass(frozen=True, slots=True)
class Group:
    """The runs, or the blanks, of a comparison.

    Attributes
    ----------
    values_V : tuple of float
        What each run in the statistics saved.
    statistics : Replicates or None
        None with fewer than two.
    interval95_with_meter_V : tuple of float or None
        The interval of the mean with the gain of the meter, which the scatter of runs with one meter does
        not show.
    usual_uncertainty_V : float
        Root mean square of the runs' own standard uncertainties.
    excess_probability : float or None
        How often runs with these uncertainties would scatter as much by chance.
    outlier_test : GrubbsTest or None
        None with fewer than three.
    second_outlier : GrubbsTest or None
        That of a second run that lies off, once the first is set aside; both are flagged then.
    without_outlier : Replicates or None
        What is left without the flagged runs, for comparison only; None where none is flagged.
    """

    values_V: tuple[float, ...]
    statistics: Replicates | None
    interval95_with_meter_V: tuple[float, float] | None
    usual_uncertainty_V: float
    excess_probability: float | None
    outlier_test: GrubbsTest | None
    second_outlier: GrubbsTest | None
    without_outlier: Replicates | None

    @property
    def scatter_is_explained(self) -> bool | None:
        """Whether the runs' own uncertainties explain how they scatter; None where that cannot be told."""
        return None if self.excess_probability is None else self.excess_probability >= _EXPLAINED_PROBABILITY


@dataclass(frozen=True, slots=True)
class RunComparison:
    """What several runs say together.

    `at_equal_current` tells which saving is compared: corrected to the current before, or as measured
    where a run has no other.
    """

    runs: tuple[ComparedRun, ...]
    at_equal_current: bool
    with_salt: Group
    blanks: Group
    against_blanks: AgainstBlanks | None
    cautions: tuple[Caution, ...]

    @property
    def document(self) -> dict[str, Any]:
        """The comparison as plain data.

        Returns
        -------
        dict
            ``program``, ``version``; ``quantity`` (``saved_at_equal_current`` or ``saved_as_measured``);
            ``runs``, one object a file in the order given: the fields of `ComparedRun` without its bench,
            and ``saved``, the saving compared; ``with_salt`` and ``blanks``, the fields of `Group` (null
            where no such run is in the statistics); ``against_blanks``, those of `AgainstBlanks` or null;
            ``warnings`` with code, message and file-independent ``at_s`` null. Volts throughout.
        """
        quantity = "saved_at_equal_current" if self.at_equal_current else "saved_as_measured"
        return {
            "program": PROGRAM,
            "version": VERSION,
            "quantity": quantity,
            "runs": [self._run(one) for one in self.runs],
            "with_salt": _group(self.with_salt),
            "blanks": _group(self.blanks),
            "against_blanks": None if self.against_blanks is None else asdict(self.against_blanks),
            "warnings": [asdict(one) for one in self.cautions],
        }

    def _run(self, one: ComparedRun) -> dict[str, Any]:
        saved = one.saved(self.at_equal_current)
        fields = {**asdict(one), "saved": None if saved is None else asdict(saved)}
        del fields["bench"]
        return fields


def compare_runs(runs: Sequence[ComparedRun]) -> RunComparison:
    """Compare several runs.

    Parameters
    ----------
    runs : sequence of ComparedRun
        Two or more; see `logger.analysis.compared_run.compared_run`.

    Returns
    -------
    RunComparison

    Raises
    ------
    Refused
        Fewer than two runs, or the same run twice: it would pass for a replicate.

    Notes
    -----
    A run without salt is a blank. Left out of the statistics, and said, are runs without a saving or with a
    voltage that had not settled, copies of another, and those whose current (10 %) or area (1 %) is not that
    of most others.
    Mean, scatter and interval: JCGM 100, 4.2. Difference from blanks: Welch. One outlying value is flagged by
    Grubbs' test, two by Rosner's, and stay in. Whether the runs' own uncertainties explain their scatter:
    chi-square of the weighted residuals, 5 %.
    """
    if len(runs) < 2:
        raise Refused("runs to compare", len(runs), "there is nothing to compare", "name two or more")
    _check_distinct(runs)
    return _Comparison(leave_out_unlike(leave_out_copies(runs))).made()


def _check_distinct(runs: Sequence[ComparedRun]) -> None:
    seen: dict[str, str] = {}
    for one in runs:
        if one.uuid in seen:
            raise Refused(
                "runs to compare",
                one.file,
                f"it is the same run as {seen[one.uuid]}, which would pass for a replicate",
                "name each run once",
            )
        seen[one.uuid] = one.file


class _Comparison:
    """One comparison in progress."""

    def __init__(self, runs: tuple[ComparedRun, ...]) -> None:
        self._runs = list(runs)
        self._cautions = Cautions()
        used = [one for one in runs if not one.left_out]
        self._at_equal_current = bool(used) and all(one.at_equal_current is not None for one in used)

    def made(self) -> RunComparison:
        self._tell_runs()
        with_salt, blanks = self._group("run"), self._group("blank")
        self._tell_groups(with_salt, blanks)
        difference = None
        if min(len(with_salt.values_V), len(blanks.values_V)) >= 2:
            try:
                difference = against_blanks(with_salt.values_V, blanks.values_V)
            except Refused as refusal:
                self._cautions.say(
                    "no_difference", f"Runs and blanks were not compared: {refusal.explained}."
                )
        return RunComparison(
            runs=tuple(self._runs),
            at_equal_current=self._at_equal_current,
            with_salt=with_salt,
            blanks=blanks,
            against_blanks=difference,
            cautions=self._cautions.all,
        )

    def _group(self, kind: Kind) -> Group:
        places = [k for k, one in enumerate(self._runs) if one.kind == kind and not one.left_out]
        savings = [self._runs[k].saved(self._at_equal_current) for k in places]
        values = [one.value_V for one in savings if one is not None]
        doubts = [one.standard_uncertainty_V for one in savings if one is not None]
        gains = [self._runs[k].meter_gain_uncertainty_V for k in places]
        statistics = replicates(values) if len(values) >= 2 else None
        test = grubbs_test(values) if len(values) >= FEWEST_VALUES else None
        second = None if test is None else second_outlier(values, test)
        without = None if test is None else self._flag(places, values, test, second)
        return Group(
            values_V=tuple(values),
            statistics=statistics,
            interval95_with_meter_V=None if statistics is None else _with_meter(statistics, gains),
            usual_uncertainty_V=float(np.sqrt(np.mean(np.square(doubts)))) if doubts else 0.0,
            excess_probability=_excess_probability(values, doubts, gains),
            outlier_test=test,
            second_outlier=second,
            without_outlier=without,
        )

    def _flag(
        self, places: Sequence[int], values: Sequence[float], test: GrubbsTest, second: GrubbsTest | None
    ) -> Replicates | None:
        """Mark the runs that lie off, and tell of them; return what is left without them."""
        off = [test.index] if second is None else [test.index, second.index]
        verdict = test.verdict if second is None else second.verdict
        if verdict == "none":
            return None
        for index in off:
            self._runs[places[index]] = replace(self._runs[places[index]], outlier=verdict)
        files = [self._runs[places[index]].file for index in off]
        if second is None:
            self._tell_outlier(files[0], test)
        else:
            self._tell_outliers(files, second)
        return replicates(np.delete(values, off))

    def _tell_runs(self) -> None:
        for one in self._runs:
            for reason in one.left_out:
                self._cautions.say("left_out", f"{one.file} is not in the statistics: {reason}.")
            if one.kind == "blank":
                self._cautions.say("taken_as_blank", f"{one.file} counts as a blank: {one.kind_reason}.")
            elif one.kind_reason != "salt was tagged":
                self._cautions.say(
                    "taken_as_run", f"{one.file} counts as a run with salt: {one.kind_reason}."
                )
        used = [one for one in self._runs if not one.left_out]
        if used and not self._at_equal_current:
            self._cautions.say(
                "as_measured",
                "The savings are compared as measured, since not every run has one at equal current; those "
                "need the supply in the bench file.",
            )
        self._tell_unknown(used)
        self._tell_benches(used)

    def _tell_unknown(self, used: Sequence[ComparedRun]) -> None:
        for field, words in (("current_before_A", "currents"), ("anode_area_cm2", "anode areas")):
            unknown = [one.file for one in used if getattr(one, field) is None]
            if unknown:
                self._cautions.say(
                    "not_checked",
                    f"That the {words} are the same could not be checked for {', '.join(unknown)}; give them "
                    "in the bench file.",
                )
        bare = [one.file for one in used if one.bench.meter.accuracy_percent_of_reading is None]
        if bare and len(bare) < len(used):
            self._cautions.say(
                "meter_unknown",
                f"The meter's accuracy is not known for {', '.join(bare)}: it looks more certain than the "
                "others and is not. Give it in the bench file.",
            )

    def _tell_benches(self, used: Sequence[ComparedRun]) -> None:
        for key in _COMPARED_KEYS:
            # Blanks have no salt to be the same.
            among = [one for one in used if one.kind == "run" or not key.endswith(("salt", "salt_mass_mg"))]
            stated = {str(value) for one in among if (value := getattr(one.bench.cell, key)) is not None}
            if len(stated) > 1:
                self._cautions.say(
                    "benches_differ",
                    f"The runs differ in {key}: {'; '.join(sorted(stated))}. They are replicates only if "
                    "that does not matter.",
                )

    def _tell_outliers(self, files: Sequence[str], second: GrubbsTest) -> None:
        self._cautions.say(
            second.verdict,
            f"{files[0]} and {files[1]} lie off the others (Rosner's test for two: "
            f"{second.statistic:.2f} once the first is set aside, by chance above {second.critical1:.2f} in "
            "1 % of such sets). Look for a cause; they stay in the statistics.",
        )

    def _tell_outlier(self, file: str, test: GrubbsTest) -> None:
        critical, percent = (test.critical1, 1) if test.verdict == "outlier" else (test.critical5, 5)
        digits = _digits_apart(test.statistic, critical)
        self._cautions.say(
            test.verdict,
            f"{file} lies off the others (Grubbs' test: {test.statistic:.{digits}f}, by chance above "
            f"{critical:.{digits}f} in {percent} % of such sets). Look for a cause; it stays in the "
            "statistics.",
        )

    def _tell_groups(self, with_salt: Group, blanks: Group) -> None:
        if not with_salt.values_V:
            self._cautions.say("no_runs", "No run with salt is in the statistics.")
        elif len(with_salt.values_V) == 1:
            self._cautions.say(
                "few_replicates",
                "One run with salt cannot tell how well the experiment repeats; "
                f"make {FEWEST_REPLICATES} or more.",
            )
        elif len(with_salt.values_V) < FEWEST_REPLICATES:
            self._cautions.say(
                "few_replicates",
                f"{len(with_salt.values_V)} runs with salt cannot tell how well the experiment repeats; "
                f"make {FEWEST_REPLICATES} or more.",
            )
        if not blanks.values_V:
            self._cautions.say(
                "no_blanks",
                "No blank is in the statistics. Warming, ageing electrodes or the fresh buffer can save "
                "voltage too; run at least one with the same handling and no salt.",
            )
        elif len(blanks.values_V) < 2:
            self._cautions.say(
                "one_blank", "One blank does not show how much blanks scatter; make two or more."
            )


def _with_meter(statistics: Replicates, gains_V: Sequence[float]) -> tuple[float, float]:
    combined = combine((
        Component("runs", statistics.standard_uncertainty, 1.0, statistics.degrees_of_freedom, "A"),
        Component("meter gain", max(gains_V, default=0.0), shape="rectangular"),
    ))  # fmt: skip
    return combined.interval(statistics.mean)


def _excess_probability(
    values: Sequence[float], doubts: Sequence[float], gains: Sequence[float]
) -> float | None:
    """Return how often values with these uncertainties would scatter so much; the common gain taken off."""
    own = np.square(doubts) - np.square(gains)
    if len(values) < 2 or not (own > 0.0).all():
        return None
    from scipy.special import chdtrc  # imported late: it takes long to load

    weights = 1.0 / own
    mean = float(np.average(values, weights=weights))
    chi_square = float(np.sum(weights * np.square(np.asarray(values) - mean)))
    return float(chdtrc(len(values) - 1, chi_square))


def _group(group: Group) -> dict[str, Any] | None:
    if not group.values_V:
        return None
    return {**asdict(group), "scatter_is_explained": group.scatter_is_explained}


def _digits_apart(one: float, other: float) -> int:
    """Return how many decimals tell two numbers apart: with three runs the test is a matter of the fifth."""
    return next((n for n in range(2, 6) if f"{one:.{n}f}" != f"{other:.{n}f}"), 6)
