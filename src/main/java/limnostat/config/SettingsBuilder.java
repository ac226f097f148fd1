package limnostat.config;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.config.FieldSettings.LineIn;
import limnostat.config.FieldSettings.LineOut;
import limnostat.config.FieldSettings.OneWire;
import limnostat.config.FieldSettings.PulseIn;
import limnostat.config.Options.Level;
import limnostat.control.ControlSettings;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.TestKit;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.safety.ProcessLimits;
import limnostat.safety.RunLimits;
import limnostat.safety.SafetyLimits;
import limnostat.safety.SetpointLimits;
import limnostat.scan.NetworkRules;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanSettings.Channel;

/** Puts the values of a file without faults into the settings records of the stages. */
final class SettingsBuilder {
  private static final double SECONDS_A_DAY = 86400;

  /** Codes on either side of zero of a 16-bit converter. */
  private static final double CODES_EITHER_WAY = 32_768;

  private static final long PLAIN_PORT = 1883;
  private static final long TLS_PORT = 8883;

  private final Values values;
  private final Path folder;

  private SettingsBuilder(Values values, Path folder) {
    this.values = values;
    this.folder = folder;
  }

  /** Relative paths are resolved against the given folder. */
  static Configuration configuration(Values values, Path folder) {
    SettingsBuilder assembly = new SettingsBuilder(values, folder);
    return new Configuration(
        values.get(Options.SITE_ID),
        values.get(Options.SCAN_PERIOD),
        assembly.scan(),
        assembly.field(),
        assembly.mqtt(),
        new DiscoverySettings(
            values.get(Options.MQTT_DISCOVERY_HUB),
            values.get(Options.MQTT_DISCOVERY_PREFIX),
            values.get(Options.MQTT_HOMIE)),
        new LedgerSettings(
            folder.resolve(values.get(Options.LEDGER_FILE)),
            values.get(Options.READINGS_EVERY),
            (int) Math.ceil(values.get(Options.KEEP_READINGS) / SECONDS_A_DAY)));
  }

  private ScanSettings scan() {
    return new ScanSettings(
        measure(),
        new EstimateSettings(
            values.get(Options.VOLUME_M3),
            values.get(Options.LATITUDE),
            values.get(Options.LONGITUDE),
            slow(),
            values.get(Options.DAILY_DEMAND),
            values.get(Options.FREE_CHLORINE),
            values.find(Options.TEST_KIT).map(SettingsBuilder::kit).orElse(TestKit.UNSPECIFIED),
            labelGAh()),
        new ControlSettings(
            values.get(Options.TARGET_FREE_CHLORINE),
            values.get(Options.TARGET_PH),
            values.get(Options.TIME_ZONE),
            values.get(Options.PUMP_WINDOWS),
            values.get(Options.BATHING_HOURS)),
        limits(),
        channel(
            Options.CHLORINE_DRIVE,
            Chlorination.ratePerH(values).orElseThrow(),
            Options.CHLORINE_HOUR,
            Options.CHLORINE_DAY),
        values.hasTable("acid")
            ? channel(
                Options.ACID_DRIVE,
                values.get(Options.ACID_RATE),
                Options.ACID_HOUR,
                Options.ACID_DAY)
            : Channel.NONE,
        new SetpointLimits(
            values.get(Options.MANUAL_DUTY),
            values.get(Options.SUPERCHLORINATION_TIME),
            values.get(Options.SHELF_MAX),
            values.get(Options.MANUAL_TIME)),
        values.get(Options.OUT_OF_SERVICE),
        new NetworkRules(values.get(Options.MQTT_ALLOW), values.get(Options.MQTT_COMMAND_AGE)));
  }

  private static TestKit kit(Options.Kit kit) {
    return switch (kit) {
      case DROPS -> TestKit.DROPS;
      case COMPARATOR -> TestKit.COMPARATOR;
      case STRIPS -> TestKit.STRIPS;
      case PHOTOMETER -> TestKit.PHOTOMETER;
    };
  }

  private SlowSettings slow() {
    return new SlowSettings(
        number(Options.CYANURIC_ACID),
        number(Options.SALT),
        Chlorination.form(values),
        values
            .find(Options.MAKE_UP_WEEK)
            .orElseGet(() -> SlowSettings.MAKE_UP_SHARE_WEEK * values.get(Options.VOLUME_M3)));
  }

  private OptionalDouble number(Option<Double> option) {
    return values.find(option).stream().mapToDouble(Double::doubleValue).findFirst();
  }

