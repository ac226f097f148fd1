package limnostat.daemon;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.control.Mode;
import limnostat.field.Field;
import limnostat.field.SimulatedField;
import limnostat.ledger.Ledger;
import limnostat.ledger.TestLedgers;
import limnostat.measure.Role;
import limnostat.measure.Signals;
import limnostat.mqtt.Keeper;
import limnostat.mqtt.Link;
import limnostat.mqtt.Message;
import limnostat.plant.PlantFault;
import limnostat.plant.Pool;
import limnostat.rig.ConfigText;
import limnostat.rig.Program;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;
import limnostat.wire.EventDocument;

/**
 * A scripted hour of the daemon's own cycle on a simulated pool, with its real ledger and a stop
 * and a start in its midst, as fast as the disk takes it. What is true is written into the file
 * {@code marks} beside the ledger, in the order of all that is written there: what the feeder has
 * really given, which alarms changed, and which changes the broker was told of.
 */
final class CrashScript {
  static final double START_UNIX_S = 1_782_900_000;
  private static final String BOOT_ID = "scripted";
  private static final double UPTIME_S = 1e6;
  static final double SCAN_S = 10;
  static final String MARKS = "marks";

  private static final int STOP_AT_SCAN = 150;
  private static final int SCANS = 360;

  private final Configuration configuration;
  private final Clock.Simulated clock = new Clock.Simulated(START_UNIX_S);
  private final BootClock boot = boot(clock);
  private final OutputStream marks;
  private final Feeder feeder;
  private final Teller teller = new Teller();
  private int scan;

  private CrashScript(Configuration configuration, OutputStream marks) {
    this.configuration = configuration;
    this.marks = marks;
    this.feeder =
        new Feeder(
            new SimulatedField(new Pool(FieldFactory.plant(configuration, 1), START_UNIX_S)));
  }

  static ConfigText config() throws IOException {
    return ConfigText.feedingSoon()
        .with("scan.period", "\"10 s\"")
        .with("limits.flow_proving", "\"20 s\"")
        .with("ledger.readings_every", "\"10 s\"")
        .with("limits.chlorine_hour", "\"15 g\"")
        .with("limits.chlorine_day", "\"100 g\"")
        // Two alarms that stand from the beginning, beside those of the script.
        .with("pool.cyanuric_acid", "\"120 mg/L\"")
        .with("mqtt.port", "1"); // a broker that is never there
  }

  /** The machine's boot that the script runs in. */
  private static BootClock boot(Clock clock) {
    return new BootClock(BOOT_ID, UPTIME_S, clock);
  }

  /** The same, so long after the start. */
  static BootClock bootAt(double seconds) {
    Clock.Simulated clock = new Clock.Simulated(START_UNIX_S);
    clock.advance(seconds);
    return boot(clock);
  }

  /**
   * @param args configuration
   */
  public static void main(String[] args) throws Exception {
    Configuration configuration = ConfigurationFile.load(Path.of(args[0])).configuration();
    Path folder = configuration.ledger().file().getParent();
    try (OutputStream marks = new FileOutputStream(folder.resolve(MARKS).toFile(), true)) {
      CrashScript script = new CrashScript(configuration, marks);
      script.live(STOP_AT_SCAN, true);
      script.live(SCANS, false);
    }
    Runtime.getRuntime().halt(0); // the power cut that comes after all others
  }

  private void live(int untilScan, boolean orderly) throws Exception {
    EventLog log = new EventLog(line -> {});
    Ledger ledger = TestLedgers.busy(configuration.ledger(), 0.02, 0.1);
    teller.begin(new LedgerKeeper(ledger));
    // Never started: what it would send is told by this class, when it may be.
    Link link = new Link(configuration.mqtt(), configuration.siteId(), Optional.empty(), teller);
    Resume resume = Resume.from(ledger.restored(), configuration.scan(), boot);
    ScanCycle cycle =
        ScanCycle.open(
            configuration, new ScanCycle.Surroundings(feeder, ledger, link, boot, log), resume);
    while (scan < untilScan) {
      clock.advance(SCAN_S);
      scan++;
      feeder.passed(SCAN_S);
      mark("scan " + clock.monotonicS() + " " + feeder.givenG);
      befall();
      ScanOutcome outcome = cycle.once(asked(), false);
      for (ScanEvent event : outcome.events()) {
        if (event instanceof ScanEvent.AlarmChanged) {
          mark("alarm " + EventDocument.text(event));
        }
      }
      settle(ledger, outcome);
    }
    if (orderly) {
      cycle.close(true);
      ledger.close();
      log.close();
    }
  }

