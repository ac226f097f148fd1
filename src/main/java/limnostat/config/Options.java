package limnostat.config;

import static limnostat.config.Dimension.ANGLE;
import static limnostat.config.Dimension.CONCENTRATION;
import static limnostat.config.Dimension.CURRENT;
import static limnostat.config.Dimension.FLOW;
import static limnostat.config.Dimension.LIQUID;
import static limnostat.config.Dimension.LIQUID_RATE;
import static limnostat.config.Dimension.MASS;
import static limnostat.config.Dimension.MASS_RATE;
import static limnostat.config.Dimension.POTENTIAL;
import static limnostat.config.Dimension.TEMPERATURE;
import static limnostat.config.Dimension.TEMPERATURE_STEP;
import static limnostat.config.Dimension.TIME;
import static limnostat.config.Dimension.VOLUME;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.config.Option.Absence;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.measure.ProbeHealth;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.RunLimits;
import limnostat.scan.Permit;

/**
 * Every option of the configuration file, declared once, in the order of the file.
 *
 * <p>Ranges and defaults without a source are engineering judgement for a domestic pool; "chemistry
 * n" is a section of the project's notes on water chemistry, with its mark.
 */
final class Options {
  private Options() {}

  private static final List<Option<?>> DECLARED = new ArrayList<>();

  /** Where the chlorine comes from. */
  enum Source {
    SALT_CELL,
    LIQUID,
    TABLET
  }

  /** What tablets are made of. */
  enum Tablet {
    TRICHLOR,
    CALCIUM_HYPOCHLORITE
  }

  /** What the owner tests free chlorine with. */
  enum Kit {
    DROPS,
    COMPARATOR,
    STRIPS,
    PHOTOMETER
  }

  /** What detects flow. */
  enum Sensor {
    SWITCH,
    METER
  }

  /** Where the signals come from. */
  enum Driver {
    SIMULATED,
    BOARD
  }

  /** The level at which an input or output is active. */
  enum Level {
    LOW,
    HIGH
  }

  // site
  static final Option<String> SITE_ID =
      required(
          "site",
          "id",
          Text.of("[a-z0-9](?:[a-z0-9-]{0,30}[a-z0-9])?", "1 to 32 of a-z, 0-9 and inner hyphens"),
          "Id of the installation; part of every topic.");
  static final Option<Double> LATITUDE =
      required("site", "latitude", Quantity.of(ANGLE, "deg", -90, 90), "North is positive.");
  static final Option<Double> LONGITUDE =
      required("site", "longitude", Quantity.of(ANGLE, "deg", -180, 180), "East is positive.");
  static final Option<ZoneId> TIME_ZONE =
      required("site", "time_zone", new TimeZoneName(), "Zone of the pump windows.");

  // scan
  static final Option<Double> SCAN_PERIOD =
      quantity(
          "scan",
          "period",
          Quantity.of(TIME, "s", 0.1, HardBounds.SCAN_PERIOD_MAX_S).withHardMax(),
          1,
          "Time from scan to scan.");

  // pool
  static final Option<Double> VOLUME_M3 =
      required("pool", "volume", Quantity.of(VOLUME, "m3", 0.5, 5000), "Water volume.");

  /** 300 is three times the highest limit in any code (chemistry 10). */
  static final Option<Double> CYANURIC_ACID =
      optional(
          "pool",
          "cyanuric_acid",
          Quantity.of(CONCENTRATION, "mg/L", 0, 300),
          "not known, taken as about 30 mg/L; a test is asked for",
          "Stabiliser as last tested; later water tests go before it.");

  /** Commonly 2700 to 3400 mg/L (chemistry 6, practice); sea water has 35 000. */
  static final Option<Double> SALT =
      optional(
          "pool",
          "salt",
          Quantity.of(CONCENTRATION, "mg/L", 0, 45000),
          "not known, taken as about 3200 mg/L with a salt cell, else 1000 mg/L",
          "Salt as last tested; later water tests go before it.");

