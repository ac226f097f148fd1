package limnostat.config;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.config.Options.Sensor;
import limnostat.config.Options.Source;
import limnostat.measure.Role;
import limnostat.safety.HardBounds;
import org.tomlj.TomlPosition;

/**
 * The rules between options. A rule is checked only if both values were accepted, so that one
 * mistake is not reported twice.
 */
final class CrossChecks {
  private final Values values;
  private final Errors errors;

  private CrossChecks(Values values, Errors errors) {
    this.values = values;
    this.errors = errors;
  }

  static void check(Values values, Errors errors) {
    CrossChecks relations = new CrossChecks(values, errors);
    Chlorination.check(values, relations);
    relations.targets();
    relations.probes();
    relations.caps();
    relations.demand();
    relations.drives();
    relations.scan();
    relations.flow();
    relations.inputs();
    relations.cellCurrent();
    relations.mqtt();
    if (values.hasTable("board")) {
      new BoardRelations(values, relations).check();
    } else if (values.find(Options.DRIVER).filter(d -> d == Options.Driver.BOARD).isPresent()) {
      relations.refuse(
          "the board is chosen but there is no [board] table",
          "a [board] table with all inputs and outputs",
          "add it, or choose \"simulated\"",
          Options.DRIVER);
    }
  }

  /**
   * Reports the refusal at the first of the options that is in the file, else where the first
   * should be.
   */
  void refuse(String what, String limit, String mend, Option<?>... involved) {
    Option<?> at =
        Arrays.stream(involved).filter(values::isWritten).findFirst().orElse(involved[0]);
    refuse(values.positionOf(at.path()), at.path(), what, limit, mend);
  }

  void refuse(TomlPosition position, String path, String what, String limit, String mend) {
    errors.add(position, path, what, limit, mend);
  }

  /** One value must be below another; with orEqual the two may be equal. */
  private void under(Option<Double> low, Option<Double> high, boolean orEqual) {
    Optional<Double> a = values.find(low);
    Optional<Double> b = values.find(high);
    if (a.isEmpty() || b.isEmpty() || a.get() < b.get() || (orEqual && a.get().equals(b.get()))) {
      return;
    }
    boolean atLow = values.isWritten(low) || !values.isWritten(high);
    String at = atLow ? low.form().show(a.get()) : high.form().show(b.get());
    String other = atLow ? high.form().show(b.get()) : low.form().show(a.get());
    refuse(
        at + (atLow ? " is too high for " + high.path() : " is too low for " + low.path()),
        (atLow ? (orEqual ? "at most " : "below ") : (orEqual ? "at least " : "above ")) + other,
        "change one of the two",
        low,
        high);
  }

  private void targets() {
    under(Options.MAKE_UP_WEEK, Options.VOLUME_M3, true);
    under(Options.TARGET_FREE_CHLORINE, Options.FREE_CHLORINE_HIGH, false);
    under(Options.FREE_CHLORINE_HIGH, Options.SUPERCHLORINATION_MAX, true);
    under(Options.NO_RESPONSE, Options.FREE_CHLORINE_HIGH, false);
    under(Options.PH_DOSING_MIN, Options.PH_DOSING_MAX, false);
    under(Options.PH_DOSING_MIN, Options.TARGET_PH, false);
    under(Options.TARGET_PH, Options.PH_DOSING_MAX, false);
    under(Options.WATER_MIN, Options.WATER_MAX, false);
  }

  /**
   * A limit outside the believable range could never trip: a value beyond the range already counts
   * as failed.
   */
  private void probes() {
    for (ProbeOptions probe : probeOptions()) {
      under(probe.rangeMin, probe.rangeMax, false);
    }
    under(Options.ORP_PROBE.rangeMin, Options.ORP_HIGH, false);
    under(Options.ORP_HIGH, Options.ORP_PROBE.rangeMax, false);
    under(Options.PH_PROBE.rangeMin, Options.PH_DOSING_MIN, false);
    under(Options.PH_DOSING_MAX, Options.PH_PROBE.rangeMax, false);
    under(Options.WATER_PROBE.rangeMin, Options.WATER_MIN, false);
    under(Options.WATER_MAX, Options.WATER_PROBE.rangeMax, false);
    under(Options.WATER_PROBE.rangeMin, Options.WATER_FALLBACK, true);
    under(Options.WATER_FALLBACK, Options.WATER_PROBE.rangeMax, true);
  }

