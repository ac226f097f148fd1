package limnostat.scan;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import limnostat.estimate.Addition;
import limnostat.estimate.Additions;
import limnostat.estimate.Product;
import limnostat.estimate.WaterChange;

/**
 * Commands about what people put into the pool. They change what is known about the water and
 * nothing else: no output, no cap and no output's account.
 */
final class AdditionCommands {
  /** How far the sender's clock may be ahead (engineering judgement), s. */
  private static final double AHEAD_MAX_S = 300;

  /**
   * Largest change that one addition may make in the whole pool, mg/L. More is taken for a wrong
   * unit (engineering judgement, wide; a superchlorination against parasites takes 40 mg/L, a new
   * salt pool is filled to up to 6000, and one with sea water to 35 000).
   */
  private static final double FREE_CHLORINE_MAX_MG_L = 50;

  private static final double STABILISER_MAX_MG_L = 200;
  private static final double SALT_MAX_MG_L = 40_000;
  private static final double HARDNESS_MAX_MG_L = 1000;
  private static final double ALKALINITY_MAX_MG_L = 300;

  /** Smallest amount of any product that counts as an addition. */
  private static final double LEAST_AMOUNT = 0.1;

  /** Largest amount for any pool, g, mL or L (engineering judgement). */
  private static final double AMOUNT_MAX = 1e8;

  private AdditionCommands() {}

  static ScanState enter(
      ScanSettings settings, ScanState s, Command.Add c, Now now, List<ScanEvent> events)
      throws Refusal {
    double percent = percent(c.product(), c.percent());
    double volumeM3 = settings.estimate().volumeM3();
    checkAmount(c.product(), c.amount(), percent, volumeM3);
    Additions.Entered entered =
        s.asked()
            .additions()
            .entered(volumeM3, s.estimate(), c.product(), c.amount(), percent, agoS(c, now));
    Addition addition = entered.addition();
    events.add(new ScanEvent.AdditionEntered(addition));
    return s.withEstimate(entered.estimate())
        .withMeasure(s.measure().phAdded(addition.moves().phUp(), addition.moves().phDown()))
        .withAsked(s.asked().with(entered.additions()));
  }

  static ScanState undo(ScanState s, String id, List<ScanEvent> events) throws Refusal {
    Addition addition =
        s.asked()
            .additions()
            .of(id)
            .orElseThrow(
                () ->
                    new Refusal(
                        "no addition has the id "
                            + id
                            + "; addition_list has those of the last days"));
    if (addition.undone()) {
      throw new Refusal("addition " + id + " was undone before");
    }
    Additions.Moved undone = s.asked().additions().undone(s.estimate(), id);
    events.add(new ScanEvent.AdditionUndone(addition));
    return s.withEstimate(undone.estimate()).withAsked(s.asked().with(undone.additions()));
  }

  /** How long ago it was put in, s. */
  private static double agoS(Command.Add c, Now now) throws Refusal {
    double agoS = c.agoS().orElse(0);
    if (c.atUnixS().isPresent()) {
      if (!now.clockTrusted()) {
        throw new Refusal(
            "at needs a clock, and this machine's is not trusted; say ago_minutes instead");
      }
      agoS = now.unixTimeS() - c.atUnixS().getAsDouble();
      if (agoS < -AHEAD_MAX_S) {
        throw new Refusal("at is still to come; look at its zone and at this machine's clock");
      }
    }
    String field = c.atUnixS().isPresent() ? "at" : "ago_minutes";
    if (!(agoS <= Additions.LATE_MAX_S)) {
      throw new Refusal(
          field + " is more than 24 h back: by now only a test tells; enter a test_result");
    }
    if (c.atUnixS().isEmpty() && agoS < 0) {
      throw new Refusal("ago_minutes is below 0");
    }
    return Math.max(0, agoS);
  }

  private static double percent(Product product, OptionalDouble percent) throws Refusal {
    Product.Strength strength = product.strength();
    if (percent.isEmpty()) {
      return strength.usual();
    }
    if (!strength.matters()) {
      throw new Refusal("strength_percent does not go with " + product.key());
    }
    SetLimit.within(
        "strength_percent",
        percent.getAsDouble(),
        new SetLimit(strength.least(), "the least of any " + product.key()),
        new SetLimit(strength.most(), "the most of any " + product.key()),
        " %");
    return percent.getAsDouble();
  }

  private static void checkAmount(Product product, double amount, double percent, double volumeM3)
      throws Refusal {
    String unit = " " + product.measure().unit();
    SetLimit.within(
        "the amount",
        amount,
        new SetLimit(LEAST_AMOUNT, "the least of any addition"),
        SetLimit.hard(AMOUNT_MAX),
        unit);
    if (product.water() && amount > 1000 * volumeM3) {
      throw new Refusal(text("%.0f L are more than the pool of %.1f m3", amount, volumeM3));
    }
    WaterChange change = product.change(amount / volumeM3, percent);
    checkChange("free chlorine", change.freeChlorineMgL(), FREE_CHLORINE_MAX_MG_L, volumeM3);
    checkChange("stabiliser", change.stabiliserMgL(), STABILISER_MAX_MG_L, volumeM3);
    checkChange("salt", change.saltMgL(), SALT_MAX_MG_L, volumeM3);
    checkChange("calcium hardness", change.calciumHardnessMgL(), HARDNESS_MAX_MG_L, volumeM3);
    checkChange("total alkalinity", change.totalAlkalinityMgL(), ALKALINITY_MAX_MG_L, volumeM3);
  }

  private static void checkChange(String what, double mgL, double mostMgL, double volumeM3)
      throws Refusal {
    if (Math.abs(mgL) > mostMgL) {
      throw new Refusal(
          text(
              "so much would move %s by %.0f mg/L in %.1f m3, and more than %.0f is taken for a"
                  + " slip: look at amount and unit; what is true can be entered in parts",
              what, mgL, volumeM3, mostMgL));
    }
  }

  /** The result of the addition, as a clause for people. */
  static String remark(ScanState before, ScanState after) {
    List<Addition> kept = after.asked().additions().kept();
    Addition a = kept.get(kept.size() - 1);
    WaterChange change = a.change();
    StringBuilder text = new StringBuilder(a.id());
    if (a.product().chlorine()) {
      text.append(text(", free chlorine %+.1f mg/L", change.freeChlorineMgL()));
      if (a.broughtShare() < 1) {
        text.append(" over some five days, as it dissolves");
      } else if (a.leftMgL() == 0) {
        text.append(", which the test after it has already");
      } else if (a.ageS() >= 3600) {
        text.append(text(", of which %.1f are taken to be left", a.leftMgL()));
      }
    }
    append(text, "stabiliser", change.stabiliserMgL());
    append(text, "salt", change.saltMgL());
    append(text, "calcium hardness", change.calciumHardnessMgL());
    append(text, "total alkalinity", change.totalAlkalinityMgL());
    if (a.product().water()) {
      text.append(text(", %.1f %% of the water replaced", 100 * a.replacedShare()));
    }
    if (a.product() == Product.NON_CHLORINE_OXIDISER) {
      text.append(
          ", no free chlorine; ORP, and a test of combined chlorine, may read too high for a day");
    }
    if (before.measure().phModel().doubted() && !after.measure().phModel().doubted()) {
      text.append(", and pH that had moved is explained");
    }
    return text.append("; addition_undo takes it back").toString();
  }

  private static void append(StringBuilder text, String what, double mgL) {
    if (Math.abs(mgL) >= 0.5) {
      text.append(text(", %s %+.0f mg/L", what, mgL));
    }
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