  /** The make-up water of a week cannot exceed the volume of the pool (engineering judgement). */
  static final Option<Double> MAKE_UP_WEEK =
      optional(
          "pool",
          "make_up_week",
          Quantity.of(VOLUME, "m3", 0, 5000),
          "2 % of the volume",
          "Water replaced in a week by splashing, backwash and overflow; evaporation does not count.");

  static final Option<Double> DAILY_DEMAND =
      quantity(
          "pool",
          "daily_demand",
          Quantity.of(CONCENTRATION, "mg/L", 0, 15),
          2,
          "First guess of the chlorine that the water uses in a day; it is learned.");
  static final Option<Double> FREE_CHLORINE =
      quantity(
          "pool",
          "free_chlorine",
          Quantity.of(CONCENTRATION, "mg/L", 0, HardBounds.SUPERCHLORINATION_MG_L).withHardMax(),
          3,
          "First guess of free chlorine.");

  // test
  static final Option<Kit> TEST_KIT =
      optional(
          "test",
          "kit",
          Choice.of(Kit.class),
          "not stated, taken to be 0.25 mg/L or 10 % off, whichever is more",
          "What free chlorine is tested with; a test may name another.");

  // target
  /** Between the minimum with stabiliser, 2, and the bathing limit on labels, 4 (chemistry 10). */
  static final Option<Double> TARGET_FREE_CHLORINE =
      quantity(
          "target",
          "free_chlorine",
          Quantity.of(CONCENTRATION, "mg/L", 0.3, HardBounds.TARGET_MG_L).withHardMax(),
          3,
          "Free chlorine to hold.");

  static final Option<List<PumpWindow>> BATHING_HOURS =
      byDefault(
          "target",
          "hours",
          new Windows(),
          ControlSettings.USUAL_BATHING,
          "When people may bathe, local time: free chlorine is held at its target then.");

  /** Within 7.2 to 7.8 (chemistry 10, checked). */
  static final Option<Double> TARGET_PH =
      number(
          "target",
          "ph",
          PlainNumber.of(6.8, 8),
          7.4,
          "pH to hold; acid lowers it, nothing raises it.");

  // limits
  static final Option<Double> ORP_HIGH =
      quantity(
          "limits",
          "orp_high",
          Quantity.of(POTENTIAL, "mV", 500, HardBounds.ORP_HIGH_MV).withHardMax(),
          800,
          "ORP at and above which chlorine is off.");
  static final Option<Double> FREE_CHLORINE_HIGH =
      quantity(
          "limits",
          "free_chlorine_high",
          Quantity.of(CONCENTRATION, "mg/L", 1, HardBounds.FREE_CHLORINE_HIGH_MG_L).withHardMax(),
          5,
          "Estimated free chlorine at and above which chlorine is off.");
  static final Option<Double> SUPERCHLORINATION_MAX =
      quantity(
          "limits",
          "superchlorination_max",
          Quantity.of(CONCENTRATION, "mg/L", 1, HardBounds.SUPERCHLORINATION_MG_L).withHardMax(),
          10,
          "The same limit, and the highest target, while a superchlorination runs.");
  static final Option<Double> PH_DOSING_MIN =
      number(
          "limits",
          "ph_dosing_min",
          new PlainNumber(Range.of(HardBounds.PH_DOSING_MIN, 7.5, "").withHardMin()),
          6.8,
          "pH below which neither chlorine nor acid is dosed.");
  static final Option<Double> PH_DOSING_MAX =
      number(
          "limits",
          "ph_dosing_max",
          new PlainNumber(Range.of(7.5, HardBounds.PH_DOSING_MAX, "").withHardMax()),
          8,
          "pH above which no chlorine is dosed.");

  /** Cells are switched off below 10 to 15 °C (chemistry 6, practice). */
  static final Option<Double> WATER_MIN =
      quantity(
          "limits",
          "water_min",
          Quantity.of(TEMPERATURE, "degC", 0, 30),
          10,
          "Water temperature below which chlorine is off; the cold limit of a salt cell.");