  private static List<ProbeOptions> probeOptions() {
    return List.of(Options.ORP_PROBE, Options.PH_PROBE, Options.WATER_PROBE);
  }

  private void caps() {
    under(Options.CHLORINE_HOUR, Options.CHLORINE_DAY, true);
    perVolume(Options.CHLORINE_HOUR, HardBounds.CHLORINE_HOUR_MG_L, "g", "mg/L");
    perVolume(Options.CHLORINE_DAY, HardBounds.CHLORINE_DAY_MG_L, "g", "mg/L");
    under(Options.ACID_HOUR, Options.ACID_DAY, true);
    perVolume(Options.ACID_DAY, HardBounds.ACID_DAY_ML_M3, "mL", "mL/m3");
    block(Options.CHLORINE_DRIVE, Options.CHLORINE_HOUR, Chlorination.ratePerH(values));
    block(Options.ACID_DRIVE, Options.ACID_HOUR, values.find(Options.ACID_RATE));
    for (Option<Double> cap : List.of(Options.ACID_HOUR, Options.ACID_DAY)) {
      if (values.hasTable("acid") && !values.isWritten(cap)) {
        refuse(
            values.positionOf("limits"),
            cap.path(),
            "is missing",
            cap.form().limits(),
            "add " + cap.key() + " to [limits], for there is an [acid] table");
      } else if (!values.hasTable("acid") && values.isWritten(cap)) {
        refuse(
            "limits an acid output, but there is no [acid] table",
            "",
            "add an [acid] table or remove this key",
            cap);
      }
    }
  }

  /** 1 g in 1 m³ is 1 mg/L, so the bound times the volume is the maximum in g (or mL). */
  private void perVolume(Option<Double> cap, double bound, String unit, String boundUnit) {
    Optional<Double> amount = values.find(cap);
    Optional<Double> volumeM3 = values.find(Options.VOLUME_M3);
    if (amount.isPresent() && volumeM3.isPresent() && amount.get() > bound * volumeM3.get()) {
      refuse(
          cap.form().show(amount.get()) + " is too much for the pool",
          String.format(
              Locale.ROOT,
              "at most %s %s, %s %s of %s m3 (%s)",
              Written.number(bound * volumeM3.get()),
              unit,
              Written.number(bound),
              boundUnit,
              Written.number(volumeM3.get()),
              Range.HARD),
          "lower the cap, or correct pool.volume",
          cap);
    }
  }

  /**
   * The ledger records a block before it is fed. A block must cover at least one scan and must fit
   * within the cap.
   */
  private void block(DriveOptions drive, Option<Double> hourCap, Optional<Double> ratePerH) {
    Optional<Double> cap = values.find(hourCap);
    if (cap.isEmpty()) {
      return;
    }
    under(drive.block, hourCap, true);
    if (values.isWritten(drive.block) && values.find(drive.block).isEmpty()) {
      return;
    }
    double block = SettingsBuilder.block(values, drive, hourCap);
    Form<Double> form = hourCap.form();
    values
        .find(Options.SCAN_PERIOD)
        .filter(periodS -> ratePerH.isPresent() && ratePerH.get() * periodS / 3600 > block)
        .ifPresent(
            periodS ->
                refuse(
                    "a block of " + form.show(block) + " is less than one scan gives",
                    // rounded up, so that the value shown is accepted
                    "at least " + form.show(Math.ceil(ratePerH.get() * periodS / 3.6) / 1000),
                    "raise block or " + hourCap.path() + ", or shorten scan.period",
                    drive.block,
                    hourCap));
    values
        .find(drive.minOn)
        .filter(minOnS -> ratePerH.isPresent() && ratePerH.get() * minOnS / 3600 > cap.get())
        .ifPresent(
            minOnS ->
                refuse(
                    "the shortest on time gives more than " + hourCap.path() + " allows",
                    "at most " + form.show(cap.get()),
                    "shorten min_on, or correct the output's rate",
                    drive.minOn,
                    hourCap));
  }

