package limnostat.config;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.config.FieldSettings.Pull;
import limnostat.config.Options.Level;
import limnostat.config.Options.Sensor;
import limnostat.measure.Role;
import limnostat.water.Nernst;

/** The rules that the wiring of a board must meet. */
final class BoardRelations {
  private final Values values;
  private final CrossChecks relations;

  BoardRelations(Values values, CrossChecks relations) {
    this.values = values;
    this.relations = relations;
  }

  void check() {
    inputs();
    relays();
    channels();
    lines();
    reach();
    brokenWire();
  }

  /** Every fitted input needs a device, and every device needs a fitted input. */
  private void inputs() {
    Optional<Sensor> sensor = values.find(Options.FLOW_SENSOR);
    values
        .find(Options.FITTED)
        .ifPresent(
            fitted -> {
              Map<String, Boolean> wanted = new LinkedHashMap<>();
              for (Role role : BoardOptions.ANALOG_ROLES) {
                wanted.put("board.analog." + role.key(), isThere(role, fitted.contains(role)));
              }
              for (Role role : BoardOptions.CONTACT_ROLES) {
                if (role != Role.FLOW) {
                  wanted.put("board.contact." + role.key(), fitted.contains(role));
                }
              }
              wanted.put("board.thermometer", true);
              sensor.ifPresent(
                  kind -> {
                    wanted.put("board.contact.flow", kind == Sensor.SWITCH);
                    wanted.put("board.pulses", kind == Sensor.METER);
                  });
              wanted.forEach(this::present);
            });
  }

  private static boolean isThere(Role role, boolean fitted) {
    return FittedRoles.ALWAYS.contains(role) || fitted;
  }

  private void present(String table, boolean wanted) {
    if (wanted && !values.hasTable(table)) {
      relations.refuse(
          values.positionOf("board"),
          table,
          "is missing",
          "one device an input",
          "add [" + table + "]");
    } else if (!wanted && values.hasTable(table)) {
      boolean flow = table.equals("board.pulses") || table.equals("board.contact.flow");
      relations.refuse(
          values.positionOf(table),
          table,
          flow ? "does not go with flow.sensor" : "is not in inputs.fitted",
          "one device an input",
          flow ? "remove it or change flow.sensor" : "remove it or add the input there");
    }
  }

  private void relays() {
    present(Options.RELAY_CHLORINE.table, true);
    if (values.hasTable("acid")) {
      present(Options.RELAY_ACID.table, true);
    } else if (values.hasTable(Options.RELAY_ACID.table)) {
      relations.refuse(
          values.positionOf(Options.RELAY_ACID.table),
          Options.RELAY_ACID.table,
          "there is no [acid] table",
          "",
          "add it or remove the relay");
    }
    for (DriveOptions drive : List.of(Options.CHLORINE_DRIVE, Options.ACID_DRIVE)) {
      values
          .find(drive.drive)
          .filter(Drive.PROPORTIONAL::equals)
          .ifPresent(
              proportional ->
                  relations.refuse(
                      "the board switches relays only",
                      "relay",
                      "write \"relay\", or remove [board]",
                      drive.drive));
    }
  }

  private void channels() {
    Map<String, String> taken = new HashMap<>();
    Options.BOARD_ANALOG.forEach(
        (role, adc) ->
            values
                .find(adc.address)
                .ifPresent(
                    address ->
                        values
                            .find(adc.channel)
                            .ifPresent(
                                channel ->
                                    claim(
                                        taken,
                                        "channel "
                                            + channel
                                            + " of I2C address "
                                            + adc.address.form().show(address),
                                        adc.channel))));
  }

  private void lines() {
    Map<String, String> taken = new HashMap<>();
    for (Option<?> option : Options.ALL) {
      if (option.form() == BoardOptions.LINE) {
        values.find(option).ifPresent(line -> claim(taken, "GPIO line " + line, option));
      }
    }
  }

  /** Refuses the later of the two in the file. */
  private void claim(Map<String, String> taken, String what, Option<?> option) {
    String other = taken.putIfAbsent(what, option.table());
    if (other == null) {
      return;
    }
    boolean later = values.positionOf(option.path()).line() >= values.positionOf(other).line();
    String table = later ? option.table() : other;
    String path = table + "." + option.key();
    relations.refuse(
        values.positionOf(path),
        path,
        what + " is taken by [" + (later ? other : option.table()) + "]",
        "one device each",
        "correct one of the two");
  }

  /** A safety limit outside the converter's range would never trip. */
  private void reach() {
    Options.BOARD_ANALOG.forEach(
        (role, adc) ->
            values
                .find(adc.gain)
                .filter(gain -> gain == 0)
                .ifPresent(
                    gain ->
                        relations.refuse(
                            "0 would make every value the same",
                            "a number that is not 0",
                            "write what the front end has",
                            adc.gain)));
    values
        .find(Options.ORP_HIGH)
        .ifPresent(
            limitMv ->
                values
                    .find(Options.ORP_OFFSET)
                    .ifPresent(
                        offsetMv -> reach(Role.ORP_MV, "limits.orp_high", limitMv - offsetMv)));
    for (Option<Double> limit : List.of(Options.PH_DOSING_MIN, Options.PH_DOSING_MAX)) {
      values
          .find(limit)
          .ifPresent(ph -> reach(Role.PH_MV, limit.path(), (7 - ph) * Nernst.slopeMvPerPh(40)));
    }
  }

  /** A single-ended input reads from 0 to its full scale. */
  private void reach(Role role, String limit, double inputMv) {
    BoardOptions.Adc adc = Options.BOARD_ANALOG.get(role);
    Optional<Integer> fullScaleMv = values.find(adc.fullScale);
    Optional<Double> zeroMv = values.find(adc.zero);
    Optional<Double> gain = values.find(adc.gain).filter(g -> g != 0);
    if (fullScaleMv.isEmpty() || zeroMv.isEmpty() || gain.isEmpty()) {
      return;
    }
    double atConverterMv = zeroMv.get() + gain.get() * inputMv;
    if (!(atConverterMv >= 0 && atConverterMv < fullScaleMv.get())) {
      relations.refuse(
          limit + " would be " + Written.number(atConverterMv) + " mV at the converter",
          "0 mV to below " + fullScaleMv.get() + " mV",
          "correct full_scale, zero or gain",
          adc.fullScale,
          adc.zero,
          adc.gain,
          adc.address);
    }
  }

  /**
   * With a broken wire the pull resistor sets the level of the line. That level must not read as
   * flow.
   */
  private void brokenWire() {
    BoardOptions.Contact flow = Options.BOARD_CONTACT.get(Role.FLOW);
    Optional<Level> active = values.find(flow.active);
    Optional<Pull> pull = values.find(flow.pull);
    if (active.isPresent()
        && pull.isPresent()
        && pull.get() == (active.get() == Level.LOW ? Pull.DOWN : Pull.UP)) {
      relations.refuse(
          "a broken wire would read as flow",
          "a pull against the active level",
          "use active = \"low\" with pull = \"up\", or \"high\" with \"down\"",
          flow.pull,
          flow.active);
    }
  }
}