  /** The maximum for spas is 40 °C (chemistry 10, checked). */
  static final Option<Double> WATER_MAX =
      quantity(
          "limits",
          "water_max",
          Quantity.of(TEMPERATURE, "degC", 25, HardBounds.WATER_MAX_C).withHardMax(),
          40,
          "Water temperature above which chlorine is off.");

  static final Option<Double> CHLORINE_HOUR =
      required(
          "limits",
          "chlorine_hour",
          Quantity.of(MASS, "g", 0.1, 25000),
          "Most chlorine in any 60 minutes.");
  static final Option<Double> CHLORINE_DAY =
      required(
          "limits",
          "chlorine_day",
          Quantity.of(MASS, "g", 0.1, 100000),
          "Most chlorine in any 24 hours.");
  static final Option<Double> ACID_HOUR =
      optional(
          "limits",
          "acid_hour",
          Quantity.of(LIQUID, "mL", 1, 100000),
          "no acid output; required with [acid]",
          "Most acid, as fed, in any 60 minutes.");
  static final Option<Double> ACID_DAY =
      optional(
          "limits",
          "acid_day",
          Quantity.of(LIQUID, "mL", 1, 100000),
          "no acid output; required with [acid]",
          "Most acid, as fed, in any 24 hours.");
  static final Option<Double> FLOW_PROVING =
      quantity(
          "limits",
          "flow_proving",
          Quantity.of(TIME, "s", HardBounds.FLOW_PROVING_MIN_S, 900).withHardMin(),
          60,
          "Unbroken flow before any dosing.");
  static final Option<Double> SEPARATION =
      quantity(
          "limits",
          "separation",
          Quantity.of(TIME, "min", HardBounds.SEPARATION_MIN_S / 60, 1440).withHardMin(),
          5,
          "Time between chlorine and acid.");
  static final Option<Double> BLIND_FEED =
      optional(
          "limits",
          "blind_feed",
          Quantity.of(CONCENTRATION, "mg/L", 0, HardBounds.BLIND_FEED_MG_L).withHardMax(),
          "10 mg/L less limits.free_chlorine_high, at least 1 mg/L",
          "Most chlorine that is fed while nothing trustworthy measures it, since it last was.");
  static final Option<Double> NO_RESPONSE =
      optional(
          "limits",
          "no_response",
          Quantity.of(CONCENTRATION, "mg/L", 1, HardBounds.NO_RESPONSE_MG_L).withHardMax(),
          "4 mg/L, or less with a low limits.free_chlorine_high",
          "Most chlorine that is fed with no response of ORP.");
  static final Option<Double> CELL_CURRENT_MAX =
      optional(
          "limits",
          "cell_current_max",
          Quantity.of(CURRENT, "A", 0.5, HardBounds.CELL_CURRENT_A).withHardMax(),
          "not watched",
          "Cell current above which chlorine is off until a person's reset; needs cell_a.");
  static final Option<Double> TEST_OVERDUE =
      quantity(
          "limits",
          "test_overdue",
          Quantity.of(TIME, "d", 1, HardBounds.TEST_OVERDUE_MAX_S / 86400).withHardMax(),
          14,
          "Time without a person's test of free chlorine that is too long.");
  static final Option<Double> MANUAL_DUTY =
      number(
          "limits",
          "manual_duty",
          new PlainNumber(Range.of(0, 1, "").withHardMax()),
          1,
          "Highest duty that may be set in manual.");
  static final Option<Double> MANUAL_TIME =
      quantity(
          "limits",
          "manual_time",
          Quantity.of(TIME, "h", 0.1, HardBounds.MANUAL_MAX_S / 3600).withHardMax(),
          24,
          "Longest time that may be asked for until manual ends by itself.");
  static final Option<Double> SUPERCHLORINATION_TIME =
      quantity(
          "limits",
          "superchlorination_time",
          Quantity.of(TIME, "h", 1, HardBounds.SUPERCHLORINATION_MAX_S / 3600).withHardMax(),
          48,
          "Longest superchlorination that may be asked for.");
  static final Option<Long> RESTARTS =
      byDefault(
          "limits",
          "restarts",
          WholeNumber.of(1, HardBounds.RESTARTS_MAX),
          (long) RunLimits.USUAL.restartsMax(),
          "Ends of the program within the window that still pass; an orderly stop counts a quarter.");
  static final Option<Double> RESTART_WINDOW =
      quantity(
          "limits",
          "restart_window",
          Quantity.of(TIME, "min", 1, 1440),
          RunLimits.USUAL.windowS() / 60,
          "More in so long a time hold the outputs, until so long a time without one.");