  private MeasureSettings measure() {
    Set<Role> fitted = EnumSet.copyOf(FittedRoles.ALWAYS);
    fitted.addAll(values.get(Options.FITTED));
    PhCalibration phCalibration =
        values
            .find(Options.PH_BUFFERS)
            .map(PhBuffers.Pair::calibration)
            .orElse(PhCalibration.IDEAL);
    return new MeasureSettings(
        probe(Options.ORP_PROBE, flickerMv(Role.ORP_MV)),
        values.get(Options.ORP_OFFSET),
        probe(Options.PH_PROBE, phCalibration.perPh(flickerMv(Role.PH_MV))),
        phCalibration,
        probe(Options.WATER_PROBE, 0),
        values.get(Options.WATER_FALLBACK),
        switch (values.get(Options.FLOW_SENSOR)) {
          case SWITCH -> new FlowSensor.Switch();
          case METER ->
              new FlowSensor.Meter(
                  values.get(Options.FLOW_MINIMUM), values.get(Options.FLOW_MAXIMUM));
        },
        values.get(Options.FRESH_WATER),
        Set.copyOf(fitted),
        age(Options.ORP_CALIBRATION),
        age(Options.PH_CALIBRATION),
        pumpSign(fitted));
  }

  private CalibrationAge age(CalibrationOptions calibration) {
    ZoneId zone = values.get(Options.TIME_ZONE);
    return new CalibrationAge(
        values.find(calibration.calibrated).stream()
            .mapToDouble(day -> day.atStartOfDay(zone).toEpochSecond())
            .findFirst(),
        values.get(calibration.every));
  }

  /**
   * The program's own request shows the state of the pump only where the program has a pump relay.
   * A simulated pool or one with external pump control may run its pump at any time.
   */
  private PumpSign pumpSign(Set<Role> fitted) {
    if (!values.get(Options.STOPS_WITH_PUMP)) {
      return PumpSign.NONE;
    }
    if (fitted.contains(Role.PUMP_ON)) {
      return PumpSign.CONTACT;
    }
    boolean relay =
        values.get(Options.DRIVER) == Options.Driver.BOARD
            && values.find(Options.RELAY_PUMP.line).isPresent();
    return relay ? PumpSign.REQUEST : PumpSign.NONE;
  }

  /**
   * How much a converter's input moves without any signal, mV as wired. A dead front end flickers
   * between two adjacent codes (engineering judgement) and must not pass for a live electrode. 0 if
   * there is no converter.
   */
  private double flickerMv(Role role) {
    BoardOptions.Adc adc = Options.BOARD_ANALOG.get(role);
    return values.get(Options.DRIVER) == Options.Driver.BOARD
        ? 1.5 * values.get(adc.fullScale) / CODES_EITHER_WAY / Math.abs(values.get(adc.gain))
        : 0;
  }

  private ProbeSettings probe(ProbeOptions probe, double leastBand) {
    return new ProbeSettings(
        values.get(probe.rangeMin),
        values.get(probe.rangeMax),
        values.get(probe.rateMax),
        Math.max(leastBand, values.get(probe.freezeBand)),
        values.get(probe.freezeAfter),
        values.get(probe.staleAfter));
  }

  private SafetyLimits limits() {
    return new SafetyLimits(
        values.get(Options.ORP_HIGH),
        values.get(Options.FREE_CHLORINE_HIGH),
        values.get(Options.SUPERCHLORINATION_MAX),
        values.get(Options.PH_DOSING_MIN),
        values.get(Options.PH_DOSING_MAX),
        values.get(Options.WATER_MIN),
        values.get(Options.WATER_MAX),
        values.get(Options.FLOW_PROVING),
        values.get(Options.SEPARATION),
        values
            .find(Options.BLIND_FEED)
            .orElseGet(() -> SafetyLimits.blindFeedMgL(values.get(Options.FREE_CHLORINE_HIGH))),
        new ProcessLimits(
            values
                .find(Options.NO_RESPONSE)
                .orElseGet(
                    () -> ProcessLimits.noResponseMgL(values.get(Options.FREE_CHLORINE_HIGH))),
            number(Options.CELL_CURRENT_MAX),
            number(Options.CELL_CURRENT),
            values.get(Options.TEST_OVERDUE)),
        new RunLimits(values.get(Options.RESTARTS).intValue(), values.get(Options.RESTART_WINDOW)));
  }

