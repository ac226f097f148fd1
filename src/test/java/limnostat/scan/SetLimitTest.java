package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SetLimitTest {
  /** An answer of 300 digits is no answer. */
  @ParameterizedTest
  @CsvSource({
    "-3, x -3 mg/L is below the program's hard bound = 1 mg/L",
    "12.50, x 12.5 mg/L is above the installer's limit o = 5 mg/L",
    "0, x 0 mg/L is below the program's hard bound = 1 mg/L",
    "1e308, x 1.0E308 mg/L is above the installer's limit o = 5 mg/L",
    "-1e308, x -1.0E308 mg/L is below the program's hard bound = 1 mg/L",
    "5e-324, x 4.9E-324 mg/L is below the program's hard bound = 1 mg/L",
    "123456789, x 123456789 mg/L is above the installer's limit o = 5 mg/L",
    "Infinity, x Infinity is not a number",
    "NaN, x NaN is not a number"
  })
  void theRefusalNamesValueAndLimit(double value, String reason) {
    SetLimit low = SetLimit.hard(1);
    SetLimit high = SetLimit.hard(8).orLower(SetLimit.installer(5, "o"));
    Refusal refusal =
        assertThrows(Refusal.class, () -> SetLimit.within("x", value, low, high, " mg/L"));
    assertEquals(reason, refusal.getMessage());
  }
}