  // alarms
  static final Option<Double> SHELF_MAX =
      quantity(
          "alarms",
          "shelf_max",
          Quantity.of(TIME, "h", 0.1, HardBounds.SHELF_MAX_S / 3600).withHardMax(),
          24,
          "Longest time that an alarm may be shelved for.");
  static final Option<Set<Cause>> OUT_OF_SERVICE =
      byDefault(
          "alarms",
          "out_of_service",
          new AlarmNames(),
          Set.of(),
          "Alarms that say nothing until they are back in service; their causes go on holding.");

  // pump
  static final Option<List<PumpWindow>> PUMP_WINDOWS =
      required(
          "pump", "windows", new Windows(), "When the circulation pump is to run, local time.");

  // chlorine
  static final Option<Source> CHLORINE_SOURCE =
      required("chlorine", "source", Choice.of(Source.class), "What gives the chlorine.");
  static final Option<Tablet> CHLORINE_TABLET =
      optional(
          "chlorine",
          "tablet",
          Choice.of(Tablet.class),
          "the source is no tablet; required with one",
          "For source \"tablet\": what the tablets are; never another kind in the same feeder.");
  static final Option<Double> CHLORINE_OUTPUT =
      optional(
          "chlorine",
          "output",
          Quantity.of(MASS_RATE, "g/h", 0.1, 20000),
          "rate and strength are given instead",
          "Chlorine given at full duty.");
  static final Option<Double> CHLORINE_RATE =
      optional(
          "chlorine",
          "rate",
          Quantity.of(LIQUID_RATE, "L/h", 0.01, 200),
          "output is given instead",
          "For source \"liquid\": what the feed pump gives.");

  /** Trade percent, g of chlorine in 100 mL; 12.5 is the common strong product (chemistry 9). */
  static final Option<Double> CHLORINE_STRENGTH =
      optional(
          "chlorine",
          "strength",
          PlainNumber.of(0.5, 20),
          "output is given instead",
          "For source \"liquid\": trade percent, g of chlorine in 100 mL.");

  static final Option<Double> CELL_CURRENT =
      optional(
          "chlorine",
          "cell_current",
          Quantity.of(CURRENT, "A", 0.5, HardBounds.CELL_CURRENT_A),
          "a low current is not looked for, and the cell is taken to give what its label says",
          "For source \"salt_cell\" with cell_a: its current at full duty, salt right and 25 degC."
              + " What it gives goes with its current.");

  static final DriveOptions CHLORINE_DRIVE =
      new DriveOptions("chlorine", 60, 240, 5, Quantity.of(MASS, "g", 0.01, 5000), "chlorine_hour");

  // acid
  static final Option<Double> ACID_RATE =
      required(
          "acid",
          "rate",
          Quantity.of(LIQUID_RATE, "L/h", 0.01, 200),
          "Acid, as fed, given at full duty.");

  /**
   * Short runs and long rests: the water must mix before the pH shows the effect of an acid dose.
   */
  static final DriveOptions ACID_DRIVE =
      new DriveOptions("acid", 10, 15, 30, Quantity.of(LIQUID, "mL", 0.1, 5000), "acid_hour");

