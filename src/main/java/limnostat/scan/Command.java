package limnostat.scan;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.control.Mode;
import limnostat.estimate.Product;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;

/** What a person or a dashboard may request. The scan decides whether it is granted. */
public sealed interface Command {
  /**
   * The permits that allow the command over the network. Any one of them is enough. Their order is
   * fixed, because a refusal names them. Empty: no permit applies, and a command that only a person
   * at the board may give refuses itself over the network.
   */
  Set<Permit> permits();

  /**
   * Applies the command to the state.
   *
   * @throws Refusal if it is not granted
   */
  ScanState grantedBy(Grants grants) throws Refusal;

  /**
   * Whether the command may cause more chlorine to be fed, at once or later. If in doubt it may: a
   * repeat of it is then not applied, however it arrives.
   */
  default boolean mayRaiseChlorine() {
    return true;
  }

  /**
   * @param duty for manual, 0–1; absent: the current duty
   * @param forS how long manual mode lasts, s; absent: until another command
   */
  record SetMode(Mode mode, OptionalDouble duty, OptionalDouble forS) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.mode(this);
    }

    public SetMode(Mode mode, OptionalDouble duty) {
      this(mode, duty, OptionalDouble.empty());
    }

    @Override
    public Set<Permit> permits() {
      return mode == Mode.OFF ? EnumSet.of(Permit.OFF, Permit.MODE) : Set.of(Permit.MODE);
    }

    @Override
    public boolean mayRaiseChlorine() {
      return mode != Mode.OFF;
    }
  }

  /**
   * @param freeChlorineMgL target, mg/L
   */
  record SetTarget(double freeChlorineMgL) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.target(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.TARGET);
    }
  }

  record Test(WaterTest test) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.test(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.TEST_RESULT);
    }
  }

  /**
   * @param freeChlorineMgL level to raise to and hold, mg/L; 0 stops a running one
   * @param maxS longest duration, s
   */
  record Superchlorinate(double freeChlorineMgL, double maxS) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.superchlorination(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.SUPERCHLORINATE);
    }
  }

  /**
   * @param alarm id of the alarm
   */
  record Acknowledge(String alarm) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.acknowledgement(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ACKNOWLEDGE);
    }

    @Override
    public boolean mayRaiseChlorine() {
      return false;
    }
  }

  /**
   * Shelves an alarm.
   *
   * @param alarm id of the alarm
   * @param seconds for how long, s
   */
  record Shelve(String alarm, double seconds) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.shelving(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ALARM_SHELVE);
    }

    @Override
    public boolean mayRaiseChlorine() {
      return false;
    }
  }

  /**
   * @param alarm id of the shelved alarm
   */
  record Unshelve(String alarm) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.unshelving(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ALARM_UNSHELVE);
    }

    @Override
    public boolean mayRaiseChlorine() {
      return false;
    }
  }

  /** Starts the season's totals again. */
  record ResetSeason() implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.seasonReset();
    }

    @Override
    public Set<Permit> permits() {
      return Set.of();
    }
  }

  /**
   * @param interlock id of the latched cause
   */
  record Reset(String interlock) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.reset(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.RESET);
    }
  }

  /**
   * A forecast of the sun, as fractions of a clear sky's.
   *
   * @param fromUnixS start of the first hour, Unix s
   * @param clearSkyFractions one per hour; none: the forecast is withdrawn
   */
  record ForecastSun(double fromUnixS, List<Double> clearSkyFractions) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.sunForecast(this);
    }

    public ForecastSun {
      clearSkyFractions = List.copyOf(clearSkyFractions);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.SUN_FORECAST);
    }
  }

  /**
   * @param forS how long the function check lasts, s; 0 ends it
   */
  record FunctionCheck(double forS) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.functionCheck(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.FUNCTION_CHECK);
    }

    /** A check that begins inhibits the outputs. */
    @Override
    public boolean mayRaiseChlorine() {
      return forS == 0;
    }
  }

  /**
   * The pH electrode is in a buffer.
   *
   * @param bufferPh pH of the buffer at its temperature
   * @param temperatureC temperature of the buffer, °C
   */
  record CalibratePh(double bufferPh, double temperatureC) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.calibrationPh(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.CALIBRATE);
    }
  }

  /**
   * The ORP probe is in a standard solution.
   *
   * @param standardMv what a good probe reads in it, mV
   */
  record CalibrateOrp(double standardMv) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.calibrationOrp(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.CALIBRATE);
    }
  }

  /**
   * Returns a probe to the file's values.
   *
   * @param probe the role of its signal, {@code PH_MV} or {@code ORP_MV}
   */
  record CalibrateUndo(Role probe) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.calibrationUndone(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.CALIBRATE);
    }
  }

  /**
   * Something that a person put into the pool, or drained from it.
   *
   * @param amount how much, in the product's measure: g, mL or L
   * @param percent its strength; empty: the usual strength
   * @param agoS how long ago, s; empty: now, unless {@code atUnixS} is given
   * @param atUnixS when, Unix s
   */
  record Add(
      Product product,
      double amount,
      OptionalDouble percent,
      OptionalDouble agoS,
      OptionalDouble atUnixS)
      implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.addition(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ADDITION);
    }
  }

  /**
   * Undoes an addition that was a mistake.
   *
   * @param addition its id
   */
  record UndoAddition(String addition) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      return grants.additionUndone(this);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ADDITION);
    }
  }

  /** Lists the additions of the last days in the answer. */
  record ListAdditions() implements Command {
    @Override
    public ScanState grantedBy(Grants grants) {
      return grants.additionsListed();
    }

    @Override
    public Set<Permit> permits() {
      return Set.of(Permit.ADDITION);
    }
  }

  /** A document that could not be read as a command; it is answered like any other. */
  record Unreadable(String reason) implements Command {
    @Override
    public ScanState grantedBy(Grants grants) throws Refusal {
      throw new Refusal(reason);
    }

    @Override
    public Set<Permit> permits() {
      return Set.of();
    }
  }

  /**
   * A command with what its answer needs.
   *
   * @param requestId as the sender gave it
   * @param type as the sender wrote it
   * @param origin where it came from, for the journal; {@link #BOARD} only for a person at the
   *     machine itself
   * @param document as it was read, in JSON, for the journal
   * @param sentUnixS when the sender says that it was sent, Unix s
   */
  record Request(
      Optional<String> requestId,
      String type,
      String origin,
      String document,
      Command command,
      OptionalDouble sentUnixS) {
    /**
     * Origin of commands by anyone who can write the program's files on the machine. No command
     * from a network has it.
     */
    public static final String BOARD = "board";

    /** Prefix of the origin of every command that came over the network. */
    public static final String NETWORK = "mqtt";

    public Request(
        Optional<String> requestId, String type, String origin, String document, Command command) {
      this(requestId, type, origin, document, command, OptionalDouble.empty());
    }

    boolean overNetwork() {
      return origin.startsWith(NETWORK);
    }
  }
}
