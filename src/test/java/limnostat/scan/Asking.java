package limnostat.scan;

import java.io.IOException;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.wire.SavedState;

/** Asks one command a scan, and tells what was answered. */
final class Asking {
  static final double NOW_UNIX_S = 1_780_000_000;

  final Map<Role, Signal> signals = new EnumMap<>(Role.class);
  ScanSettings settings;
  ScanState state;
  ScanOutcome out;
  boolean clockTrusted = true;
  private int asked;

  Asking(ScanSettings settings) {
    this.settings = settings;
    this.state = ScanState.start(settings);
  }

  void analog(Role role, double value) {
    signals.put(role, new Signal.Analog(value));
  }

  void pass(double elapsedS) {
    step(elapsedS, List.of());
  }

  String ask(Command command) {
    return askByDocument("{" + ++asked + "}", command);
  }

  /** Without an id. */
  String askByDocument(String document, Command command) {
    return ask(new Command.Request(Optional.empty(), "any", "mqtt", document, command));
  }

  String askedAt(double unixTimeS, Command command) {
    return ask(
        new Command.Request(
            Optional.empty(),
            "any",
            "mqtt",
            "{" + ++asked + "}",
            command,
            OptionalDouble.of(unixTimeS)));
  }

  String askById(String id, String document, Command command) {
    return ask(new Command.Request(Optional.of(id), "any", "mqtt", document, command));
  }

  /** The reason of a refusal, else "accepted" with its remark; with "again: " before a repeat. */
  String ask(Command.Request request) {
    step(1, List.of(request));
    for (ScanEvent event : out.events()) {
      if (event instanceof ScanEvent.Refused e) {
        return e.reason();
      }
      if (event instanceof ScanEvent.Accepted e) {
        return "accepted" + e.remark().map(remark -> ": " + remark).orElse("");
      }
      if (event instanceof ScanEvent.AnsweredAgain e) {
        return "again: " + (e.first().accepted() ? "accepted" : e.first().text());
      }
    }
    throw new AssertionError("no answer");
  }

  /** Another process continues from what is saved. */
  void restart() throws IOException {
    state = SavedState.read(SavedState.write(state)).resumed(settings);
  }

  private void step(double elapsedS, List<Command.Request> requests) {
    out =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                elapsedS,
                NOW_UNIX_S,
                clockTrusted,
                Signals.of(new HashMap<>(signals)),
                Map.of(),
                false,
                true,
                requests));
    state = out.state();
  }
}
