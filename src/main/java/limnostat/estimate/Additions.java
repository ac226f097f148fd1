package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What people put into the pool by hand. Each addition moves what is known of the water when it is
 * entered, tablets hour by hour as they dissolve. It has no part in the dose account: the caps
 * count what the output gave, and nothing that a person enters widens or uses up any of them.
 *
 * @param kept the last ones, the latest last
 * @param count how many were ever entered
 * @param chlorineG chlorine that hands gave, ever, g as Cl2
 * @param sinceS time since all of this was last moved on, s
 * @param owedM3 water that was let out and not filled in again, m³; below 0: the other way round
 * @param owedAgeS time since, s
 * @param unfed a test that found chlorine that nobody entered
 */
public record Additions(
    List<Addition> kept,
    long count,
    double chlorineG,
    double sinceS,
    double owedM3,
    double owedAgeS,
    UnfedChlorine unfed) {

  /** How many are kept, and for how long, s (engineering judgement: a week of a careful owner). */
  public static final int MOST = 12;

  public static final double KEPT_S = 7 * 86_400.0;

  /** An addition can be entered for so long after it, s (engineering judgement). */
  public static final double LATE_MAX_S = 86_400;

  public static final Additions NONE = new Additions(List.of(), 0, 0, 0, 0, 0, UnfedChlorine.NONE);

  private static final double DAY_S = 86_400;
  private static final double MOVE_S = 3600;

  /** Water has mixed by then, s: about a turnover (common practice, no source). */
  private static final double MIXED_S = 6 * 3600.0;

  /**
   * A test counts as one after an addition when it came so much later, s: people test, pour, and
   * enter both afterwards (engineering judgement).
   */
  private static final double TESTED_AFTER_S = 3600;

  /** What goes out and comes in within so long is the same water, s (engineering judgement). */
  private static final double OWED_S = 2 * DAY_S;

  /**
   * Share of free chlorine that a pool uses in a day, as a rate, where the filter is not asked:
   * pools use a tenth to four fifths (engineering judgement), 1/day.
   */
  private static final double LOST_PER_DAY = 0.5;

  /** What has not mixed yet is not what the probes and a test see, as a share (judgement). */
  private static final double MIXING = 0.15;

  /** Of one that is entered after it mixed the electrode may have shown already (judgement). */
  private static final double LATE = 0.5;

  /** What is taken back was believed for a while: by so much is it unsure, as a share. */
  private static final double UNDO_UNSURE = 0.5;

  /** How much water it was is known to a share of so much, and what chlorine the new one holds. */
  private static final double WATER_UNSURE = 0.2;

  private static final double FILL_CHLORINE_MG_L = 0.3;

  /** What is read back from a ledger is checked as a stranger's would be. */
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

  /** What became of them and of what is known of the water. */
  public record Moved(Additions additions, EstimateState estimate) {}

  /**
   * One was entered.
   *
   * @param testedAfter whether a test came after it and so has it already
   */
  public record Entered(
      Additions additions, EstimateState estimate, Addition addition, boolean testedAfter) {}

  /** Whether time changes nothing of it. */
  public boolean resting() {
    return kept.isEmpty() && owedM3 == 0 && !unfed.standing();
  }

  /** Time passes: tablets dissolve, what was added ages. */
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
        // One label's error in many parts: their deviations together are that of the whole.
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

  /** Share of free chlorine that is still there after a time. */
  private static double staying(double seconds) {
    return StrictMath.exp(-LOST_PER_DAY * seconds / DAY_S);
  }

  /**
   * A person tells of one.
   *
   * @param amount above 0, in the product's measure
   * @param percent its strength; 0 where it has none
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
   * Share of the pool's water that is replaced by so much: V/V0 where it is let out first, 1 −
   * exp(−V/V0) where it runs over. What was let out is filled in again, so that either of the two
   * counts, and both together once.
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
      // Of tablets that dissolve there is still something to come.
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

  /** The one with an id. */
  public Optional<Addition> of(String id) {
    return kept.stream().filter(a -> a.id().equals(id)).findFirst();
  }

  /**
   * One was a mistake: its opposite is added, as far as its effect is still there. What a test has
   * corrected since stays as the test has it.
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

  /** A test found chlorine that nobody fed. */
  public Additions suspecting(UnfedChlorine found) {
    return new Additions(kept, count, chlorineG, sinceS, owedM3, owedAgeS, found);
  }

  /** Time since an addition went in, s. */
  public double ageS(Addition addition) {
    return addition.ageS() + sinceS;
  }

  /** What the probes may still see of what is mixing. */
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
