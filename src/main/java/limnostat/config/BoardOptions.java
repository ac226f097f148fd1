package limnostat.config;

import java.util.List;
import limnostat.config.FieldSettings.Pull;
import limnostat.config.Options.Level;
import limnostat.measure.Role;

/** The options of one device on the board. */
final class BoardOptions {
  private BoardOptions() {}

  /** Roles that a converter can serve. The water temperature comes from a 1-wire sensor. */
  static final List<Role> ANALOG_ROLES =
      List.of(Role.ORP_MV, Role.PH_MV, Role.CELL_A, Role.CELL_V, Role.SOLAR_W_M2);

  static final List<Role> CONTACT_ROLES =
      List.of(Role.FLOW, Role.TANK_LOW, Role.COVER_CLOSED, Role.PUMP_ON, Role.ACID_TANK_LOW);

  static final WholeNumber LINE = WholeNumber.of(0, 511);

  /** One input of a converter. */
  static final class Adc {
    final Option<Long> address;
    final Option<Long> channel;
    final Option<Integer> fullScale;
    final Option<Double> zero;
    final Option<Double> gain;

    Adc(String table) {
      address =
          Options.required(
              table, "address", WholeNumber.address(0x48, 0x4b), "I2C address of the converter.");
      channel =
          Options.required(table, "channel", WholeNumber.of(0, 3), "Its input, against ground.");
      fullScale =
          Options.byDefault(table, "full_scale", new FullScale(), 2048, "Its range, either way.");
      zero =
          Options.quantity(
              table,
              "zero",
              Quantity.of(Dimension.POTENTIAL, "mV", -6144, 6144),
              0,
              "What the front end puts out at zero.");
      gain =
          Options.byDefault(
              table,
              "gain",
              PlainNumber.of(-10000, 10000),
              1.0,
              "mV at the converter a unit of the input (mV, A, V, W/m2); not 0.");
    }
  }

  /** A contact. The defaults read a broken wire as an open contact. */
  static final class Contact {
    final Option<Long> line;
    final Option<Level> active;
    final Option<Pull> pull;

    Contact(String table) {
      line = Options.required(table, "line", LINE, "GPIO line.");
      active =
          Options.byDefault(
              table,
              "active",
              Choice.of(Level.class),
              Level.LOW,
              "Level of the line while the contact is closed.");
      pull =
          Options.byDefault(
              table, "pull", Choice.of(Pull.class), Pull.UP, "Pull resistor of the line.");
    }
  }

  /**
   * A relay. Its polarity has no default: with the wrong one the output would be on when it should
   * be off.
   */
  static final class Relay {
    final String table;
    final Option<Long> line;
    final Option<Level> active;

    Relay(String table) {
      this.table = table;
      line = Options.required(table, "line", LINE, "GPIO line.");
      active =
          Options.required(
              table, "active", Choice.of(Level.class), "Level of the line while the relay is on.");
    }
  }
}
