package limnostat.alarm;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.safety.Annunciation;
import limnostat.safety.Cause;
import limnostat.safety.Priority;

/**
 * The alarms by ISA-18.2. They read the causes and drive no output. Every cause with a priority is
 * an alarm. Shelved, suppressed and out of service silence only the alarm: its cause keeps its
 * effect on the outputs.
 */
public final class Alarms {
  private Alarms() {}

  /**
   * The stored state of one alarm.
   *
   * @param under its state beneath any silence: normal, unacknowledged, acknowledged, returned
   *     unacknowledged or latched
   * @param pendingS for how long the condition has differed from the state, s; while suppressed:
   *     for how long there has been no reason to suppress it
   * @param shelf whether a person has shelved it, and for how long
   * @param suppressed whether it would be announced, or was active before, and is suppressed by
   *     design
   * @param outOfService whether the installer's file has taken it out of service
   * @param heldBack whether it was raised in a flood and has not been shown to anybody yet
   */
  public record Entry(
      AlarmState under,
      double pendingS,
      Shelf shelf,
      boolean suppressed,
      boolean outOfService,
      boolean heldBack) {
    static final Entry NORMAL = new Entry(AlarmState.NORMAL, 0);

    /** An alarm read back from a ledger is validated like any untrusted input. */
    public Entry {
      switch (under) {
        case SHELVED, SUPPRESSED, OUT_OF_SERVICE ->
            throw new IllegalArgumentException("an alarm is not " + under.term() + " underneath");
        default -> {}
      }
    }

    /** An alarm that nothing silences. */
    public Entry(AlarmState under, double pendingS) {
      this(under, pendingS, Shelf.NONE, false, false, false);
    }

    /** The state as people see it. */
    public AlarmState state() {
      if (outOfService) {
        return AlarmState.OUT_OF_SERVICE;
      }
      if (shelf.running()) {
        return AlarmState.SHELVED;
      }
      return suppressed ? AlarmState.SUPPRESSED : under;
    }

    Entry with(AlarmState next, double nextPendingS) {
      return new Entry(next, nextPendingS, shelf, suppressed, outOfService, heldBack);
    }

    Entry with(Shelf next) {
      return new Entry(under, pendingS, next, suppressed, outOfService, heldBack);
    }

    Entry withSuppressed(boolean next) {
      return new Entry(under, 0, shelf, next, outOfService, heldBack);
    }

    Entry withHeldBack(boolean next) {
      return new Entry(under, pendingS, shelf, suppressed, outOfService, next);
    }

    private boolean atRest() {
      return equals(NORMAL);
    }
  }

  /**
   * The inputs of a step.
   *
   * @param active active causes, including latched ones
   * @param present causes whose condition holds
   * @param outOfService alarms that the installer's file has taken out of service
   * @param seenS time since the last scan during which the causes were observed, s; 0 after a gap
   * @param elapsedS time since the last scan, s
   * @param unixTimeS wall clock, Unix s
   */
  public record Seen(
      Set<Cause> active,
      Set<Cause> present,
      Set<Cause> outOfService,
      double seenS,
      double elapsedS,
      double unixTimeS,
      boolean clockTrusted) {}

  /**
   * One change of the state that people see.
   *
   * @param heldBack whether it is for the journal only, because of a flood
   */
  public record Transition(Cause alarm, AlarmState from, AlarmState to, boolean heldBack) {
    public Transition(Cause alarm, AlarmState from, AlarmState to) {
      this(alarm, from, to, false);
    }
  }

  public record Result(
      Map<Cause, Entry> entries, Annunciator annunciator, List<Transition> transitions) {}

