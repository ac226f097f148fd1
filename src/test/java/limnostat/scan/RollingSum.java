package limnostat.scan;

import java.util.ArrayList;
import java.util.List;

/**
 * The exact integral of a rate that is constant by pieces, over a window that ends now. Between the
 * moments where the rate changes at either end of the window the sum is linear in time, so its
 * maximum lies at one of them.
 */
final class RollingSum {
  private record Piece(double fromS, double untilS, double perS) {
    double amount(double sinceS, double toS) {
      return perS * Math.max(0, Math.min(untilS, toS) - Math.max(fromS, sinceS));
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
    total += perS * (untilS - fromS);
    pieces.add(new Piece(fromS, untilS, perS));
    while (pieces.get(oldest).untilS <= fromS - windowS) {
      oldest++;
    }
    double most = at(untilS);
    for (int i = oldest; i < pieces.size(); i++) {
      double leavesS = pieces.get(i).fromS + windowS;
      if (leavesS >= untilS) {
        break;
      }
      most = leavesS > fromS ? Math.max(most, at(leavesS)) : most;
    }
    return most;
  }

  private double at(double nowS) {
    double sum = 0;
    for (int i = oldest; i < pieces.size(); i++) {
      sum += pieces.get(i).amount(nowS - windowS, nowS);
    }
    return sum;
  }
}