  // flow
  static final Option<Sensor> FLOW_SENSOR =
      byDefault("flow", "sensor", Choice.of(Sensor.class), Sensor.SWITCH, "What tells of flow.");
  static final Option<Double> FLOW_MINIMUM =
      optional(
          "flow",
          "minimum",
          Quantity.of(FLOW, "L/min", 1, 20000),
          "the sensor is a switch; required with a meter",
          "Least flow that counts as flow.");
  static final Option<Double> FLOW_MAXIMUM =
      quantity(
          "flow",
          "maximum",
          Quantity.of(FLOW, "L/min", 1, 20000),
          20000,
          "For a meter: more than this cannot be and counts as no signal.");
  static final Option<Boolean> STOPS_WITH_PUMP =
      byDefault(
          "flow",
          "stops_with_pump",
          new Flag(),
          true,
          "Whether flow ends within 3 minutes of the pump; false where other things move the water.");

  // probes
  /**
   * A new probe is within 15 mV, and a probe is usable up to 50 mV (chemistry 3, checked,
   * secondary).
   */
  static final Option<Double> ORP_OFFSET =
      quantity(
          "orp",
          "offset",
          Quantity.of(
              POTENTIAL, "mV", -ProbeHealth.ORP_OFFSET_MAX_MV, ProbeHealth.ORP_OFFSET_MAX_MV),
          0,
          "Added to the ORP as wired.");

  static final CalibrationOptions ORP_CALIBRATION = new CalibrationOptions("orp", 180);

  static final ProbeOptions ORP_PROBE =
      new ProbeOptions(
          "orp",
          ProbeOptions.range(Quantity.of(POTENTIAL, "mV", -500, 1200), 100, 1000),
          ProbeOptions.steps(Quantity.of(POTENTIAL, "mV", 0.1, 1000), 5, 0.05),
          60);
  static final Option<PhBuffers.Pair> PH_BUFFERS =
      optional(
          "ph",
          "buffers",
          new PhBuffers(),
          "an ideal electrode",
          "What the electrode read in two buffers.");
  static final CalibrationOptions PH_CALIBRATION = new CalibrationOptions("ph", 90);
  static final ProbeOptions PH_PROBE =
      new ProbeOptions(
          "ph",
          ProbeOptions.range(PlainNumber.of(0, 14), 4, 10),
          ProbeOptions.steps(PlainNumber.of(0.001, 5), 0.05, 0.0005),
          60);
  static final Option<Double> WATER_FALLBACK =
      quantity(
          "thermometer",
          "fallback",
          Quantity.of(TEMPERATURE, "degC", 0, 45),
          25,
          "Temperature assumed while the thermometer has failed.");

  /**
   * The temperature of still water can change by less than a thermometer resolves, so there is no
   * test for a frozen signal.
   */
  static final ProbeOptions WATER_PROBE =
      new ProbeOptions(
          "thermometer",
          ProbeOptions.range(Quantity.of(TEMPERATURE, "degC", -10, 80), -2, 50),
          ProbeOptions.steps(Quantity.of(TEMPERATURE_STEP, "degC", 0.001, 20), 0.2, 0.01),
          0);

  static final Option<Double> FRESH_WATER =
      quantity(
          "probes",
          "fresh_water",
          Quantity.of(TIME, "min", 0, 60),
          3,
          "Flow time until the water at the probes is the pool's.");

  // inputs and outputs
  static final Option<Set<Role>> FITTED =
      byDefault(
          "inputs",
          "fitted",
          new FittedRoles(),
          Set.of(),
          "Inputs beyond orp_mv, ph_mv, water_c and flow, which are always there.");
  static final Option<Driver> DRIVER =
      required(
          "field",
          "driver",
          Choice.of(Driver.class),
          "Where signals come from: no default, so that no simulation passes for a pool.");
  static final Option<Long> SEED =
      byDefault(
          "field", "seed", WholeNumber.of(0, Integer.MAX_VALUE), 1L, "Seed of the simulated pool.");