  /** Alarms come and go. */
  private void befall() {
    switch (scan) {
      case 20 -> unplug(Role.ORP_MV, 150);
      case 70 -> unplug(Role.WATER_C, 200);
      case 120 -> unplug(Role.PH_MV, 150);
      case 190 -> unplug(Role.ORP_MV, 200);
      case 240 -> unplug(Role.PH_MV, 400);
      case 300 -> unplug(Role.WATER_C, 150);
      default -> {}
    }
  }

  private void unplug(Role role, double forS) {
    double nowS = feeder.pool.poolUnixTimeS();
    feeder.pool.inject(new PlantFault.Unplugged(role, new PlantFault.Span(nowS, nowS + forS)));
  }

  private List<Command.Request> asked() {
    return switch (scan) {
      case 40 -> List.of(request("target", new Command.SetTarget(3.5)));
      case 100 -> List.of(request("mode", new Command.SetMode(Mode.MANUAL, OptionalDouble.of(1))));
      case 110, 270 -> List.of(request("acknowledge", new Command.Acknowledge("orp_failure")));
      default -> List.of();
    };
  }

  private Command.Request request(String type, Command command) {
    return new Command.Request(Optional.of(type + scan), type, "script", "{}", command);
  }

  /** Waits until the ledger has what must be in it, and tells what may be told. */
  private void settle(Ledger ledger, ScanOutcome outcome) throws Exception {
    for (Output output : Output.values()) {
      double wanted = outcome.state().of(output).account().requested();
      Program.await("booking " + wanted, () -> ledger.booked().of(output) >= wanted);
    }
    Program.await("records", teller::allSafe);
    teller.tell(number -> mark("told " + number));
  }

  private void mark(String line) {
    try {
      marks.write((line + "\n").getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** In the link's and the broker's place: tells alarms one scan after they are safe. */
  private static final class Teller implements Keeper {
    private Keeper keeper;
    private final List<Message> alarms = new ArrayList<>();
    private int told;

    void begin(Keeper next) {
      keeper = next;
    }

    boolean allSafe() {
      return alarms.stream().skip(told).allMatch(m -> keeper.safe(m.number()));
    }

    /** The number of a change of an alarm is its place in the order of all. */
    void tell(Consumer<Integer> mark) {
      while (told < alarms.size()) {
        mark.accept(told);
        keeper.forget(alarms.get(told).number());
        told++;
      }
    }

    @Override
    public Found found() {
      return keeper.found();
    }

    @Override
    public boolean keep(Message message) {
      String text = new String(message.payload(), StandardCharsets.UTF_8);
      if (text.contains("\"event\":\"alarm\"")) {
        alarms.add(message);
      }
      return keeper.keep(message);
    }

    @Override
    public void forget(long number) {
      keeper.forget(number);
    }

    @Override
    public boolean safe(long number) {
      return keeper.safe(number);
    }

    @Override
    public void read(long after, int most, Consumer<Page> reader) {
      keeper.read(after, most, reader);
    }

    @Override
    public void onChange(Runnable listener) {
      keeper.onChange(listener);
    }
  }

  /** Keeps the book of what really goes in. */
  private final class Feeder implements Field {
    private final SimulatedField pool;
    private double level;
    private double givenG;

    Feeder(SimulatedField pool) {
      this.pool = pool;
    }

    void passed(double seconds) {
      givenG += configuration.scan().chlorine().caps().amount(level, seconds);
    }

    @Override
    public Signals read(double monotonicS, double unixTimeS) {
      return pool.read(monotonicS, unixTimeS);
    }

    @Override
    public void write(Outputs outputs) {
      level = outputs.chlorine();
      pool.write(outputs);
    }

    @Override
    public void off() {
      level = 0;
      pool.off();
    }

    @Override
    public void onFlowEdge(Runnable callback) {
      pool.onFlowEdge(callback);
    }

    @Override
    public void close() {
      pool.close();
    }
  }
}
