package limnostat.ledger;

import java.util.Objects;
import java.util.OptionalDouble;
import limnostat.actuate.Output;

/**
 * One entry of the ledger. Amounts are g of chlorine (as Cl2) for the chlorine output and mL of
 * acid as fed for the acid output. The caller makes the JSON texts; they are stored unchanged.
 */
public sealed interface Entry {

  /**
   * Whether it is committed at once, with everything that is waiting, rather than once a minute.
   */
  boolean urgent();

  /**
   * A dose that is booked before it is given.
   *
   * @param cumulativeAmount total ever booked on this output, g or mL; cumulative, so that repeats
   *     and coalescing are harmless
   */
  record Booking(Output output, double cumulativeAmount, Moment moment) implements Entry {
    public Booking {
      Objects.requireNonNull(output, "output");
      Objects.requireNonNull(moment, "moment");
      requireAmount(cumulativeAmount);
    }

    /** The booking with the higher amount; if they are equal, the older one. */
    static Booking higher(Booking older, Booking newer) {
      return newer.cumulativeAmount > older.cumulativeAmount ? newer : older;
    }

    @Override
    public boolean urgent() {
      return true;
    }
  }

  /**
   * The state to resume from. Only the newest is kept; its consistency with the bookings comes from
   * the cumulative amounts, not from the order of commits.
   *
   * @param json must not be changed afterwards
   * @param atOnce whether it is committed at once: the first state of a process, and the last of an
   *     orderly stop
   */
  @SuppressWarnings("ArrayRecordComponent") // as the JSON writer returns it; never compared
  record State(byte[] json, Moment moment, boolean atOnce) implements Entry {
    public State {
      Objects.requireNonNull(json, "json");
      Objects.requireNonNull(moment, "moment");
    }

    @Override
    public boolean urgent() {
      return atOnce;
    }
  }

  /**
   * The amount given within one wall-clock hour, as cumulative amounts. What the ledger already has
   * is not added again, so a repeat is harmless.
   *
   * @param hourUnixS any second of the hour, Unix s; kept as the hour's first second
   * @param from total ever given on this output at the start, g or mL
   * @param to total ever given at the end, at least {@code from}
   */
  record Given(Output output, long hourUnixS, double from, double to) implements Entry {
    private static final long HOUR_S = 3600;

    public Given {
      Objects.requireNonNull(output, "output");
      requireAmount(from);
      requireAmount(to);
      requireAmount(to - from);
      hourUnixS = Math.floorDiv(hourUnixS, HOUR_S) * HOUR_S;
    }

    /**
     * Joins two amounts of the same output and hour; the later one starts where the earlier one
     * ends.
     */
    static Given joined(Given earlier, Given later) {
      return new Given(
          earlier.output,
          earlier.hourUnixS,
          Math.min(earlier.from, later.from),
          Math.max(earlier.to, later.to));
    }

    @Override
    public boolean urgent() {
      return false;
    }
  }

  /**
   * One row of thinned readings. An absent value, or NaN, is stored as NULL.
   *
   * @param ph pH
   * @param orpMv ORP, mV
   * @param waterC water temperature, °C
   * @param freeChlorineMgL estimated free chlorine, mg/L
   * @param freeChlorineSdMgL standard deviation of that estimate, mg/L
   * @param demandMgLDay estimated chlorine demand, mg/L per day
   * @param duty chlorine duty that the control demands, 0–1
   * @param chlorineG chlorine given since the start, g
   * @param acidMl acid given since the start, mL
   */
  record Readings(
      Moment moment,
      OptionalDouble ph,
      OptionalDouble orpMv,
      OptionalDouble waterC,
      OptionalDouble freeChlorineMgL,
      OptionalDouble freeChlorineSdMgL,
      OptionalDouble demandMgLDay,
      OptionalDouble duty,
      OptionalDouble chlorineG,
      OptionalDouble acidMl)
      implements Entry {
    public Readings {
      Objects.requireNonNull(moment, "moment");
    }

    @Override
    public boolean urgent() {
      return false;
    }
  }

  /**
   * A message for the broker; kept until {@link Delivered}.
   *
   * @param number position in the order of sending, higher than any earlier one
   * @param worth the sender's own class of importance; stored unchanged
   * @param payload must not be changed afterwards
   */
  @SuppressWarnings("ArrayRecordComponent") // raw bytes for one reader; never compared
  record Message(long number, String topic, String worth, byte[] payload, boolean urgent)
      implements Entry {
    public Message {
      Objects.requireNonNull(topic, "topic");
      Objects.requireNonNull(worth, "worth");
      Objects.requireNonNull(payload, "payload");
    }
  }

  /**
   * A message that the broker has received, or that was dropped for lack of room: no longer kept.
   */
  record Delivered(long number) implements Entry {
    @Override
    public boolean urgent() {
      return false;
    }
  }

  /** Entries kept row by row, in the order in which they were offered. */
  sealed interface Journal extends Entry {
    Moment moment();
  }

  /**
   * An event: an alarm's transition, a command accepted or refused, or a change of mode.
   *
   * @param urgent true for alarms: they are committed at once and are among the last to be dropped
   */
  record Event(Moment moment, String kind, String json, boolean urgent) implements Journal {
    public Event {
      Objects.requireNonNull(moment, "moment");
      Objects.requireNonNull(kind, "kind");
      Objects.requireNonNull(json, "json");
    }
  }

  /** A water test that a person reported. */
  record WaterTest(Moment moment, String json) implements Journal {
    public WaterTest {
      Objects.requireNonNull(moment, "moment");
      Objects.requireNonNull(json, "json");
    }

    @Override
    public boolean urgent() {
      return true;
    }
  }

  /** What a person added to the pool by hand, or withdrew. */
  record Addition(Moment moment, String json) implements Journal {
    public Addition {
      Objects.requireNonNull(moment, "moment");
      Objects.requireNonNull(json, "json");
    }

    @Override
    public boolean urgent() {
      return true;
    }
  }

  /**
   * A changed setting.
   *
   * @param name the setting
   * @param json its new value
   * @param origin who or what changed it
   */
  record Setting(Moment moment, String name, String json, String origin) implements Journal {
    public Setting {
      Objects.requireNonNull(moment, "moment");
      Objects.requireNonNull(name, "name");
      Objects.requireNonNull(json, "json");
      Objects.requireNonNull(origin, "origin");
    }

    @Override
    public boolean urgent() {
      return true;
    }
  }

  private static void requireAmount(double amount) {
    if (!(amount >= 0) || Double.isInfinite(amount)) {
      throw new IllegalArgumentException("amount must be finite and at least 0, is " + amount);
    }
  }
}
