package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cell of 20 g/h at 6 A by its label. */
class CellOutputTest {
  private static final double RATE_G_H = 20;
  private static final double LABEL_A = 6;
  private static final double STEP_S = 60;
  private static final EstimateSettings POOL =
      new EstimateSettings(
          50,
          46,
          8,
          SlowSettings.configured(30, 3400, ChlorineForm.SALT_CELL, 1),
          2,
          3,
          TestKit.UNSPECIFIED,
          OptionalDouble.of(RATE_G_H / LABEL_A));

  private EstimateState state = Estimator.start(POOL, 3);
  private Estimate estimate;

  /** The cell at full output, with this current in each minute. */
  private void hours(double hours, OptionalDouble cellA) {
    for (int i = 0; i < hours * 60; i++) {
      step(RATE_G_H / 60, cellA);
    }
  }

  private void step(double givenG, OptionalDouble cellA) {
    Measurements m = ModelledPool.measured(700, 7.5, 25);
    Measurements measured =
        new Measurements(
            m.orpMv(),
            m.ph(),
            m.waterC(),
            true,
            Optional.empty(),
            600,
            true,
            Optional.empty(),
            cellA,
            false,
            false,
            Outside.UNKNOWN);
    Estimator.Result result = Estimator.step(POOL, state, measured, givenG, 3, Hour.MEAN, STEP_S);
    state = result.state();
    estimate = result.estimate();
  }

  /** Faraday's law: three quarters of the charge, three quarters of the chlorine. */
  @Test
  void whatItGivesGoesWithItsCurrent() {
    hours(1, OptionalDouble.of(LABEL_A));
    double whole = estimate.outlook().gain();
    hours(4, OptionalDouble.of(0.75 * LABEL_A));
    assertEquals(0.75, state.fed().cell().share(), 0.01);
    assertEquals(0.75 * whole, estimate.outlook().gain(), 0.03 * whole);
    assertEquals(0.75, estimate.balance().gain() / whole, 0.03);
  }

  /** A cell that reverses for two minutes of twelve has no current in them. */
  @Test
  void pausesAreNotFed() {
    for (int i = 0; i < 300; i++) {
      step(RATE_G_H / 60, OptionalDouble.of(i % 12 < 2 ? 0 : LABEL_A));
    }
    assertEquals(10.0 / 12, state.fed().cell().share(), 0.02);
  }

  /** By hand: 20 g/h for 4 h into 50 m³ is 1.6 mg/L by the label, 0.8 at half of the current. */
  @Test
  void freeChlorineRisesByWhatTheCurrentMade() {
    CellOutput half = CellOutput.AS_LABELLED.with(10, 5);
    EstimateState.Fed fed = new EstimateState.Fed(0, half);
    for (int i = 0; i < 240; i++) {
      fed = fed.with(POOL, RATE_G_H / 60, OptionalDouble.of(LABEL_A / 2), STEP_S);
    }
    assertEquals(0.8, fed.riseMgL(), 0.001);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 1", // no current: an alarm of its own
    "1.7, 1", // less than three tenths of the label
    "8, 1", // a third more than the label
    "NaN, 1" // not read
  })
  void whatCannotBeItsCurrentChangesNothing(double cellA, double share) {
    hours(5, OptionalDouble.of(cellA));
    assertEquals(share, state.fed().cell().share());
  }

  @Test
  void withoutAnAmmeterItGivesWhatItsLabelSays() {
    hours(5, OptionalDouble.empty());
    assertEquals(CellOutput.AS_LABELLED, state.fed().cell());
  }

  @Test
  void anOutputThatIsOffTellsNothing() {
    for (int i = 0; i < 300; i++) {
      step(0, OptionalDouble.of(LABEL_A));
    }
    assertEquals(CellOutput.AS_LABELLED, state.fed().cell());
  }
}
