package limnostat.safety;

import java.lang.reflect.Field;
import limnostat.actuate.Output;

/** Sets another effect in a row of the matrix, for mutants. */
public final class MatrixRow {
  private MatrixRow() {}

  public static void set(Cause cause, Output output, Effect effect) {
    try {
      Field field = Cause.class.getDeclaredField("row");
      field.setAccessible(true);
      CauseRow row = (CauseRow) field.get(cause);
      field.set(
          cause,
          new CauseRow(
              row.id(),
              row.title(),
              output == Output.CHLORINE ? effect : row.onChlorine(),
              output == Output.ACID ? effect : row.onAcid(),
              row.delayS(),
              row.delayOffS(),
              row.latching(),
              row.annunciation(),
              row.advice()));
    } catch (ReflectiveOperationException e) {
      throw new LinkageError("the matrix has other fields now", e);
    }
  }
}
