package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What people add to the pool by hand. Each addition moves the estimate when it is entered; tablets
 * do so hour by hour as they dissolve. Additions are not part of the dose account. The caps count
 * what the output fed, and nothing that a person enters widens a cap or uses it up.
 *
 * @param kept the latest additions, the newest last
 * @param count how many were ever entered
 * @param chlorineG all chlorine ever added by hand, g as Cl2
 * @param sinceS time since the last update, s
 * @param owedM3 water drained and not yet refilled, m³; below 0: filled and not yet drained
 * @param owedAgeS time since the last water was drained or filled, s
 * @param unfed a test that found chlorine that nobody had entered
 */
public record Additions(
    List<Addition> kept,
    long count,
    double chlorineG,
    double sinceS,
    double owedM3,
    double owedAgeS,
    UnfedChlorine unfed) {

  /** How many are kept, and for how long, s (engineering judgement: a careful owner's week). */
  public static final int MOST = 12;

  public static final double KEPT_S = 7 * 86_400.0;

  /** Latest entry of an addition after it was made, s (engineering judgement). */
  public static final double LATE_MAX_S = 86_400;

  public static final Additions NONE = new Additions(List.of(), 0, 0, 0, 0, 0, UnfedChlorine.NONE);

  private static final double DAY_S = 86_400;
  private static final double MOVE_S = 3600;

  /** Time for the water to mix, s: about a turnover (common practice, no source). */
  private static final double MIXED_S = 6 * 3600.0;

  /**
   * A test counts as made after an addition if it came this much later, s: people test, add, and
   * enter both afterwards (engineering judgement).
   */
  private static final double TESTED_AFTER_S = 3600;

  /** Water drained and filled within this time is the same water, s (engineering judgement). */
  private static final double OWED_S = 2 * DAY_S;

  /**
   * Loss rate of free chlorine where the filter is not used, 1/day: pools use a tenth to four
   * fifths in a day (engineering judgement).
   */
  private static final double LOST_PER_DAY = 0.5;

  /** Error from incomplete mixing, as a share: probes and tests see other water (judgement). */
  private static final double MIXING = 0.15;

  /**
   * Error of a late entry, as a share: the electrode may already have shown the effect (judgement).
   */
  private static final double LATE = 0.5;

  /** Uncertainty of undoing an addition, as a share, since the filter has already used it. */
  private static final double UNDO_UNSURE = 0.5;

  /** Relative error of the water volume, and the deviation of chlorine in the fill water. */
  private static final double WATER_UNSURE = 0.2;

  private static final double FILL_CHLORINE_MG_L = 0.3;

  /** Data read back from a ledger is checked like untrusted input. */
  public Additions {
    kept = List.copyOf(kept);
    if (kept.size() > MOST
        || count < kept.size()
        || !Double.isFinite(chlorineG)
        || !(sinceS >= 0)
        || !Double.isFinite(owedM3)
        || !(owedAgeS >= 0)) {
      throw new IllegalArgumentException(kept.size() + " additions of " + count);
    }
  }

  /** The additions and the estimate after an update. */
  public record Moved(Additions additions, EstimateState estimate) {}

  /**
   * Result of entering an addition.
   *
   * @param testedAfter whether a later test already includes it
   */
  public record Entered(
      Additions additions, EstimateState estimate, Addition addition, boolean testedAfter) {}

  /** Whether the passing of time changes nothing. */
  public boolean resting() {
    return kept.isEmpty() && owedM3 == 0 && !unfed.standing();
  }

  /** Time passes: tablets dissolve, and additions age. */
  public Moved step(EstimateState estimate, double elapsedS) {
    if (resting()) {
      return new Moved(this, estimate);
    }
    Additions later =
        new Additions(
            kept,
            count,
            chlorineG,
            sinceS + elapsedS,
            owedM3,
            owedAgeS,
            unfed.standing() ? unfed.aged(elapsedS) : UnfedChlorine.NONE);
    return later.sinceS < MOVE_S ? new Moved(later, estimate) : later.moved(estimate);
  }

  private Moved moved(EstimateState estimate) {
    List<Addition> next = new ArrayList<>(kept.size());
    EstimateState now = estimate;
    double stays = staying(sinceS);
    for (Addition a : kept) {
      double brought =
          a.undone()
              ? a.broughtShare()
              : Math.max(a.broughtShare(), Addition.dissolvedShare(a.product(), a.ageS() + sinceS));
      double share = brought - a.broughtShare();
      double mgL = share * a.change().freeChlorineMgL();
      if (share > 0) {
        // The parts share one label's error: their deviations add up to that of the whole.
        double whole = a.change().freeChlorineMgL() * a.product().unsure();
        now = slowly(now, a, a.change().times(share));
        now = Estimator.added(now, mgL, whole * StrictMath.sqrt(share));
      }
      if (a.ageS() + sinceS <= KEPT_S) {
        next.add(a.aged(sinceS, brought, a.leftMgL() * stays + mgL));
      }
    }
    boolean owes = owedM3 != 0 && owedAgeS + sinceS <= OWED_S;
    return new Moved(
        new Additions(
            next, count, chlorineG, 0, owes ? owedM3 : 0, owes ? owedAgeS + sinceS : 0, unfed),
        now);
  }

  private static EstimateState slowly(EstimateState estimate, Addition a, WaterChange change) {
    return estimate.drifted(SlowByHand.changed(estimate.slow(), change, a.product().unsure()));
  }

  /** Share of free chlorine left after this time. */
  private static double staying(double seconds) {
    return StrictMath.exp(-LOST_PER_DAY * seconds / DAY_S);
  }

  /**
   * A person enters an addition.
   *
   * @param amount above 0, in the product's unit
   * @param percent its strength, %; 0: not applicable
   * @param agoS how long ago it went in, 0 to {@link #LATE_MAX_S}, s
   */
  public Entered entered(
      double volumeM3,
      EstimateState known,
      Product product,
      double amount,
      double percent,
      double agoS) {
    Moved present = moved(known);
    Additions before = present.additions;
    EstimateState estimate = present.estimate;
    TestLog tests = estimate.tests();
    boolean tested =
        tests.verdict() != TestVerdict.NONE && tests.freeChlorineAgeS() < agoS - TESTED_AFTER_S;
    boolean stabiliserTested =
        tests.stabiliserTested() && tests.stabiliserAgeS() < agoS - TESTED_AFTER_S;
    double dissolved = Addition.dissolvedShare(product, agoS);
    double replaced = product.water() ? before.replacedShare(product, amount, volumeM3) : 0;
    WaterChange change = product.change(amount / volumeM3, percent);
    WaterChange now = change.times(dissolved);
    WaterChange slow = stabiliserTested ? now.withStabiliser(0) : now;
    HandMoves moves = HandMoves.of(estimate, now, replaced);

    double freeMgL = BelievedNow.of(estimate).mgL();
    double stays = staying(product.lastsS() > 0 ? agoS / 2 : agoS);
    double rise = tested ? 0 : now.freeChlorineMgL() * stays - freeMgL * replaced;
    double late = LATE * Math.min(1, agoS / MIXED_S);
    double sd =
        StrictMath.sqrt(
            square(rise * StrictMath.sqrt(square(product.unsure()) + square(MIXING) + square(late)))
                + square(replaced * (WATER_UNSURE * freeMgL + FILL_CHLORINE_MG_L)));

    Addition addition =
        new Addition(
            before.count + 1,
            product,
            amount,
            percent,
            agoS,
            0,
            volumeM3,
            dissolved,
            replaced,
            rise,
            moves,
            false);
    EstimateState next = slowly(estimate, addition, slow);
    if (replaced > 0) {
      next = next.drifted(SlowByHand.replaced(next.slow(), replaced));
    }
    if (rise != 0) {
      next = Estimator.added(next, rise, sd);
    }
    return new Entered(before.with(addition), next, addition, tested);
  }

  /**
   * Share of the pool's water that this volume replaces: V/V0 if water is drained first, 1 −
   * exp(−V/V0) if it overflows. Drained water is refilled, so either of the two counts, and both
   * together count once.
   */
  private double replacedShare(Product product, double litres, double volumeM3) {
    double m3 = litres / 1000;
    double outM3 = product == Product.WATER_OUT ? m3 : -m3;
    double countsM3 = owedM3 * outM3 < 0 ? Math.max(0, m3 - Math.abs(owedM3)) : m3;
    return product == Product.WATER_OUT
        ? Math.min(1, countsM3 / volumeM3)
        : 1 - StrictMath.exp(-countsM3 / volumeM3);
  }

  private static double owedM3(Addition a) {
    return switch (a.product()) {
      case WATER_OUT -> a.amount() / 1000;
      case FRESH_WATER -> -a.amount() / 1000;
      default -> 0;
    };
  }

  private Additions with(Addition addition) {
    List<Addition> next = new ArrayList<>(kept);
    next.add(addition);
    if (next.size() > MOST) {
      // Tablets that are still dissolving must stay in the list.
      next.remove(next.stream().filter(Addition::done).findFirst().orElse(next.get(0)));
    }
    boolean water = addition.product().water();
    return new Additions(
        next,
        addition.number(),
        chlorineG + addition.chlorineG(),
        sinceS,
        owedM3 + owedM3(addition),
        water ? 0 : owedAgeS,
        addition.product().chlorine() ? UnfedChlorine.NONE : unfed);
  }

  /** The addition with this id. */
  public Optional<Addition> of(String id) {
    return kept.stream().filter(a -> a.id().equals(id)).findFirst();
  }

  /**
   * An addition was entered by mistake. Its opposite is added, as far as its effect is still there.
   * Values that a later test has corrected stay as they are.
   */
  public Moved undone(EstimateState known, String id) {
    Moved present = moved(known);
    EstimateState estimate = present.estimate;
    Addition a = present.additions.of(id).orElseThrow();
    TestLog tests = estimate.tests();
    boolean tested =
        tests.verdict() != TestVerdict.NONE && tests.freeChlorineAgeS() < a.enteredAgeS();
    boolean stabiliserTested = tests.stabiliserTested() && tests.stabiliserAgeS() < a.enteredAgeS();
    WaterChange back = a.change().times(-a.broughtShare());
    EstimateState next = slowly(estimate, a, stabiliserTested ? back.withStabiliser(0) : back);
    if (a.replacedShare() > 0) {
      next = next.drifted(SlowByHand.notReplaced(next.slow(), a.replacedShare()));
    }
    if (!tested && a.leftMgL() != 0) {
      next = Estimator.added(next, -a.leftMgL(), UNDO_UNSURE * Math.abs(a.leftMgL()));
    }
    Additions before = present.additions;
    return new Moved(
        new Additions(
            before.kept.stream().map(other -> other.equals(a) ? a.takenBack() : other).toList(),
            before.count,
            before.chlorineG - a.chlorineG(),
            before.sinceS,
            before.owedM3 == 0 ? 0 : before.owedM3 - owedM3(a),
            before.owedAgeS,
            before.unfed),
        next);
  }

  /** A test found chlorine that was not fed. */
  public Additions suspecting(UnfedChlorine found) {
    return new Additions(kept, count, chlorineG, sinceS, owedM3, owedAgeS, found);
  }

  /** Time since an addition went in, s. */
  public double ageS(Addition addition) {
    return addition.ageS() + sinceS;
  }

  /** How far additions that are still mixing may move the probes. */
  public Optional<HandMoves> mixing() {
    return kept.stream()
        .filter(a -> !a.undone() && a.moves().any() && ageS(a) < MIXED_S)
        .map(Addition::moves)
        .reduce(HandMoves::and);
  }

  private static double square(double x) {
    return x * x;
  }
}
