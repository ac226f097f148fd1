package limnostat.daemon;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import limnostat.alarm.Alarms;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.daemon.service.ServiceNotifier;
import limnostat.field.Field;
import limnostat.ledger.AbsentLedger;
import limnostat.ledger.Entry;
import limnostat.ledger.Ledger;
import limnostat.ledger.LedgerException;
import limnostat.mqtt.Keeper;
import limnostat.mqtt.Link;
import limnostat.mqtt.Password;
import limnostat.safety.Cause;
import limnostat.scan.Command;
import limnostat.scan.ScanState;

/**
 * Runs the daemon on an open field until the end. Without a ledger it stays in a safe state: it
 * scans, announces and raises {@code ledger_failing}. It feeds nothing, since nothing can be
 * booked, and takes no command, since none would be kept. Once the ledger opens, it continues as
 * after a restart.
 */
public final class Service {
  /** A disk that has not answered after this time is reported, ms (engineering judgement). */
  private static final long LEDGER_WAIT_MS = TimeUnit.SECONDS.toMillis(30);

  private final ConfigurationFile file;
  private final Configuration configuration;
  private final BootClock clock;
  private final Field field;
  private final Password password;
  private final EventLog log;
  private final LedgerOpening opening;
  private final ServiceNotifier notifier;
  private Optional<Daemon> daemon = Optional.empty();
  private boolean stopped;

  public Service(
      ConfigurationFile file,
      BootClock clock,
      Field field,
      Password password,
      LedgerOpening opening,
      ServiceNotifier notifier,
      EventLog log) {
    this.file = file;
    this.configuration = file.configuration();
    this.clock = clock;
    this.field = field;
    this.password = password;
    this.opening = opening;
    this.notifier = notifier;
    this.log = log;
  }

  /**
   * Runs until {@link #stop}.
   *
   * @throws LedgerException the ledger is in use or belongs to another program; the message says
   *     what failed, where, and the remedy
   */
  public void run() throws LedgerException, InterruptedException {
    opening.await(LEDGER_WAIT_MS);
    Optional<Ledger> ledger = opening.take();
    Optional<Held> held = Optional.empty();
    if (ledger.isEmpty() && !stopped()) {
      held = Optional.of(hold());
      ledger = opening.take();
    }
    if (ledger.isPresent()) {
      try (Ledger open = ledger.get()) {
        serve(open, held);
      }
    }
  }

  /** From any thread: outputs off at once; {@link #run} returns. */
  public void stop() {
    Optional<Daemon> running;
    synchronized (this) {
      stopped = true;
      running = daemon;
    }
    running.ifPresent(Daemon::stop);
    opening.close();
  }

  private synchronized boolean stopped() {
    return stopped;
  }

  /** What was kept while there was no ledger. */
  private record Held(AbsentLedger ledger, Map<Cause, Alarms.Entry> alarms) {}

  private Held hold() {
    log.warn(opening.reason() + "; until it can be opened nothing is fed");
    AbsentLedger absent = new AbsentLedger(opening.reason());
    try (Link link =
        new Link(configuration.mqtt(), configuration.siteId(), password, Keeper.NONE)) {
      Resume resume =
          new Resume(ScanState.start(configuration.scan()).resumed(configuration.scan()), 0, "");
      ScanCycle cycle =
          scan(
              absent,
              link,
              resume,
              Optional.of("nothing lasts while there is no ledger: " + opening.reason()),
              opening::over);
      return new Held(absent, cycle.state().alarms());
    }
  }

  private void serve(Ledger ledger, Optional<Held> held) {
    Resume resume =
        Resume.from(ledger.restored(), configuration.scan(), clock)
            .configuredBy(file.controlling());
    if (held.isPresent()) {
      log.info("the ledger is open");
      Set<Cause> known = resume.state().alarms().keySet();
      held.get().ledger().events().stream()
          .filter(event -> !ofAlarm(event, known))
          .forEach(ledger::offer);
      resume = resume.after(held.get().alarms());
    }
    log.info("site " + configuration.siteId() + ": " + resume.note());
    try (Link link =
        new Link(
            configuration.mqtt(), configuration.siteId(), password, new LedgerKeeper(ledger))) {
      scan(ledger, link, resume, Optional.empty(), () -> false);
    }
  }

  /**
   * If the ledger already knows an alarm, it was raised again only because the ledger was not open.
   */
  private static boolean ofAlarm(Entry.Event event, Set<Cause> alarms) {
    return alarms.stream().anyMatch(a -> event.json().contains("\"alarm\":\"" + a.id() + "\""));
  }

  private ScanCycle scan(
      Ledger ledger, Link link, Resume resume, Optional<String> refusal, BooleanSupplier over) {
    Discovery discovery =
        Discovery.begin(
            configuration, link, type -> configuration.scan().network().allows(type), log);
    ScanCycle cycle =
        ScanCycle.open(
            configuration, new ScanCycle.Surroundings(field, ledger, link, clock, log), resume);
    cycle.follow(discovery);
    new LastResort(cycle::off).install();
    // Only once the ledger is ours; otherwise this would take another daemon's commands.
    try (LocalCommandFolder spool =
        LocalCommandFolder.open(configuration.ledger().file(), ledger, log)) {
      CommandInbox inbox =
          new CommandInbox(
              link,
              Command.Request.NETWORK
                  + " "
                  + configuration.mqtt().baseTopic()
                  + "/"
                  + configuration.siteId()
                  + "/command",
              spool,
              log,
              clock.clock());
      discovery.homie().ifPresent(device -> inbox.translate(device::command));
      refusal.ifPresent(inbox::refuse);
      Daemon next =
          new Daemon(
              cycle,
              field,
              inbox,
              log,
              notifier,
              new HealthTopic(link, ledger, clock.clock()),
              configuration.periodS());
      link.start();
      if (begins(next)) {
        next.run(over);
      }
    }
    return cycle;
  }

  private synchronized boolean begins(Daemon next) {
    daemon = Optional.of(next);
    return !stopped;
  }
}
