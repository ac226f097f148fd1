package limnostat.field.board;

import com.pi4j.Pi4J;
import com.pi4j.boardinfo.definition.BoardModel;
import com.pi4j.context.Context;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalInputProvider;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.i2c.LinuxFsI2CProvider;

/** The Pi4J context of a real board, with only the three providers in use. */
final class BoardContext {
  private BoardContext() {}

  /**
   * Without a shutdown hook: the daemon controls the order of shutdown, outputs first, and a Pi4J
   * hook would run beside it.
   */
  static Context create() {
    return Pi4J.newContextBuilder()
        .noAutoDetect()
        .noAutoInject()
        .disableShutdownHook()
        .add(
            LinuxFsI2CProvider.newInstance(),
            GpioDDigitalInputProvider.newInstance(),
            GpioDDigitalOutputProvider.newInstance())
        .build();
  }

  /**
   * What to do about a line that cannot be used. Pi4J opens the chip once, when the context is
   * made, so a chip that could not be opened then stays unusable until a restart.
   */
  static String lineMend(Context context) {
    return context.boardInfo().getBoardModel() == BoardModel.UNKNOWN ? UNKNOWN_BOARD : LINE_MEND;
  }

  static final String UNKNOWN_BOARD =
      "this machine is no board that Pi4J knows; GPIO does nothing here. On a board, let the service"
          + " see /proc/cpuinfo and /proc/device-tree; elsewhere use the simulated field";

  private static final String LINE_MEND =
      "check that the board has this line, that nothing else holds it, and that this user may open"
          + " /dev/gpiochip*; then restart the service";
}