  /**
   * Chlorine per ampere-hour by the cell's label, g; known only if the cell's current is
   * configured.
   */
  private OptionalDouble labelGAh() {
    return number(Options.CELL_CURRENT).isPresent()
        ? OptionalDouble.of(
            Chlorination.ratePerH(values).orElseThrow() / values.get(Options.CELL_CURRENT))
        : OptionalDouble.empty();
  }

  private ScanSettings.Channel channel(
      DriveOptions drive, double ratePerH, Option<Double> hourCap, Option<Double> dayCap) {
    return new ScanSettings.Channel(
        new OutputSettings(
            values.get(drive.drive),
            values.get(drive.cycle),
            values.get(drive.minOn),
            values.get(drive.minOff),
            values.get(drive.longestRun),
            values.get(drive.rest)),
        new DoseCaps(
            ratePerH, values.get(hourCap), values.get(dayCap), block(values, drive, hourCap)));
  }

  /** A block is a twentieth of the hourly cap: three minutes of feeding at the cap. */
  static double block(Values values, DriveOptions drive, Option<Double> hourCap) {
    return values.find(drive.block).orElseGet(() -> values.get(hourCap) / 20);
  }

  private FieldSettings field() {
    return switch (values.get(Options.DRIVER)) {
      case SIMULATED -> new FieldSettings.Simulated(values.get(Options.SEED));
      case BOARD -> board();
    };
  }

  private FieldSettings.Board board() {
    Map<Role, AdcInput> analog = new EnumMap<>(Role.class);
    Options.BOARD_ANALOG.forEach(
        (role, adc) -> values.find(adc.address).ifPresent(address -> analog.put(role, adc(adc))));
    Map<Role, LineIn> contacts = new EnumMap<>(Role.class);
    Options.BOARD_CONTACT.forEach(
        (role, contact) ->
            values
                .find(contact.line)
                .ifPresent(
                    line ->
                        contacts.put(
                            role,
                            new LineIn(
                                line.intValue(),
                                values.get(contact.active) == Level.LOW,
                                values.get(contact.pull)))));
    Map<Output, LineOut> relays = new EnumMap<>(Output.class);
    relay(Options.RELAY_CHLORINE).ifPresent(line -> relays.put(Output.CHLORINE, line));
    relay(Options.RELAY_ACID).ifPresent(line -> relays.put(Output.ACID, line));
    return new FieldSettings.Board(
        values.get(Options.I2C_BUS).intValue(),
        Map.copyOf(analog),
        values.find(Options.THERMOMETER_ID).map(OneWire::new),
        Map.copyOf(contacts),
        values
            .find(Options.PULSES_LINE)
            .map(line -> new PulseIn(line.intValue(), values.get(Options.PULSES_PER_LITRE))),
        Map.copyOf(relays),
        relay(Options.RELAY_PUMP),
        values.find(Options.HEARTBEAT_LINE).stream().mapToInt(Long::intValue).findFirst(),
        folder.resolve(values.get(Options.SYSFS)));
  }

  private AdcInput adc(BoardOptions.Adc adc) {
    return new AdcInput(
        values.get(adc.address).intValue(),
        values.get(adc.channel).intValue(),
        values.get(adc.fullScale),
        values.get(adc.zero),
        values.get(adc.gain));
  }

  private Optional<LineOut> relay(BoardOptions.Relay relay) {
    return values
        .find(relay.line)
        .map(line -> new LineOut(line.intValue(), values.get(relay.active) == Level.LOW));
  }

  private MqttSettings mqtt() {
    boolean tls = values.get(Options.MQTT_TLS);
    return new MqttSettings(
        values.get(Options.MQTT_ENABLED),
        values.get(Options.MQTT_HOST),
        Math.toIntExact(values.find(Options.MQTT_PORT).orElse(tls ? TLS_PORT : PLAIN_PORT)),
        tls,
        values.find(Options.MQTT_CA_FILE).map(folder::resolve),
        values.find(Options.MQTT_USER),
        values.find(Options.MQTT_PASSWORD_FILE).map(folder::resolve),
        values.get(Options.MQTT_BASE_TOPIC),
        Math.toIntExact(values.get(Options.OUTBOX_MESSAGES)),
        values
            .find(Options.MQTT_CLIENT_CERTIFICATE)
            .flatMap(
                certificate ->
                    values
                        .find(Options.MQTT_CLIENT_KEY)
                        .map(
                            key ->
                                new MqttSettings.Identity(
                                    folder.resolve(certificate), folder.resolve(key)))));
  }
}