  /**
   * @param entries the alarms that differ from {@code Entry.NORMAL}
   */
  public static Result step(Map<Cause, Entry> entries, Annunciator annunciator, Seen seen) {
    if (entries.isEmpty()
        && seen.active().isEmpty()
        && seen.outOfService().isEmpty()
        && annunciator.equals(Annunciator.QUIET)) {
      return new Result(entries, annunciator, List.of());
    }
    Set<Cause> suppressing = Suppression.by(seen.active());
    Map<Cause, Entry> next = new EnumMap<>(Cause.class);
    List<Transition> transitions = new ArrayList<>();
    int annunciated = 0;
    for (Cause cause : concerned(entries, seen)) {
      Entry before = entries.getOrDefault(cause, Entry.NORMAL);
      Entry after = step(cause, before, suppressing.contains(cause), seen);
      if (after.state() != before.state()) {
        transitions.add(new Transition(cause, before.state(), after.state()));
        boolean announced = !mayBeHeldBack(cause) || !annunciator.flood().on();
        annunciated += announced && Transitions.calls(before.state(), after.state()) ? 1 : 0;
      }
      if (!after.atRest()) {
        next.put(cause, after);
      }
    }
    Flood flood = annunciator.flood().step(annunciated, seen.elapsedS());
    holdBack(next, transitions, flood.on());
    EnumSet<Cause> counting = EnumSet.noneOf(Cause.class);
    counting.addAll(seen.active());
    counting.removeAll(suppressing);
    return new Result(
        next, new Annunciator(annunciator.firstOut().step(counting, next), flood), transitions);
  }

  /** All alarms that may differ from normal before or after this scan. */
  private static Set<Cause> concerned(Map<Cause, Entry> entries, Seen seen) {
    EnumSet<Cause> concerned = EnumSet.noneOf(Cause.class);
    concerned.addAll(entries.keySet());
    concerned.addAll(seen.active());
    concerned.addAll(seen.outOfService());
    concerned.removeIf(cause -> cause.priority() == Priority.NONE);
    return concerned;
  }

  private static boolean mayBeHeldBack(Cause cause) {
    return cause.priority() == Priority.LOW;
  }

  /**
   * During a flood, new low-priority alarms go to the journal only. Once the flood is over they are
   * shown in their current state.
   */
  private static void holdBack(
      Map<Cause, Entry> entries, List<Transition> transitions, boolean flood) {
    for (int i = 0; i < transitions.size(); i++) {
      Transition t = transitions.get(i);
      Entry entry = entries.get(t.alarm());
      boolean was = entry != null && entry.heldBack();
      boolean begins = mayBeHeldBack(t.alarm()) && Transitions.calls(t.from(), t.to());
      if (flood && (was || begins)) {
        transitions.set(i, new Transition(t.alarm(), t.from(), t.to(), true));
        entries.computeIfPresent(t.alarm(), (cause, e) -> e.withHeldBack(true));
      }
    }
    if (!flood) {
      entries.replaceAll((cause, e) -> e.heldBack() ? e.withHeldBack(false) : e);
      entries.values().removeIf(Entry::atRest);
    }
  }

  private static Entry step(Cause cause, Entry before, boolean suppressing, Seen seen) {
    if (seen.outOfService().contains(cause)) {
      return new Entry(AlarmState.NORMAL, 0, Shelf.NONE, false, true, false);
    }
    Entry entry = before.outOfService() ? Entry.NORMAL : before;
    if (entry.shelf().running()) {
      Shelf shelf = entry.shelf().after(seen.elapsedS(), seen.unixTimeS(), seen.clockTrusted());
      entry = shelf.running() ? entry.with(shelf) : unshelved(entry);
    }
    Condition condition = Condition.of(cause, seen.active(), seen.present());
    Annunciation delays = cause.annunciation();
    if (entry.suppressed()) {
      return suppressed(entry, condition, suppressing, delays, seen.seenS());
    }
    AlarmState next = Transitions.settled(entry.under(), condition);
    if (suppressing) {
      boolean stood = entry.under() != AlarmState.NORMAL;
      if (stood || due(entry, next, delays, seen.seenS())) {
        return entry.withSuppressed(true);
      }
      return entry.with(entry.under(), pending(entry, next, seen.seenS()));
    }
    return due(entry, next, delays, seen.seenS())
        ? entry.with(next, 0)
        : entry.with(entry.under(), pending(entry, next, seen.seenS()));
  }

