package limnostat.scan;

import java.util.ArrayList;
import java.util.List;

/**
 * The exact integral of a rate that is constant by pieces, over a window that ends now. Between the
 * moments where the rate changes at either end of the window the sum is linear in time, so its
 * maximum lies at one of them.
 */
final class RollingSum {
  private record Piece(double fromS, double untilS, double perS, double before) {
    double until(double atS) {
      return before + perS * Math.max(0, Math.min(untilS, atS) - fromS);
    }
  }

  private final double windowS;
  private final List<Piece> pieces = new ArrayList<>();
  private int oldest;
  private double total;

  RollingSum(double windowS) {
    this.windowS = windowS;
  }

  double windowS() {
    return windowS;
  }

  double total() {
    return total;
  }

  /** Adds a piece, later than all before; the most in any window that ends within it. */
  double most(double fromS, double untilS, double perS) {
    if (!(perS > 0 && untilS > fromS)) {
      return 0; // the sum does not rise without a rate
    }
    Piece newest = new Piece(fromS, untilS, perS, total);
    total = newest.until(untilS);
    pieces.add(newest);
    while (pieces.get(oldest).untilS <= fromS - windowS) {
      oldest++;
    }
    double most = total - before(untilS - windowS);
    for (int i = oldest; i < pieces.size(); i++) {
      double leavesS = pieces.get(i).fromS + windowS;
      if (leavesS >= untilS) {
        break;
      }
      if (leavesS > fromS) {
        most = Math.max(most, newest.until(leavesS) - pieces.get(i).before);
      }
    }
    return most;
  }

  /** All that was given until then, which is not before the oldest piece that counts. */
  private double before(double atS) {
    int i = oldest;
    while (pieces.get(i).untilS <= atS) {
      i++;
    }
    return pieces.get(i).until(atS);
  }
}
