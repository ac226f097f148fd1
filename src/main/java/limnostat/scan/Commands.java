package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.estimate.Additions;
import limnostat.estimate.Doubted;
import limnostat.estimate.TestLog;
import limnostat.estimate.UnfedChlorine;
import limnostat.measure.Role;

/**
 * Grants or refuses commands. Nothing here widens a limit: a value beyond a limit is refused with
 * the limit's name.
 */
final class Commands {
  private static final String QUESTION =
      "it reads above what was fed: was something added by hand? enter it as an addition";

  private Commands() {}

  record Result(ScanState state, List<ScanEvent> events) {}

  static Result apply(
      ScanSettings settings, ScanState state, List<Command.Request> requests, Now now) {
    if (requests.isEmpty()) {
      return new Result(state, List.of());
    }
    ScanState current = state;
    List<ScanEvent> events = new ArrayList<>();
    for (Command.Request request : requests) {
      Optional<Answers.Answer> first = current.asked().answers().to(request);
      if (first.isPresent()) {
        events.add(new ScanEvent.AnsweredAgain(request, first.get()));
        continue;
      }
      Optional<ScanEvent> repeat = repeatWithoutId(request, current.asked().answers());
      if (repeat.isPresent()) {
        events.add(repeat.get());
        continue;
      }
      Answers.Answer answer;
      try {
        settings.network().check(request, now);
        ScanState before = current;
        current = request.command().grantedBy(new Grants(settings, current, request, now, events));
        events.addAll(Setpoints.changes(settings, before, current, request.origin()));
        Optional<String> remark = remark(settings, request.command(), before, current);
        Optional<Additions> listed =
            request.command() instanceof Command.ListAdditions
                ? Optional.of(current.asked().additions())
                : Optional.empty();
        events.add(new ScanEvent.Accepted(request, remark, listed));
        found(before, current).map(ScanEvent.AdditionSuspected::new).ifPresent(events::add);
        answer = Answers.Answer.of(request, true, remark.orElse(""));
      } catch (Refusal refusal) {
        events.add(new ScanEvent.Refused(request, refusal.getMessage()));
        answer = Answers.Answer.of(request, false, refusal.getMessage());
      }
      // A command that was refused unread has no document to recognise it by, and no effect to
      // repeat. A command that did not come over the network has no repeats without an id.
      if (!request.document().isEmpty()
          && (request.requestId().isPresent() || request.overNetwork())) {
        StandingRequests asked = current.asked();
        current = current.withAsked(asked.with(asked.answers().with(answer)));
      }
    }
    return new Result(current, events);
  }

  /**
   * A command that may raise chlorine is not applied twice because it arrived twice. While it is
   * the last accepted command, it stays in force and is answered as before. After another command
   * it is unclear whether it is an old request or a new one, and the sender has to say which.
   */
  private static Optional<ScanEvent> repeatWithoutId(Command.Request request, Answers answers) {
    if (!request.overNetwork() || !request.command().mayRaiseChlorine()) {
      return Optional.empty();
    }
    return answers
        .withoutId(request)
        .map(
            first ->
                answers.latest(first)
                    ? new ScanEvent.AnsweredAgain(request, first)
                    : new ScanEvent.Refused(
                        request,
                        String.format(
                            Locale.ROOT,
                            "the very same came %.0f s ago, and something else since: without a"
                                + " request_id a repeat cannot be told from a second wish, and what"
                                + " may raise chlorine is taken once in %.0f min; send it with a"
                                + " request_id of its own",
                            first.ageS(),
                            Answers.KEPT_S / 60)));
  }

  /** What the sender should know even though the command is accepted. */
  private static Optional<String> remark(
      ScanSettings settings, Command command, ScanState before, ScanState after) {
    if (command instanceof Command.CalibratePh) {
      return Optional.of(Calibration.remark(settings, before, after, Role.PH_MV));
    }
    if (command instanceof Command.CalibrateOrp) {
      return Optional.of(Calibration.remark(settings, before, after, Role.ORP_MV));
    }
    if (command instanceof Command.CalibrateUndo c) {
      return Optional.of(Calibration.remark(settings, before, after, c.probe()));
    }
    if (command instanceof Command.Add) {
      return Optional.of(AdditionCommands.remark(before, after));
    }
    return command instanceof Command.Test c && c.test().ofFreeChlorine()
        ? both(
            remark(before.estimate().tests(), after.estimate().tests()),
            found(before, after).map(found -> QUESTION))
        : Optional.empty();
  }

  private static Optional<String> both(Optional<String> one, Optional<String> other) {
    return one.isPresent() && other.isPresent()
        ? Optional.of(one.get() + "; " + other.get())
        : one.or(() -> other);
  }

  /** Chlorine that a test has found and nobody fed. */
  private static Optional<UnfedChlorine> found(ScanState before, ScanState after) {
    UnfedChlorine now = after.asked().additions().unfed();
    return Optional.of(now)
        .filter(UnfedChlorine::standing)
        .filter(unfed -> !unfed.equals(before.asked().additions().unfed()));
  }

  private static Optional<String> remark(TestLog before, TestLog after) {
    Doubted doubted = after.doubted();
    return switch (after.verdict()) {
      case DOUBTED ->
          Optional.of(
              String.format(
                  Locale.ROOT,
                  "it reads far above the %.1f mg/L of free chlorine that were expected and counts in"
                      + " part only: look at sample and reagents and test again; a second one, 5"
                      + " minutes later or more, is believed",
                  doubted.expectedMgL()));
      case BORNE_OUT -> Optional.of("it bears out the test before it, and is believed");
      case BELIEVED, NONE ->
          before.doubted().standing()
              ? Optional.of("the test before it, which contradicted, is set aside")
              : Optional.empty();
    };
  }
}