  // board
  static final Option<Long> I2C_BUS =
      byDefault("board", "i2c_bus", WholeNumber.of(0, 99), 1L, "I2C bus of the converters.");
  static final Option<Path> SYSFS =
      byDefault("board", "sysfs", new FileName(), Path.of("/sys"), "Root of the sysfs tree.");
  static final Map<Role, BoardOptions.Adc> BOARD_ANALOG = new EnumMap<>(Role.class);

  static {
    for (Role role : BoardOptions.ANALOG_ROLES) {
      BOARD_ANALOG.put(role, new BoardOptions.Adc("board.analog." + role.key()));
    }
  }

  static final Option<String> THERMOMETER_ID =
      required(
          "board.thermometer",
          "id",
          Text.of("28-[0-9a-f]{12}", "28- and twelve of 0-9 and a-f"),
          "Device id as in sysfs.");
  static final Map<Role, BoardOptions.Contact> BOARD_CONTACT = new EnumMap<>(Role.class);

  static {
    for (Role role : BoardOptions.CONTACT_ROLES) {
      BOARD_CONTACT.put(role, new BoardOptions.Contact("board.contact." + role.key()));
    }
  }

  static final Option<Long> PULSES_LINE =
      required("board.pulses", "line", BoardOptions.LINE, "GPIO line of the flow meter.");
  static final Option<Double> PULSES_PER_LITRE =
      required("board.pulses", "per_litre", PlainNumber.of(0.01, 10000), "Pulses a litre.");
  static final BoardOptions.Relay RELAY_CHLORINE = new BoardOptions.Relay("board.relay.chlorine");
  static final BoardOptions.Relay RELAY_ACID = new BoardOptions.Relay("board.relay.acid");
  static final BoardOptions.Relay RELAY_PUMP = new BoardOptions.Relay("board.relay.pump");

  /**
   * Only the change of level carries information, not the level itself, so there is no polarity.
   */
  static final Option<Long> HEARTBEAT_LINE =
      required(
          "board.heartbeat",
          "line",
          BoardOptions.LINE,
          "GPIO line that changes its level with each whole scan, for an external watchdog relay.");

