package limnostat.scan;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import limnostat.measure.CalibrationAge;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;

/**
 * Calibrations by command. Each replaces the file's, until it is undone or the file's values
 * change: whoever edits a file means it.
 *
 * @param made by probe; absent: the file's applies
 * @param points the last buffer of this function check, or none
 * @param still how long each probe's signal has been steady in this function check
 */
public record Calibrations(
    Map<Role, Calibrated> made, List<PhPoint> points, Map<Role, Still> still) {
  public static final Calibrations OF_THE_FILE = new Calibrations(Map.of(), List.of(), Map.of());

  /**
   * @param offsetMv for pH the offset at pH 7, for ORP what is added to it, mV
   * @param slopeFraction fraction of the Nernst slope; 1 for ORP
   * @param atUnixS time of the calibration, Unix s; 0: not known
   */
  public record Values(double offsetMv, double slopeFraction, double atUnixS) {}

  /**
   * @param file the file's values at that time
   */
  public record Calibrated(Values now, Values file) {}

  /** What the electrode read in a buffer: pH, mV, °C. */
  public record PhPoint(double ph, double mv, double temperatureC) {}

  /** Data read back from a ledger is validated like any untrusted input. */
  public Calibrations {
    made = ordered(made);
    points = List.copyOf(points);
    still = ordered(still);
    made.forEach((role, c) -> Calibration.checkPlausible(role, c.now()));
  }

  private static <T> Map<Role, T> ordered(Map<Role, T> map) {
    EnumMap<Role, T> ordered = new EnumMap<>(Role.class);
    ordered.putAll(map);
    return Collections.unmodifiableMap(ordered);
  }

  /** Advances time, in or outside a function check. */
  Calibrations step(Signals signals, boolean checking, double elapsedS) {
    if (!checking) {
      return points.isEmpty() && still.isEmpty()
          ? this
          : new Calibrations(made, List.of(), Map.of());
    }
    Map<Role, Still> next = new EnumMap<>(Role.class);
    for (Role role : Calibration.BANDS_MV.keySet()) {
      if (signals.of(role) instanceof Signal.Analog analog && Double.isFinite(analog.value())) {
        next.put(
            role,
            still
                .getOrDefault(role, new Still(analog.value(), analog.value(), 0))
                .next(analog.value(), Calibration.BANDS_MV.get(role), elapsedS));
      }
    }
    return new Calibrations(made, points, next);
  }

  /** The settings with the calibrations by command applied. */
  MeasureSettings on(MeasureSettings file) {
    if (made.isEmpty()) {
      return file;
    }
    Values orp = of(Role.ORP_MV, file);
    Values ph = of(Role.PH_MV, file);
    return new MeasureSettings(
        file.orp(),
        orp.offsetMv(),
        file.ph(),
        new PhCalibration(ph.offsetMv(), ph.slopeFraction()),
        file.water(),
        file.waterFallbackC(),
        file.flow(),
        file.freshWaterS(),
        file.fitted(),
        age(file.orpCalibrated(), orp),
        age(file.phCalibrated(), ph),
        file.pumpSign());
  }

  private static CalibrationAge age(CalibrationAge file, Values values) {
    return values.atUnixS() == 0
        ? file
        : new CalibrationAge(OptionalDouble.of(values.atUnixS()), file.longestS());
  }

  /** The values that apply to a probe now. */
  Values of(Role role, MeasureSettings file) {
    return made.containsKey(role) ? made.get(role).now() : ofFile(role, file);
  }

  static Values ofFile(Role role, MeasureSettings file) {
    return role == Role.PH_MV
        ? new Values(
            file.phCalibration().offsetMv(),
            file.phCalibration().slopeFraction(),
            file.phCalibrated().atUnixS().orElse(0))
        : new Values(file.orpOffsetMv(), 1, file.orpCalibrated().atUnixS().orElse(0));
  }

  /** After a restart: if the file's values have changed, the file takes precedence. */
  Calibrations resumed(MeasureSettings file) {
    Map<Role, Calibrated> stays = new EnumMap<>(Role.class);
    made.forEach(
        (role, calibrated) -> {
          if (calibrated.file().equals(ofFile(role, file))) {
            stays.put(role, calibrated);
          }
        });
    return new Calibrations(stays, points, Map.of());
  }

  Calibrations with(Role role, Values now, MeasureSettings file, List<PhPoint> nextPoints) {
    Map<Role, Calibrated> next = new EnumMap<>(Role.class);
    next.putAll(made);
    next.put(role, new Calibrated(now, ofFile(role, file)));
    return new Calibrations(next, nextPoints, still);
  }

  Calibrations without(Role role) {
    Map<Role, Calibrated> next = new EnumMap<>(Role.class);
    next.putAll(made);
    next.remove(role);
    return new Calibrations(next, List.of(), still);
  }
}