  /**
   * A suppressed alarm keeps its state. Once there has been no reason to suppress it for its off
   * delay, it continues from that state. An alarm that was acknowledged before need not be
   * acknowledged again; otherwise a probe that is dry each night would call someone each morning.
   */
  private static Entry suppressed(
      Entry entry, Condition condition, boolean suppressing, Annunciation delays, double seenS) {
    boolean something = entry.under() != AlarmState.NORMAL || condition != Condition.CLEAR;
    if (suppressing && something) {
      return entry.with(entry.under(), 0);
    }
    double pendingS = entry.pendingS() + seenS;
    return pendingS < delays.offDelayS()
        ? entry.with(entry.under(), pendingS)
        : entry.withSuppressed(false).with(Transitions.settled(entry.under(), condition), 0);
  }

  private static boolean due(Entry entry, AlarmState next, Annunciation delays, double seenS) {
    return next != entry.under()
        && pending(entry, next, seenS) >= delayS(entry.under(), next, delays);
  }

  private static double pending(Entry entry, AlarmState next, double seenS) {
    return next == entry.under() ? 0 : entry.pendingS() + seenS;
  }

  private static double delayS(AlarmState from, AlarmState to, Annunciation delays) {
    if (Transitions.calls(from, to)) {
      return delays.onDelayS();
    }
    boolean reset = from == AlarmState.LATCHED || from == AlarmState.LATCHED_UNACKNOWLEDGED;
    return reset ? 0 : delays.offDelayS();
  }

  private static Entry unshelved(Entry entry) {
    return entry.with(Shelf.NONE).with(Transitions.announced(entry.under()), entry.pendingS());
  }

  /** Whether there is something to acknowledge. */
  public static boolean acknowledgeable(Map<Cause, Entry> entries, Cause cause) {
    return !entries.getOrDefault(cause, Entry.NORMAL).state().acknowledged();
  }

  /** Acknowledges an alarm; call only where {@link #acknowledgeable} holds. */
  public static Result acknowledge(
      Map<Cause, Entry> entries, Annunciator annunciator, Cause cause) {
    Entry entry = entries.get(cause);
    AlarmState to = Transitions.acknowledged(entry.under());
    double pendingS = to == AlarmState.NORMAL ? 0 : entry.pendingS();
    return changed(entries, annunciator, cause, entry.with(to, pendingS).withHeldBack(false));
  }

  /**
   * Shelves an alarm, which also acknowledges it. An alarm that is already shelved is shelved for a
   * new time from now.
   */
  public static Result shelve(
      Map<Cause, Entry> entries,
      Annunciator annunciator,
      Cause cause,
      double seconds,
      double unixTimeS,
      boolean clockTrusted) {
    Entry entry = entries.getOrDefault(cause, Entry.NORMAL);
    return changed(
        entries,
        annunciator,
        cause,
        entry
            .with(Transitions.acknowledged(entry.under()), entry.pendingS())
            .with(Shelf.of(seconds, unixTimeS, clockTrusted))
            .withHeldBack(false));
  }

  /** Unshelves an alarm early; call only where it is shelved. */
  public static Result unshelve(Map<Cause, Entry> entries, Annunciator annunciator, Cause cause) {
    return changed(entries, annunciator, cause, unshelved(entries.get(cause)));
  }

  /** After a restart the installer's limit on the shelving time may be lower. */
  public static Map<Cause, Entry> resumed(Map<Cause, Entry> entries, double shelfMaxS) {
    Map<Cause, Entry> next = new EnumMap<>(Cause.class);
    entries.forEach((cause, e) -> next.put(cause, e.with(e.shelf().within(shelfMaxS))));
    return next;
  }

  private static Result changed(
      Map<Cause, Entry> entries, Annunciator annunciator, Cause cause, Entry after) {
    AlarmState from = entries.getOrDefault(cause, Entry.NORMAL).state();
    Map<Cause, Entry> next = new EnumMap<>(Cause.class);
    next.putAll(entries);
    if (after.atRest()) {
      next.remove(cause);
    } else {
      next.put(cause, after);
    }
    return new Result(
        next,
        annunciator,
        from == after.state() ? List.of() : List.of(new Transition(cause, from, after.state())));
  }
}
