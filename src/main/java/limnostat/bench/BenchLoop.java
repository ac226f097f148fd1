package limnostat.bench;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.wire.InputLine;
import limnostat.wire.StateDocument;

/**
 * The control loop closed by another program: each input line is one scan, and each output line
 * answers it. The plant's time is the only time. Bookings are confirmed at once because there is no
 * ledger to wait for.
 */
public final class BenchLoop {
  private final ScanSettings settings;
  private ScanState state;
  private double lastT = Double.NaN;

  public BenchLoop(ScanSettings settings) {
    this.settings = settings;
    this.state = ScanState.start(settings);
  }

  /** Runs until the input ends. */
  public void run(InputStream in, OutputStream out) throws IOException {
    LineReader lines = new LineReader(in);
    for (byte[] line = lines.next(); line != null; line = lines.next()) {
      out.write(answer(line, lines.number()));
      out.flush();
    }
  }

  /**
   * One scan.
   *
   * @param number line number, used in the answer to a line that is not a valid input
   */
  byte[] answer(byte[] line, long number) {
    try {
      if (line.length > LineReader.LONGEST) {
        throw new InputLine.Malformed(
            "the line is longer than " + LineReader.LONGEST + " bytes; one document a line");
      }
      InputLine input = InputLine.read(line);
      if (input.t() <= lastT) {
        throw new InputLine.Malformed(
            "t: " + input.t() + " does not come after " + lastT + ", the line before");
      }
      ScanOutcome outcome = Scan.step(settings, state, inputs(input));
      state = outcome.state();
      lastT = input.t();
      return StateDocument.benchLine(outcome, input.t());
    } catch (InputLine.Malformed malformed) {
      // The plant keeps its outputs off for this line, so the next scan is the first after an
      // interruption.
      state = state.stopped();
      return InputLine.errorLine(malformed.getMessage(), number);
    }
  }

  private ScanInputs inputs(InputLine input) {
    return new ScanInputs(
        Double.isNaN(lastT) ? 0 : input.t() - lastT,
        input.t(),
        true,
        input.signals(),
        Map.of(
            Output.CHLORINE, state.chlorine().account().requested(),
            Output.ACID, state.acid().account().requested()),
        false,
        true,
        input.commands());
  }
}