  /** The rate, the caps and the pump windows must allow the configured daily demand. */
  private void demand() {
    Optional<Double> demandMgLDay = values.find(Options.DAILY_DEMAND);
    Optional<Double> volumeM3 = values.find(Options.VOLUME_M3);
    if (demandMgLDay.isEmpty() || volumeM3.isEmpty()) {
      return;
    }
    double demandGDay = demandMgLDay.get() * volumeM3.get();
    values
        .find(Options.CHLORINE_DAY)
        .filter(dayCapG -> dayCapG < demandGDay)
        .ifPresent(
            dayCapG ->
                refuse(
                    "less than pool.daily_demand uses",
                    "at least " + Written.number(demandGDay) + " g for the pool",
                    "raise it, or lower pool.daily_demand",
                    Options.CHLORINE_DAY));
    Optional<Double> ratePerH = Chlorination.ratePerH(values);
    Optional<Double> hours =
        values
            .find(Options.PUMP_WINDOWS)
            .map(
                windows ->
                    windows.isEmpty()
                        ? 24
                        : windows.stream().mapToInt(Windows::lengthS).sum() / 3600.0);
    if (ratePerH.isPresent() && hours.isPresent() && ratePerH.get() * hours.get() < demandGDay) {
      refuse(
          String.format(
              Locale.ROOT,
              "%s g/h in %s h of pump windows cannot meet pool.daily_demand",
              Written.number(ratePerH.get()),
              Written.number(hours.get())),
          "at least " + Written.number(demandGDay) + " g a day",
          "lengthen pump.windows, correct the output, or lower pool.daily_demand",
          Options.CHLORINE_OUTPUT,
          Options.CHLORINE_RATE);
    }
  }

  private void drives() {
    drive(Options.CHLORINE_DRIVE);
    if (values.hasTable("acid")) {
      drive(Options.ACID_DRIVE);
    }
  }

  private void drive(DriveOptions drive) {
    Optional<Double> cycle = values.find(drive.cycle);
    Optional<Double> minOn = values.find(drive.minOn);
    Optional<Double> minOff = values.find(drive.minOff);
    if (cycle.isPresent()
        && minOn.isPresent()
        && minOff.isPresent()
        && minOn.get() + minOff.get() > cycle.get()) {
      refuse(
          "min_on "
              + drive.minOn.form().show(minOn.get())
              + " and min_off "
              + drive.minOff.form().show(minOff.get())
              + " do not fit in the cycle",
          "together at most " + drive.cycle.form().show(cycle.get()),
          "shorten them or lengthen cycle",
          drive.minOn,
          drive.minOff,
          drive.cycle);
    }
    under(drive.minOn, drive.longestRun, true);
    Optional<Double> period = values.find(Options.SCAN_PERIOD);
    if (values.find(drive.drive).filter(Drive.RELAY::equals).isPresent()
        && cycle.isPresent()
        && period.isPresent()
        && period.get() > cycle.get() / 10) {
      refuse(
          "the cycle has too few scans for a duty",
          "at least ten times scan.period, " + Written.number(period.get()) + " s",
          "lengthen it or shorten scan.period",
          drive.cycle,
          Options.SCAN_PERIOD);
    }
  }

  private void scan() {
    under(Options.SCAN_PERIOD, Options.FLOW_PROVING, true);
    under(Options.SCAN_PERIOD, Options.READINGS_EVERY, true);
    for (ProbeOptions probe : probeOptions()) {
      under(Options.SCAN_PERIOD, probe.staleAfter, false);
    }
  }

