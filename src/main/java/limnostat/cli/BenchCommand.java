package limnostat.cli;

import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.util.concurrent.Callable;
import limnostat.bench.BenchLoop;
import limnostat.config.ConfigurationException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code limnostat bench}: the control loop, closed by an external program. */
@Command(
    name = "bench",
    description =
        "Runs the scan on input lines from another program's plant, in that plant's time.",
    footer = {
      "",
      "One JSON object a line on standard input is one scan's inputs:",
      "  {\"t\":1782864000,\"in\":{\"orp_mv\":690,\"ph_mv\":-24,\"water_c\":25,\"flow\":true},\"cmd\":[]}",
      "One JSON object a line on standard output answers it, with the fields t, out, state, alarms",
      "and events; a line that is no input is answered by error and line. Time is simulated; no",
      "hardware, broker or database is touched. A step of more than 60 s is an interruption."
    })
final class BenchCommand implements Callable<Integer> {
  @Mixin private ConfigOption config;

  @Override
  public Integer call() throws ConfigurationException, IOException {
    BenchLoop loop = new BenchLoop(config.load().configuration().scan());
    // Not System.out: its encoding and locking cost more than the scan.
    try (var out = new BufferedOutputStream(new FileOutputStream(FileDescriptor.out), 8192)) {
      loop.run(System.in, out);
    }
    return Limnostat.DONE;
  }
}
