package limnostat.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import limnostat.water.ChlorineSpecies;
import limnostat.water.Cyanurate;
import limnostat.water.OrpFit;
import limnostat.water.UsUnits;
import limnostat.water.advice.Assessment;
import limnostat.water.advice.Limit;
import limnostat.water.advice.Step;

/** The conclusions from a water test, as a text page and as a document with the same content. */
public final class WaterReport {
  private static final String ORP_BASIS =
      "a guess: no slope is published and no fit to your electrode is known; range is two standard"
          + " deviations";
  private static final String FIELD_FORM = "field form";
  private static final String THERMODYNAMIC_FORM = "thermodynamic form";
  private static final String FORMS = "the two forms are not to be compared";
  private static final String NO_REASON =
      "these values alone show no reason against it; that is no permission";

  private WaterReport() {}

  /**
   * @param us whether amounts and temperature are shown in US units
   */
  public static List<String> lines(Assessment water, boolean us) {
    List<String> lines = new ArrayList<>();
    water.speciation().ifPresent(s -> speciation(lines, s, us));
    water.orp().ifPresent(p -> orp(lines, p));
    water.balance().ifPresent(b -> balance(lines, b, us));
    lines.add("Out of range");
    water.broken().forEach(b -> lines.add("  " + broken(b, us)));
    if (water.broken().isEmpty()) {
      lines.add("  nothing that was entered");
    }
    lines.add("Bathing");
    water.noBathing().forEach(reason -> lines.add("  no: " + reason));
    if (water.noBathing().isEmpty()) {
      lines.add("  " + NO_REASON);
    }
    lines.add("What to add, in this order, one at a time");
    int number = 1;
    for (Step step : water.steps()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "  %d. %s of %s: %s",
              number++,
              Amount.shown(step.amount(), step.measure(), us),
              step.product(),
              step.purpose()));
      step.effects().forEach(effect -> lines.add("     " + effect));
      lines.add("     then wait " + hours(step.waitH()) + " with the pump running, and test");
    }
    if (water.steps().isEmpty()) {
      lines.add("  nothing follows from what was entered");
    }
    lines.add("Cautions");
    water.cautions().forEach(caution -> lines.add("  " + caution));
    if (!water.missing().isEmpty()) {
      lines.add("Not entered");
      water.missing().forEach(missing -> lines.add("  " + missing));
    }
    return lines;
  }

  private static void speciation(List<String> lines, Assessment.Speciation s, boolean us) {
    double chlorine = s.species().chlorineMolL();
    lines.add("Chlorine at " + temperature(s.temperatureC(), us));
    lines.add(
        String.format(
            Locale.ROOT,
            "  HOCl %s mg/L as Cl2, ±%.0f %%",
            Amount.figures(Cyanurate.mgL(s.species().hoclMolL())),
            100 * s.uncertaintyFraction()));
    lines.add("  constants: " + s.constants());
    species(s.species())
        .forEach(
            (name, molL) -> {
              double held = molL * chlorines(name);
              lines.add(
                  String.format(
                      Locale.ROOT,
                      "  %-8s %.3e mol/L%s",
                      name,
                      molL,
                      held > 0
                          ? String.format(
                              Locale.ROOT, "  %5.1f %% of free chlorine", 100 * held / chlorine)
                          : ""));
            });
  }

  private static void orp(List<String> lines, OrpFit.Potential p) {
    lines.add("Expected ORP");
    lines.add(
        String.format(
            Locale.ROOT,
            "  %.0f mV, %.0f to %.0f",
            p.mv(),
            p.mv() - 2 * p.sdMv(),
            p.mv() + 2 * p.sdMv()));
    lines.add("  " + ORP_BASIS);
  }

  private static void balance(List<String> lines, Assessment.Balance b, boolean us) {
    lines.add("Balance at " + temperature(b.temperatureC(), us));
    lines.add(
        String.format(
            Locale.ROOT,
            "  saturation index %+.2f, %s: %s",
            b.fieldForm(),
            FIELD_FORM,
            verdict(b.fieldForm())));
    lines.add(
        String.format(
            Locale.ROOT,
            "  saturation index %+.2f, %s; %s",
            b.thermodynamicForm(),
            THERMODYNAMIC_FORM,
            FORMS));
    lines.add(
        String.format(
            Locale.ROOT,
            "  carbonate alkalinity %.0f mg/L, dissolved solids taken as %.0f mg/L",
            b.carbonateAlkalinityMgL(),
            b.dissolvedSolidsMgL()));
  }

  /** ±0.3 is common practice without a source. */
  private static String verdict(double index) {
    if (index < -0.3) {
      return "takes lime up, below -0.3 (common practice, no source)";
    }
    return index > 0.3
        ? "drops scale, above 0.3 (common practice, no source)"
        : "balanced, within 0.3 (common practice, no source)";
  }

  private static String broken(Limit.Broken b, boolean us) {
    Limit limit = b.limit();
    boolean degrees = limit.unit().equals("degC");
    return limit.quantity()
        + " "
        + (degrees ? temperature(b.value(), us) : with(b.value(), limit.unit()))
        + (b.high() ? ", above " : ", below ")
        + (degrees
            ? temperature(b.high() ? limit.max() : limit.min(), us)
            : with(b.high() ? limit.max() : limit.min(), limit.unit()))
        + " ("
        + limit.source()
        + ")";
  }

  private static String with(double value, String unit) {
    return plain(value) + (unit.isEmpty() ? "" : " " + unit);
  }

  private static String plain(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.valueOf(value);
  }

  private static String temperature(double celsius, boolean us) {
    return us
        ? String.format(Locale.ROOT, "%.1f degF", UsUnits.fahrenheit(celsius))
        : String.format(Locale.ROOT, "%.1f degC", celsius);
  }

  private static String hours(double hours) {
    return String.format(Locale.ROOT, "%.0f h", hours);
  }

  private static Map<String, Double> species(ChlorineSpecies s) {
    Map<String, Double> all = new LinkedHashMap<>();
    all.put("HOCl", s.hoclMolL());
    all.put("OCl-", s.oclMinusMolL());
    all.put("Cl3Cy", s.cl3CyMolL());
    all.put("HCl2Cy", s.hCl2CyMolL());
    all.put("Cl2Cy-", s.cl2CyMinusMolL());
    all.put("H2ClCy", s.h2ClCyMolL());
    all.put("HClCy-", s.hClCyMinusMolL());
    all.put("ClCy2-", s.clCy2MinusMolL());
    all.put("H3Cy", s.h3CyMolL());
    all.put("H2Cy-", s.h2CyMinusMolL());
    all.put("HCy2-", s.hCy2MinusMolL());
    all.put("Cy3-", s.cy3MinusMolL());
    all.values().removeIf(molL -> molL == 0); // without stabiliser there are no cyanurates
    return all;
  }

  private static int chlorines(String name) {
    if (name.contains("Cl3")) {
      return 3;
    }
    if (name.contains("Cl2")) {
      return 2;
    }
    return name.contains("Cl") ? 1 : 0;
  }

  /** For JSON. All values are in stored units, with the values shown to people next to them. */
  public static Map<String, Object> document(Assessment water, boolean us) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("speciation", water.speciation().map(WaterReport::speciationDocument).orElse(null));
    all.put("expected_orp", water.orp().map(WaterReport::orpDocument).orElse(null));
    all.put("balance", water.balance().map(WaterReport::balanceDocument).orElse(null));
    all.put("out_of_range", water.broken().stream().map(b -> brokenDocument(b, us)).toList());
    all.put("bathing_no", water.noBathing());
    all.put("bathing_note", NO_REASON);
    all.put("steps", water.steps().stream().map(s -> stepDocument(s, us)).toList());
    all.put("cautions", water.cautions());
    all.put("not_told", water.missing());
    return all;
  }

  private static Map<String, Object> speciationDocument(Assessment.Speciation s) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("hocl_mg_l", Cyanurate.mgL(s.species().hoclMolL()));
    document.put("uncertainty_fraction", s.uncertaintyFraction());
    document.put("constants", s.constants());
    document.put("temperature_c", s.temperatureC());
    document.put("species_mol_l", species(s.species()));
    return document;
  }

  private static Map<String, Object> orpDocument(OrpFit.Potential p) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("orp_mv", p.mv());
    document.put("low_mv", p.mv() - 2 * p.sdMv());
    document.put("high_mv", p.mv() + 2 * p.sdMv());
    document.put("basis", ORP_BASIS);
    return document;
  }

  private static Map<String, Object> balanceDocument(Assessment.Balance b) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("saturation_index_field_form", b.fieldForm());
    document.put("saturation_index_thermodynamic_form", b.thermodynamicForm());
    document.put("note", FORMS);
    document.put("verdict", FIELD_FORM + ": " + verdict(b.fieldForm()));
    document.put("carbonate_alkalinity_mg_l", b.carbonateAlkalinityMgL());
    document.put("dissolved_solids_mg_l", b.dissolvedSolidsMgL());
    document.put("temperature_c", b.temperatureC());
    return document;
  }

  private static Map<String, Object> brokenDocument(Limit.Broken b, boolean us) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("quantity", b.limit().quantity());
    document.put("value", b.value());
    document.put("min", b.limit().min());
    document.put("max", b.limit().max());
    document.put("unit", b.limit().unit());
    document.put("source", b.limit().source());
    document.put("shown", broken(b, us));
    return document;
  }

  private static Map<String, Object> stepDocument(Step step, boolean us) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("addition", step.addition().name().toLowerCase(Locale.ROOT));
    document.put("product", step.product());
    document.put(
        "amount_"
            + switch (step.measure()) {
              case G -> "g";
              case ML -> "ml";
              case H -> "h";
              case M3 -> "m3";
            },
        step.amount());
    document.put("shown", Amount.shown(step.amount(), step.measure(), us));
    document.put("purpose", step.purpose());
    document.put("effects", step.effects());
    document.put("then_wait_h", step.waitH());
    return document;
  }
}
