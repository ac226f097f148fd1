package limnostat.config;

import java.util.Optional;
import limnostat.config.Options.Source;
import limnostat.water.ChlorineForm;

/** How much chlorine the output feeds, and in what form. */
final class Chlorination {
  private Chlorination() {}

  /**
   * Chlorine at full duty, g/h: as configured, or feed rate times strength. Trade percent is g of
   * chlorine in 100 mL (chemistry 9), so g/h = mL/h × percent / 100.
   */
  static Optional<Double> ratePerH(Values values) {
    return values
        .find(Options.CHLORINE_OUTPUT)
        .or(
            () ->
                values
                    .find(Options.CHLORINE_RATE)
                    .flatMap(
                        rateMlH ->
                            values
                                .find(Options.CHLORINE_STRENGTH)
                                .map(percent -> rateMlH * percent / 100)));
  }

  static ChlorineForm form(Values values) {
    return switch (values.get(Options.CHLORINE_SOURCE)) {
      case SALT_CELL -> ChlorineForm.SALT_CELL;
      case LIQUID -> ChlorineForm.LIQUID;
      case TABLET ->
          switch (values.get(Options.CHLORINE_TABLET)) {
            case TRICHLOR -> ChlorineForm.TRICHLOR;
            case CALCIUM_HYPOCHLORITE -> ChlorineForm.CALCIUM_HYPOCHLORITE;
          };
    };
  }

  /**
   * What else is added with the chlorine depends on the kind of tablet, so it has to be configured.
   */
  private static void checkTablet(Values values, CrossChecks relations) {
    boolean written = values.isWritten(Options.CHLORINE_TABLET);
    values
        .find(Options.CHLORINE_SOURCE)
        .filter(source -> (source == Source.TABLET) != written)
        .ifPresent(
            source ->
                relations.refuse(
                    written
                        ? "is for tablets, but chlorine.source is another"
                        : "is missing for a tablet feeder",
                    Options.CHLORINE_TABLET.form().limits(),
                    written ? "remove it" : "add tablet to [chlorine]",
                    Options.CHLORINE_TABLET));
  }

  /** Refuses an output that is missing, incomplete or configured twice. */
  static void check(Values values, CrossChecks relations) {
    checkTablet(values, relations);
    boolean output = values.isWritten(Options.CHLORINE_OUTPUT);
    boolean rate = values.isWritten(Options.CHLORINE_RATE);
    boolean strength = values.isWritten(Options.CHLORINE_STRENGTH);
    if (output && (rate || strength)) {
      relations.refuse(
          "the output is given twice, with " + (rate ? "rate" : "strength") + " as well",
          "either output or rate and strength",
          "remove one of them",
          Options.CHLORINE_OUTPUT);
    } else if (rate != strength) {
      relations.refuse(
          rate ? "is missing beside rate" : "is missing beside strength",
          "rate and strength together",
          "add it",
          rate ? Options.CHLORINE_STRENGTH : Options.CHLORINE_RATE);
    } else if (!output && !rate) {
      relations.refuse(
          "is missing",
          Options.CHLORINE_OUTPUT.form().limits(),
          "add output to [chlorine], or rate and strength for a liquid",
          Options.CHLORINE_OUTPUT);
    }
    values
        .find(Options.CHLORINE_SOURCE)
        .filter(source -> source != Source.LIQUID && (rate || strength))
        .ifPresent(
            source ->
                relations.refuse(
                    "is for a liquid, but chlorine.source is another",
                    "output in g/h",
                    "give output instead",
                    rate ? Options.CHLORINE_RATE : Options.CHLORINE_STRENGTH));
  }
}