  // mqtt
  static final Option<Boolean> MQTT_ENABLED =
      byDefault("mqtt", "enabled", new Flag(), true, "false: no connection is ever tried.");
  static final Option<String> MQTT_HOST =
      byDefault(
          "mqtt",
          "host",
          Text.of("[A-Za-z0-9._:-]{1,253}", "a name or an address"),
          "localhost",
          "The broker.");
  static final Option<Long> MQTT_PORT =
      optional("mqtt", "port", WholeNumber.of(1, 65535), "1883, or 8883 with tls", "Its port.");
  static final Option<Boolean> MQTT_TLS =
      byDefault(
          "mqtt", "tls", new Flag(), false, "Encrypt; the broker's certificate is then checked.");
  static final Option<Path> MQTT_CA_FILE =
      optional(
          "mqtt",
          "ca_file",
          new FileName(),
          "the system's authorities",
          "PEM file of a private certificate authority.");
  static final Option<Path> MQTT_CLIENT_CERTIFICATE =
      optional(
          "mqtt",
          "client_certificate",
          new FileName(),
          "the broker asks for none",
          "PEM file of this program's own certificate, for a broker that asks for one.");
  static final Option<Path> MQTT_CLIENT_KEY =
      optional(
          "mqtt",
          "client_key",
          new FileName(),
          "no client_certificate; required with one",
          "PEM file of its private key, PKCS #8 without a passphrase, readable to nobody else.");
  static final Option<String> MQTT_USER =
      optional(
          "mqtt",
          "user",
          Text.of("\\P{Cntrl}{1,256}", "1 to 256 characters"),
          "no user name",
          "User name.");
  static final Option<Path> MQTT_PASSWORD_FILE =
      optional(
          "mqtt",
          "password_file",
          new FileName(),
          "no password but a systemd credential mqtt-password",
          "File that holds the password; a systemd credential goes before it.");
  static final Option<String> MQTT_BASE_TOPIC =
      byDefault(
          "mqtt",
          "base_topic",
          Text.of(
              "(?=.{1,100}$)[A-Za-z0-9_-]+(?:/[A-Za-z0-9_-]+)*", "levels of A-Z, a-z, 0-9, _, -"),
          "limnostat",
          "First levels of every topic; the site's id follows.");
  static final Option<Long> OUTBOX_MESSAGES =
      byDefault(
          "mqtt",
          "outbox_messages",
          WholeNumber.of(100, 20_000),
          (long) MqttSettings.OUTBOX_MESSAGES,
          "How many messages wait for a broker that is away; then every second reading gives way.");
  static final Option<Set<Permit>> MQTT_ALLOW =
      byDefault(
          "mqtt",
          "allow",
          new PermitNames(),
          Permit.USUAL,
          "Which commands are taken; off is mode off alone, mode is every mode.");
  static final Option<Double> MQTT_COMMAND_AGE =
      quantity(
          "mqtt",
          "command_age",
          Quantity.of(TIME, "s", 5, 3600),
          60,
          "A command whose time is further off than this, either way, is refused.");
  static final Option<Boolean> MQTT_DISCOVERY_HUB =
      byDefault(
          "mqtt",
          "discovery_hub",
          new Flag(),
          false,
          "Tell a home-automation hub by its device-based discovery what there is to see and to"
              + " send.");
  static final Option<String> MQTT_DISCOVERY_PREFIX =
      byDefault(
          "mqtt",
          "discovery_prefix",
          Text.of(
              "(?=.{1,100}$)[A-Za-z0-9_-]+(?:/[A-Za-z0-9_-]+)*", "levels of A-Z, a-z, 0-9, _, -"),
          "homeassistant",
          "First levels of the hub's discovery topics, as the hub is set.");
  static final Option<Boolean> MQTT_HOMIE =
      byDefault(
          "mqtt",
          "homie",
          new Flag(),
          false,
          "Be a device of the Homie convention too; its state then stands for availability.");

  // ledger
  static final Option<Path> LEDGER_FILE =
      required("ledger", "file", new FileName(), "The database; its folder must exist.");
  static final Option<Double> READINGS_EVERY =
      quantity(
          "ledger",
          "readings_every",
          Quantity.of(TIME, "s", 1, 3600),
          60,
          "A row of readings this often.");
  static final Option<Double> KEEP_READINGS =
      quantity(
          "ledger",
          "keep_readings",
          Quantity.of(TIME, "d", 1, 3650),
          400,
          "Older readings are removed.");

  /** All of them, in the order of the file. */
  static final List<Option<?>> ALL = List.copyOf(DECLARED);

  /** Whether a table may be left out together with its required options. */
  static boolean mayBeAbsent(String table) {
    return table.equals("acid") || table.equals("board") || table.startsWith("board.");
  }

  static <T> Option<T> declare(Option<T> option) {
    DECLARED.add(option);
    return option;
  }

  static <T> Option<T> required(String table, String key, Form<T> form, String doc) {
    return declare(new Option<>(table, key, form, new Absence.Required<>(), doc));
  }

  static <T> Option<T> optional(
      String table, String key, Form<T> form, String meaning, String doc) {
    return declare(new Option<>(table, key, form, new Absence.Means<>(meaning), doc));
  }

  static <T> Option<T> byDefault(String table, String key, Form<T> form, T value, String doc) {
    return declare(new Option<>(table, key, form, new Absence.Default<>(value), doc));
  }

  /** A quantity whose default is given in the unit of the form. */
  static Option<Double> quantity(
      String table, String key, Quantity form, double inItsUnit, String doc) {
    return byDefault(table, key, form, form.shownIn().toProgram(inItsUnit), doc);
  }

  static Option<Double> number(
      String table, String key, PlainNumber form, double value, String doc) {
    return byDefault(table, key, form, value, doc);
  }
}
