package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.fail;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalInputConfig;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.DigitalStateChangeEvent;
import com.pi4j.io.i2c.I2C;
import com.pi4j.io.i2c.I2CConfig;
import com.pi4j.io.i2c.I2CProvider;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalInput;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalInputProviderImpl;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutput;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutputProviderImpl;
import com.pi4j.plugin.mock.provider.i2c.MockI2C;
import com.pi4j.plugin.mock.provider.i2c.MockI2CProviderImpl;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;

/** A board of Pi4J's mock devices that can be made to fail, with a clock that the test moves. */
public final class TestBoard {
  /** What every device of a kind does at present. */
  volatile boolean outputsRefused;

  volatile boolean outputsFail;
  volatile boolean outputsLie;
  volatile boolean inputsRefused;
  volatile boolean edgesLost;
  public volatile Bus bus = Bus.WELL;

  final AtomicLong nowNs = new AtomicLong(1);
  public final Map<Integer, MockDigitalOutput> outputs = new HashMap<>();
  public final Map<Integer, MockDigitalInput> inputs = new HashMap<>();
  final List<DigitalInputConfig> inputConfigs = new ArrayList<>();

  /** Code of a channel by {@code address * 4 + channel}. */
  final Map<Integer, Integer> codes = new ConcurrentHashMap<>();

  /** Commands to outputs in their order, as {@code line=level}. */
  final List<String> commands = Collections.synchronizedList(new ArrayList<>());

  final List<Integer> i2cCreated = Collections.synchronizedList(new ArrayList<>());
  final CountDownLatch hangBegins = new CountDownLatch(1);
  final CountDownLatch hangEnds = new CountDownLatch(1);

  public enum Bus {
    WELL,
    ABSENT,
    NO_ANSWER,
    HANGS,
    STUCK_HIGH,
    NEVER_DONE
  }

  public Context context() {
    return Pi4J.newContextBuilder()
        .noAutoDetect()
        .add(new Inputs(), new Outputs(), new Converters())
        .build();
  }

  void advanceS(double s) {
    nowNs.addAndGet((long) (s * 1e9));
  }

  public void code(int address, int channel, int code) {
    codes.put(address * 4 + channel, code);
  }

  /** Waits for another thread; a test that waits this long has failed. */
  static void await(String what, BooleanSupplier condition) throws InterruptedException {
    for (int i = 0; i < 1_000; i++) {
      if (condition.getAsBoolean()) {
        return;
      }
      Thread.sleep(5);
    }
    fail("not within 5 s: " + what);
  }

  final class Output extends MockDigitalOutput {
    Output(Outputs provider, DigitalOutputConfig config) {
      super(provider, config);
    }

    @Override
    public DigitalOutput state(DigitalState state) {
      if (outputsFail) {
        throw new Pi4JException("line refuses");
      }
      commands.add(config().address() + "=" + state);
      return super.state(state);
    }

    @Override
    public DigitalState state() {
      return outputsLie ? DigitalState.getInverseState(super.state()) : super.state();
    }
  }

  private final class Outputs extends MockDigitalOutputProviderImpl {
    @Override
    public DigitalOutput create(DigitalOutputConfig config) {
      if (outputsRefused) {
        throw new IllegalStateException("Device or resource busy");
      }
      Output output = new Output(this, config);
      context.registry().add(output);
      outputs.put(config.address(), output);
      return output;
    }
  }

  private final class Input extends MockDigitalInput {
    Input(Inputs provider, DigitalInputConfig config) {
      super(provider, config);
    }

    @Override
    @SuppressWarnings("rawtypes") // as Pi4J declares it
    protected void dispatch(DigitalStateChangeEvent event) {
      if (!edgesLost) {
        super.dispatch(event);
      }
    }
  }

  private final class Inputs extends MockDigitalInputProviderImpl {
    @Override
    public DigitalInput create(DigitalInputConfig config) {
      if (inputsRefused) {
        throw new IllegalStateException("Invalid argument");
      }
      Input input = new Input(this, config);
      MockDigitalInput before = inputs.put(config.address(), input);
      if (before != null) {
        input.mockState(before.state());
      }
      context.registry().add(input);
      inputConfigs.add(config);
      return input;
    }
  }

  private final class Converters extends MockI2CProviderImpl {
    @Override
    public I2C create(I2CConfig config) {
      if (bus == Bus.ABSENT) {
        throw new Pi4JException("path '/sys/bus/i2c/devices/i2c-1' does not exist.");
      }
      Converter converter = new Converter(this, config);
      context.registry().add(converter);
      i2cCreated.add(config.device());
      return converter;
    }
  }

  /** A converter whose conversion is done by the second look at it. */
  private final class Converter extends MockI2C {
    private int word;
    private int looks;

    Converter(I2CProvider provider, I2CConfig config) {
      super(provider, config);
    }

    @Override
    public int writeRegister(int register, byte[] data, int offset, int length) {
      transfer();
      word = ((data[offset] & 0xff) << 8) | (data[offset + 1] & 0xff);
      looks = 0;
      return length;
    }

    @Override
    public int readRegister(int register, byte[] buffer, int offset, int length) {
      transfer();
      int answer = bus == Bus.STUCK_HIGH ? 0xffff : register == 1 ? look() : code();
      buffer[offset] = (byte) (answer >> 8);
      buffer[offset + 1] = (byte) answer;
      return 2;
    }

    private int look() {
      looks++;
      boolean done = looks > 1 && bus != Bus.NEVER_DONE;
      return done ? word : word & 0x7fff;
    }

    private int code() {
      int channel = (word >> 12) & 0b11;
      return codes.getOrDefault(config().device() * 4 + channel, 0);
    }

    private void transfer() {
      if (bus == Bus.NO_ANSWER) {
        throw new Pi4JException("No such device or address");
      }
      while (bus == Bus.HANGS) {
        hangBegins.countDown();
        try {
          hangEnds.await();
          return;
        } catch (InterruptedException e) {
          // a transfer that hangs in the kernel cannot be interrupted either
        }
      }
    }
  }
}
