package limnostat.cli;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import limnostat.alarm.AlarmState;
import limnostat.daemon.EventLog;
import limnostat.daemon.HangGuard;
import limnostat.daemon.Outcomes;
import limnostat.daemon.service.LogShutdown;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.scan.ScanEvent;

/** What the tests of whole processes run. */
final class CliProcess {
  private CliProcess() {}

  public static void main(String[] arguments) throws InterruptedException {
    switch (arguments[0]) {
      case "log" -> log();
      case "guard" -> hang(() -> System.out.println("off"));
      case "guard-fails" ->
          hang(
              () -> {
                throw new IllegalStateException("no board");
              });
      case "guard-hangs" -> hang(CliProcess::sleep);
      case "guard-is-fed" -> {
        try (HangGuard guard = new HangGuard(() -> System.out.println("off"), 0)) {
          for (int i = 0; i < 110; i++) {
            Thread.sleep(100);
            guard.alive(System.nanoTime());
          }
        }
        Thread.sleep(1000);
      }
      default -> throw new IllegalArgumentException(arguments[0]);
    }
  }

  private static void sleep() {
    try {
      new CountDownLatch(1).await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void hang(Runnable outputsOff) {
    try (HangGuard guard = new HangGuard(outputsOff, 0)) {
      guard.alive(System.nanoTime());
      sleep();
    }
  }

  private static void log() {
    try (EventLog log = new EventLog()) {
      List<Role> fitted = List.of(Role.CELL_A);
      Signals absent = Signals.of(Map.of(Role.CELL_A, new Signal.Missing("cable")));
      log.inputs(absent, fitted);
      log.inputs(absent, fitted);
      log.inputs(Signals.of(Map.of(Role.CELL_A, new Signal.Analog(1))), fitted);
      log.log(
          new ScanEvent.AlarmChanged(Cause.ORP_HIGH, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED));
      log.log(
          new ScanEvent.AlarmChanged(
              Cause.WATER_COLD, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED));
      log.log(new ScanEvent.Tripped(Cause.NO_FLOW, true));
      log.log(new ScanEvent.Refused(Outcomes.mode(), "because {} of\nthat"));
      log.log(new ScanEvent.Interrupted(90));
    }
    LogShutdown.flush(Duration.ofSeconds(10));
  }
}
