package limnostat.water;

/** A published table, with linear interpolation between its rows and no extrapolation. */
final class Table {
  private final Validity range;
  private final double[] at;
  private final double[] values;

  /**
   * @param rows argument, value, argument, value … with increasing arguments
   */
  Table(String quantity, String unit, String mend, double... rows) {
    at = new double[rows.length / 2];
    values = new double[rows.length / 2];
    for (int i = 0; i < at.length; i++) {
      at[i] = rows[2 * i];
      values[i] = rows[2 * i + 1];
    }
    range = new Validity(quantity, at[0], at[at.length - 1], unit, mend);
  }

  /**
   * @throws OutsideValidityException beyond the table's ends
   */
  double read(double argument) {
    range.check(argument);
    int i = 1;
    while (argument > at[i]) {
      i++;
    }
    double share = (argument - at[i - 1]) / (at[i] - at[i - 1]);
    return values[i - 1] + share * (values[i] - values[i - 1]);
  }
}
