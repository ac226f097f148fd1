package limnostat.daemon;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.actuate.Output;
import limnostat.ledger.Entry;
import limnostat.ledger.Ledger;
import limnostat.ledger.Moment;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.wire.EventDocument;
import limnostat.wire.SavedState;

/**
 * Passes the results of a scan to the ledger: bookings at once, everything else at a rate that does
 * not wear out the memory card. Owned by the scan thread.
 */
public final class Bookkeeper {
  /** The state is saved this often, s, and at once after a decision that must survive. */
  private static final double STATE_EVERY_S = 300;

  /** The amounts given are passed on this often, s. */
  private static final double GIVEN_EVERY_S = 60;

  private final Ledger ledger;
  private final double readingsEveryS;
  private final Map<Output, Double> requested = new EnumMap<>(Output.class);
  private final Map<Output, Double> given = new EnumMap<>(Output.class);
  private double stateAtS = Double.NEGATIVE_INFINITY;
  private double readingsAtS = Double.NEGATIVE_INFINITY;
  private double givenAtS = Double.NEGATIVE_INFINITY;

  public Bookkeeper(Ledger ledger, double readingsEveryS, ScanState start) {
    this.ledger = ledger;
    this.readingsEveryS = readingsEveryS;
    for (Output output : Output.values()) {
      given.put(output, start.of(output).account().given());
    }
  }

  void keep(ScanOutcome outcome, Moment moment) {
    double nowS = moment.monotonicS();
    // The state goes first: an urgent entry below also commits whatever is waiting. Otherwise a
    // power cut could keep a command's row and lose the state that the command made.
    if (nowS - stateAtS >= STATE_EVERY_S
        || outcome.events().stream().anyMatch(ScanEvent::durable)) {
      // The first state shows that this process ran. It is written at once, or an early crash would
      // lose it.
      boolean first = stateAtS == Double.NEGATIVE_INFINITY;
      stateAtS = nowS;
      ledger.offer(new Entry.State(SavedState.write(outcome.state()), moment, first));
    }
    for (Output output : Output.values()) {
      double wanted = outcome.state().of(output).account().requested();
      if (wanted > 0 && !Double.valueOf(wanted).equals(requested.put(output, wanted))) {
        ledger.offer(new Entry.Booking(output, wanted, moment));
      }
    }
    for (ScanEvent event : outcome.events()) {
      keep(event, moment);
    }
    if (nowS - givenAtS >= GIVEN_EVERY_S) {
      givenAtS = nowS;
      keepGiven(outcome.state(), moment);
    }
    if (nowS - readingsAtS >= readingsEveryS) {
      readingsAtS = nowS;
      ledger.offer(readings(outcome, moment));
    }
  }

  /** The last entries of an orderly stop. */
  void close(ScanState state, Moment moment) {
    keepGiven(state, moment);
    ledger.offer(new Entry.State(SavedState.write(state), moment, true));
  }

  private void keep(ScanEvent event, Moment moment) {
    String json = EventDocument.text(event);
    ledger.offer(
        new Entry.Event(
            moment, EventDocument.kind(event), json, event instanceof ScanEvent.AlarmChanged));
    if (event instanceof ScanEvent.Accepted accepted) {
      entered(accepted.request(), moment).ifPresent(ledger::offer);
    }
  }

  /** What a person entered or changed. */
  private static Optional<Entry> entered(Command.Request request, Moment moment) {
    Command command = request.command();
    if (command instanceof Command.Test) {
      return Optional.of(new Entry.WaterTest(moment, request.document()));
    }
    if (command instanceof Command.Add || command instanceof Command.UndoAddition) {
      return Optional.of(new Entry.Addition(moment, request.document()));
    }
    return command instanceof Command.ListAdditions
        ? Optional.empty()
        : Optional.of(
            new Entry.Setting(moment, request.type(), request.document(), request.origin()));
  }

  private void keepGiven(ScanState state, Moment moment) {
    long hourUnixS = (long) Math.floor(moment.unixTimeS() / 3600) * 3600;
    for (Output output : Output.values()) {
      double now = state.of(output).account().given();
      double before = given.put(output, now);
      if (now > before) {
        ledger.offer(new Entry.Given(output, hourUnixS, before, now));
      }
    }
  }

  private static Entry.Readings readings(ScanOutcome outcome, Moment moment) {
    return new Entry.Readings(
        moment,
        outcome.measured().ph().shown(),
        outcome.measured().orpMv().shown(),
        outcome.measured().waterC().shown(),
        present(outcome.estimate().freeChlorineMgL()),
        present(outcome.estimate().freeChlorineSdMgL()),
        present(outcome.estimate().demandMgLDay()),
        present(outcome.demand().chlorineDuty()),
        present(outcome.state().chlorine().account().given()),
        present(outcome.state().acid().account().given()));
  }

  private static OptionalDouble present(double value) {
    return OptionalDouble.of(value);
  }
}
