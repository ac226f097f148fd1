package limnostat.field.board;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalState;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.config.FieldSettings;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import org.tinylog.Logger;

/**
 * The field of a single-board computer. Relays are requested first, off; then the inputs. If an
 * input device is absent or refused, its signal is missing with the reason, and it is retried with
 * growing pauses. If a relay is absent, {@link #write} fails until it is there.
 */
public final class BoardField implements Field {

  /** How fast the buses are read. */
  record Timing(Sampler.Pace i2c, Sampler.Pace oneWire) {}

  /**
   * I2C: a few conversions of 10 ms each, twice a second. 1-wire: a reading of 750 ms every 2 to 3
   * s. A reading stays valid until a few in a row are lost (engineering judgement).
   */
  private static final Timing TIMING =
      new Timing(new Sampler.Pace(500, 3_000), new Sampler.Pace(2_000, 12_000));

  /** Bounce of a contact, µs (engineering judgement). */
  private static final long CONTACT_DEBOUNCE_US = 10_000;

  /** Longest wait for the bus threads at shutdown; longer than a 1-wire reading, ms. */
  private static final long STOP_MS = 1_000;

  private final Context context;
  private final Map<Output, RelayLine> relays = new EnumMap<>(Output.class);
  private final Optional<RelayLine> pumpRelay;
  private final Optional<RelayLine> heartbeat;
  private boolean beatHigh;
  private final Map<Role, Contact> contacts = new EnumMap<>(Role.class);
  private final Optional<Pulses> pulses;
  private final List<Sampler> samplers = new ArrayList<>();
  private volatile Runnable flowEdge = () -> {};
  private volatile boolean closed;

  /** A contact and its line. */
  private record Contact(FieldSettings.LineIn settings, InputLine line) {
    Signal read() {
      return line.read(
          level -> new Signal.Contact((level == DigitalState.LOW) == settings.activeLow()));
    }
  }

  /** A pulse meter and its line. */
  private record Pulses(InputLine line, AtomicLong count, PulseRate rate) {
    Signal read(double monotonicS) {
      return line.read(
          level -> {
            OptionalDouble flowLMin = rate.update(count.get(), monotonicS);
            return flowLMin.isPresent()
                ? new Signal.Analog(flowLMin.getAsDouble())
                : new Signal.Missing("the flow meter's first interval is under way");
          });
    }
  }

  /**
   * Opens the board's field with every relay off.
   *
   * @throws FieldException Pi4J cannot be started
   */
  public static BoardField open(FieldSettings.Board settings) throws FieldException {
    return open(settings, BoardContext::create);
  }

  /**
   * The same with another Pi4J context, which the field shuts down when it closes.
   *
   * @throws FieldException the context cannot be made
   */
  public static BoardField open(FieldSettings.Board settings, Supplier<Context> contextFactory)
      throws FieldException {
    return open(settings, contextFactory, TIMING, System::nanoTime);
  }

  static BoardField open(
      FieldSettings.Board settings,
      Supplier<Context> contextFactory,
      Timing timing,
      LongSupplier nowNs)
      throws FieldException {
    Context context;
    try {
      context = contextFactory.get();
    } catch (RuntimeException | LinkageError e) {
      throw new FieldException(
          "Pi4J cannot be started: "
              + Causes.innermost(e)
              + "; check that the Pi4J jars are complete and the temporary folder can be written",
          e);
    }
    return new BoardField(settings, context, timing, nowNs);
  }

  private BoardField(
      FieldSettings.Board settings, Context context, Timing timing, LongSupplier nowNs) {
    this.context = context;

    settings
        .relays()
        .forEach(
            (output, line) ->
                relays.put(output, new RelayLine(output.key(), line, context, nowNs)));
    pumpRelay = settings.pumpRelay().map(line -> new RelayLine("pump", line, context, nowNs));
    heartbeat =
        settings.heartbeatLine().stream()
            .mapToObj(line -> new FieldSettings.LineOut(line, false))
            .map(line -> new RelayLine("heartbeat", line, context, nowNs))
            .findFirst();
    everyRelay().forEach(RelayLine::open);

    settings
        .contacts()
        .forEach((role, line) -> contacts.put(role, contact(role, line, context, nowNs)));
    pulses = settings.pulses().map(meter -> pulses(meter, context, nowNs));
    everyInput().forEach(InputLine::open);

    if (!settings.analog().isEmpty()) {
      samplers.add(
          new Sampler(
              "I2C bus " + settings.i2cBus(),
              converters(settings, context, nowNs),
              timing.i2c(),
              nowNs));
    }
    settings
        .thermometer()
        .map(oneWire -> new Thermometer(settings.sysfs(), oneWire.id()))
        .ifPresent(
            thermometer ->
                samplers.add(
                    new Sampler(
                        "1-wire bus",
                        List.of(new Sampler.Input(Role.WATER_C, thermometer::read)),
                        timing.oneWire(),
                        nowNs)));
    samplers.forEach(Sampler::start);
  }

  private Contact contact(
      Role role, FieldSettings.LineIn line, Context context, LongSupplier nowNs) {
    return new Contact(
        line,
        new InputLine(
            role.key(),
            line,
            CONTACT_DEBOUNCE_US,
            level -> {
              if (role == Role.FLOW) {
                flowEdge.run();
              }
            },
            context,
            nowNs));
  }

