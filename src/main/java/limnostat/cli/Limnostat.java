package limnostat.cli;

import java.io.PrintWriter;
import limnostat.config.ConfigurationException;
import limnostat.daemon.Version;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.ParameterException;

/**
 * The program and its commands. Exit status: 0 done, 1 failed, 2 unusable arguments or
 * configuration.
 */
@Command(
    name = "limnostat",
    mixinStandardHelpOptions = true,
    versionProvider = Limnostat.NameAndVersion.class,
    description = "Residual controller for pool water.",
    subcommands = {
      RunCommand.class,
      DemoCommand.class,
      CheckCommand.class,
      BenchCommand.class,
      WaterCommand.class,
      SimulateCommand.class,
      SeasonResetCommand.class,
      TestCommand.class,
      AddCommand.class,
      SchemaCommand.class,
      CalibrateCommand.class,
    },
    footer = {
      "",
      "Exit status: 0 done, 1 failed, 2 unusable arguments or configuration.",
      "An aid, not protection: test the water yourself before anyone bathes."
    })
public final class Limnostat {
  static final int DONE = 0;
  static final int FAILED = 1;
  static final int UNUSABLE = 2;

  static final class NameAndVersion implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"limnostat " + Version.text()};
    }
  }

  private Limnostat() {}

  public static void main(String[] args) {
    System.exit(commandLine().execute(args));
  }

  static CommandLine commandLine() {
    CommandLine line = new CommandLine(new Limnostat());
    line.setExecutionExceptionHandler(Limnostat::failed);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.getSubcommands()
        .values()
        .forEach(command -> command.getCommandSpec().mixinStandardHelpOptions(true));
    return line;
  }

  /**
   * Reports the faults of a configuration one per line, and other checked exceptions by their
   * message.
   */
  private static int failed(Exception e, CommandLine command, CommandLine.ParseResult result)
      throws Exception {
    PrintWriter err = command.getErr();
    if (e instanceof ConfigurationException faults) {
      err.println(faults.getMessage());
      return UNUSABLE;
    }
    if (e instanceof ParameterException || e instanceof RuntimeException) {
      throw e;
    }
    err.println("limnostat: " + e.getMessage());
    return FAILED;
  }
}
