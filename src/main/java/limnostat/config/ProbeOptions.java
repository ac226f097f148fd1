package limnostat.config;

/** The options that every probe has: how its values are validated. */
final class ProbeOptions {
  final Option<Double> rangeMin;
  final Option<Double> rangeMax;
  final Option<Double> rateMax;
  final Option<Double> freezeBand;
  final Option<Double> freezeAfter;
  final Option<Double> staleAfter;

  /** The form of the believable range and its two defaults, in the program's unit. */
  record Believable(Form<Double> form, double min, double max) {}

  /** The forms for changes of the value and their two defaults, in the program's unit. */
  record Steps(Form<Double> rateForm, Form<Double> bandForm, double rateMaxPerS, double band) {}

  static Believable range(Form<Double> form, double min, double max) {
    return new Believable(form, min, max);
  }

  /** The band is a change of the value too, but it may be as small as zero. */
  static Steps steps(Quantity form, double rateMaxPerS, double band) {
    Quantity bandForm = Quantity.of(form.dimension(), form.shownIn().name(), 0, form.range().max());
    return new Steps(form, bandForm, rateMaxPerS, band);
  }

  static Steps steps(PlainNumber form, double rateMaxPerS, double band) {
    return new Steps(form, PlainNumber.of(0, form.range().max()), rateMaxPerS, band);
  }

  ProbeOptions(String table, Believable range, Steps steps, double freezeAfterMin) {
    rangeMin =
        Options.byDefault(
            table, "range_min", range.form(), range.min(), "Lowest believable value.");
    rangeMax =
        Options.byDefault(
            table, "range_max", range.form(), range.max(), "Highest believable value.");
    rateMax =
        Options.byDefault(
            table,
            "rate_max",
            steps.rateForm(),
            steps.rateMaxPerS(),
            "Largest believable change in a second.");
    freezeBand =
        Options.byDefault(
            table,
            "freeze_band",
            steps.bandForm(),
            steps.band(),
            "A signal that stays within this band ...");
    freezeAfter =
        Options.quantity(
            table,
            "freeze_after",
            Quantity.of(Dimension.TIME, "min", 0, 1440),
            freezeAfterMin,
            "... for this long is frozen; 0 min: not tested.");
    staleAfter =
        Options.quantity(
            table,
            "stale_after",
            Quantity.of(Dimension.TIME, "s", 1, 3600),
            60,
            "Without an accepted value for this long the probe has failed.");
  }
}