  /**
   * A meter's output is assumed to be an open collector, which needs the pull-up (practice). It
   * gives too many pulses for each to start a scan. When they stop there is no edge, so the scan
   * has to detect it.
   */
  private static Pulses pulses(FieldSettings.PulseIn meter, Context context, LongSupplier nowNs) {
    AtomicLong count = new AtomicLong();
    FieldSettings.LineIn line =
        new FieldSettings.LineIn(meter.line(), false, FieldSettings.Pull.UP);
    return new Pulses(
        new InputLine(
            Role.FLOW.key() + "-pulses",
            line,
            0,
            level -> {
              if (level == DigitalState.HIGH) {
                count.incrementAndGet();
              }
            },
            context,
            nowNs),
        count,
        new PulseRate(meter.pulsesPerLitre()));
  }

  /** Roles on the same chip share its device: Pi4J refuses an address that is already in use. */
  private static List<Sampler.Input> converters(
      FieldSettings.Board settings, Context context, LongSupplier nowNs) {
    Map<Integer, Ads1115> chips = new HashMap<>();
    List<Sampler.Input> inputs = new ArrayList<>();
    settings
        .analog()
        .forEach(
            (role, input) -> {
              Ads1115 chip =
                  chips.computeIfAbsent(
                      input.address(),
                      address -> new Ads1115(settings.i2cBus(), address, context, nowNs));
              inputs.add(new Sampler.Input(role, () -> chip.read(input)));
            });
    return inputs;
  }

  @Override
  public Signals read(double monotonicS, double unixTimeS) {
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    contacts.forEach((role, contact) -> signals.put(role, unlessClosed(contact::read)));
    pulses.ifPresent(meter -> signals.put(Role.FLOW, unlessClosed(() -> meter.read(monotonicS))));
    samplers.forEach(sampler -> sampler.forEach(signals::put));
    return Signals.of(signals);
  }

  /** A line that was released must not be touched: its native part is gone. */
  private Signal unlessClosed(Supplier<Signal> read) {
    return closed ? new Signal.Missing("the field is closed") : read.get();
  }

  /**
   * {@inheritDoc}
   *
   * <p>Outputs that go off are driven first, so that two outputs that take turns never overlap. If
   * that fails, nothing is turned on.
   */
  @Override
  public void write(Outputs outputs) throws FieldException {
    Map<RelayLine, Boolean> wanted = new LinkedHashMap<>();
    for (Output output : Output.values()) {
      boolean on = isOn(output, outputs.of(output));
      RelayLine relay = relays.get(output);
      if (relay != null) {
        wanted.put(relay, on);
      } else if (on) {
        throw new FieldException(
            "the " + output.key() + " output is on, but no relay line is configured for it");
      }
    }
    pumpRelay.ifPresent(relay -> wanted.put(relay, outputs.pumpRequest()));
    drive(wanted, false);
    drive(wanted, true);
  }

  private static boolean isOn(Output output, double value) throws FieldException {
    if (value != 0 && value != 1) {
      throw new FieldException(
          "the "
              + output.key()
              + " output is "
              + value
              + ", but a relay is 0 or 1; configure its drive as a relay");
    }
    return value == 1;
  }

  /** Drives the relays that should have this state. A relay that fails does not stop the others. */
  private static void drive(Map<RelayLine, Boolean> wanted, boolean on) throws FieldException {
    FieldException failure = null;
    for (Map.Entry<RelayLine, Boolean> entry : wanted.entrySet()) {
      if (entry.getValue() == on) {
        try {
          entry.getKey().drive(on);
        } catch (FieldException e) {
          if (failure == null) {
            failure = e;
          } else {
            failure.addSuppressed(e);
          }
        }
      }
    }
    if (failure != null) {
      throw failure;
    }
  }

  @Override
  public void beat() throws FieldException {
    if (heartbeat.isPresent()) {
      heartbeat.get().drive(!beatHigh);
      beatHigh = !beatHigh;
    }
  }

  @Override
  public void off() {
    everyRelay().forEach(relay -> attempt(relay::off));
  }

  @Override
  public void onFlowEdge(Runnable callback) {
    flowEdge = callback;
  }

  /**
   * What does not work at present, each with its reason and remedy; empty if everything works. Call
   * on the scan thread, like {@link #read}.
   */
  public List<String> problems() {
    List<String> problems = new ArrayList<>();
    everyRelay().forEach(relay -> relay.problem().ifPresent(problems::add));
    everyInput().forEach(input -> input.problem().ifPresent(problems::add));
    samplers.forEach(
        sampler ->
            sampler.forEach(
                (role, signal) -> {
                  if (signal instanceof Signal.Missing missing) {
                    problems.add(role.key() + ": " + missing.reason());
                  }
                }));
    return List.copyOf(problems);
  }

  @Override
  public void close() {
    if (closed) {
      return;
    }
    closed = true;
    everyRelay().forEach(relay -> attempt(relay::close));
    samplers.forEach(sampler -> sampler.stop(STOP_MS));
    everyInput().forEach(input -> attempt(input::close));
    attempt(context::shutdown);
  }

  private interface Step {
    void run() throws FieldException;
  }

  /** Runs one step of the shutdown. The shutdown continues even if the step fails. */
  private static void attempt(Step step) {
    try {
      step.run();
    } catch (FieldException | RuntimeException e) {
      Logger.error(e, "Field, on the way out: {}", e.getMessage());
    }
  }

  private List<RelayLine> everyRelay() {
    List<RelayLine> all = new ArrayList<>(relays.values());
    pumpRelay.ifPresent(all::add);
    heartbeat.ifPresent(all::add);
    return all;
  }

  private List<InputLine> everyInput() {
    List<InputLine> all = new ArrayList<>();
    contacts.values().forEach(contact -> all.add(contact.line()));
    pulses.ifPresent(meter -> all.add(meter.line()));
    return all;
  }
}