  private void flow() {
    under(Options.FLOW_MINIMUM, Options.FLOW_MAXIMUM, false);
    values
        .find(Options.FLOW_SENSOR)
        .ifPresent(
            sensor -> {
              boolean minimum = values.isWritten(Options.FLOW_MINIMUM);
              if (sensor == Sensor.METER && !minimum) {
                refuse(
                    "is missing for a meter",
                    Options.FLOW_MINIMUM.form().limits(),
                    "add minimum to [flow]",
                    Options.FLOW_MINIMUM);
              } else if (sensor == Sensor.SWITCH && minimum) {
                refuse(
                    "is for a meter, but flow.sensor is \"switch\"",
                    "",
                    "remove it, or choose \"meter\"",
                    Options.FLOW_MINIMUM);
              }
            });
  }

  private void inputs() {
    Optional<Source> source = values.find(Options.CHLORINE_SOURCE);
    values
        .find(Options.FITTED)
        .ifPresent(
            fitted -> {
              for (Role role : fitted.stream().sorted().toList()) {
                String fault =
                    switch (role) {
                      case CELL_A, CELL_V ->
                          source.isPresent() && source.get() != Source.SALT_CELL
                              ? "needs chlorine.source \"salt_cell\""
                              : "";
                      case TANK_LOW ->
                          source.isPresent() && source.get() == Source.SALT_CELL
                              ? "needs a feeder with a tank, but chlorine.source is \"salt_cell\""
                              : "";
                      case ACID_TANK_LOW -> values.hasTable("acid") ? "" : "needs an [acid] table";
                      case ORP_MV, PH_MV, WATER_C, FLOW, COVER_CLOSED, PUMP_ON, SOLAR_W_M2 -> "";
                    };
                if (!fault.isEmpty()) {
                  refuse(
                      '"' + role.key() + "\" " + fault, "", "correct one of them", Options.FITTED);
                }
              }
            });
  }

  /** Options that use the cell's current need an ammeter. */
  private void cellCurrent() {
    under(Options.CELL_CURRENT, Options.CELL_CURRENT_MAX, false);
    boolean measured =
        values.find(Options.FITTED).filter(fitted -> fitted.contains(Role.CELL_A)).isPresent();
    for (Option<Double> option : List.of(Options.CELL_CURRENT, Options.CELL_CURRENT_MAX)) {
      if (values.find(option).isPresent() && !measured) {
        refuse(
            "needs the cell's current, but inputs.fitted has no \"cell_a\"",
            "",
            "add \"cell_a\" to inputs.fitted or remove this key",
            option);
      }
    }
  }

  private void mqtt() {
    // MQTT 3.1.1, 3.1.2.9: a password without a user name is not allowed.
    if (values.isWritten(Options.MQTT_PASSWORD_FILE) && !values.isWritten(Options.MQTT_USER)) {
      refuse(
          "a password needs a user name",
          "",
          "add user to [mqtt] or remove this key",
          Options.MQTT_PASSWORD_FILE);
    }
    if (values.isWritten(Options.MQTT_CLIENT_CERTIFICATE)
        != values.isWritten(Options.MQTT_CLIENT_KEY)) {
      refuse(
          "a certificate and its key go together",
          "",
          "write both client_certificate and client_key, or neither",
          Options.MQTT_CLIENT_CERTIFICATE,
          Options.MQTT_CLIENT_KEY);
    }
    if (values.isWritten(Options.MQTT_CLIENT_CERTIFICATE)
        && values.find(Options.MQTT_TLS).filter(tls -> !tls).isPresent()) {
      refuse(
          "has no use without encryption",
          "",
          "set tls = true or remove this key",
          Options.MQTT_CLIENT_CERTIFICATE);
    }
    if (values.isWritten(Options.MQTT_CA_FILE)
        && values.find(Options.MQTT_TLS).filter(tls -> !tls).isPresent()) {
      refuse(
          "has no use without encryption",
          "",
          "set tls = true or remove this key",
          Options.MQTT_CA_FILE);
    }
  }
}
