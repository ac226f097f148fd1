package limnostat.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import limnostat.ledger.AccountRecord.Found;
import org.junit.jupiter.api.Test;

/** When an account is believed, case by case. */
class ProofTest {
  private static final String HERE = "here";

  private static Seal seal(long commits, double chlorineG) {
    return seal("ledger", HERE, commits, chlorineG);
  }

  private static Seal seal(String ledger, String machine, long commits, double chlorineG) {
    return Seal.of(ledger, machine, commits, Map.of(Output.CHLORINE, chlorineG), Optional.empty());
  }

  private static Found record(Seal newest) {
    return new Found(true, Optional.of(newest), 0, false);
  }

  private static Found empty() {
    return new Found(true, Optional.empty(), 0, false);
  }

  private static Optional<String> of(Seal own, Found record) {
    return new Proof(true, Optional.of(own), true, own.booked(), record).doubt(HERE);
  }

  private static void believed(Optional<String> doubt) {
    assertEquals(Optional.empty(), doubt);
  }

  private static void doubted(String reason, Optional<String> doubt) {
    assertTrue(doubt.orElse("believed").contains(reason), doubt.toString());
  }

  @Test
  void oneThatItsRecordAgreesWithIsBelieved() {
    believed(of(seal(7, 80), record(seal(7, 80))));
  }

  /** A power cut between the commit and its record, or while the record is written. */
  @Test
  void oneThatIsAheadOfItsRecordIsBelieved() {
    believed(of(seal(8, 82), record(seal(7, 80))));
    believed(of(seal(8, 82), new Found(true, Optional.of(seal(7, 80)), 1, false)));
    believed(of(seal(1, 2), empty()));
  }

  @Test
  void oneThatIsBehindItsRecordIsNot() {
    doubted("older than its record: 6 commits", of(seal(6, 78), record(seal(7, 80))));
    doubted("cannot be read", of(seal(7, 80), new Found(true, Optional.of(seal(7, 80)), 1, false)));
    doubted("gone", of(seal(2, 2), empty()));
    doubted("gone", of(seal(2, 2), Found.NOTHING));
    doubted("gone", of(seal(1, 2), Found.NOTHING));
    doubted("cannot be read", of(seal(2, 2), new Found(true, Optional.empty(), 2, false)));
  }

  @Test
  void twoThatDisagreeAreNot() {
    doubted("does not agree", of(seal(7, 80), record(seal(7, 81))));
    doubted("does not agree", of(seal(9, 79), record(seal(7, 80))));
    doubted("not the ledger", of(seal("other", HERE, 9, 90), record(seal(7, 80))));
  }

  @Test
  void oneOfAnotherMachineIsNot() {
    Seal other = seal("ledger", "there", 7, 80);
    doubted("another machine", of(other, record(other)));
    Seal unknown = seal("ledger", "", 7, 80);
    doubted("another machine", of(unknown, record(unknown)));
  }

  @Test
  void oneThatDoesNotAgreeWithItselfIsNot() {
    Seal own = seal(7, 80);
    doubted(
        "own checksum",
        new Proof(true, Optional.of(own), false, own.booked(), record(own)).doubt(HERE));
    for (double booked : new double[] {-1, 1e10, Double.POSITIVE_INFINITY, Double.NaN}) {
      doubted(
          "cannot be",
          new Proof(true, Optional.empty(), false, Map.of(Output.ACID, booked), Found.NOTHING)
              .doubt(HERE));
    }
  }

  @Test
  void aRecordThatSomebodyPutBackIsNot() {
    doubted("another hand", of(seal(7, 80), new Found(true, Optional.of(seal(7, 80)), 0, true)));
  }

  /** A first installation has to be able to dose, and so has one that was brought up to date. */
  @Test
  void whatNeverHadASealIsBelievedUnlessThereIsARecord() {
    Proof nothing = new Proof(false, Optional.empty(), false, Map.of(), Found.NOTHING);
    believed(nothing.doubt(HERE));
    Map<Output, Double> booked = Map.of(Output.CHLORINE, 40.0);
    believed(new Proof(true, Optional.empty(), false, booked, Found.NOTHING).doubt(HERE));
    believed(new Proof(true, Optional.empty(), false, booked, empty()).doubt(HERE));
    Found record = record(seal(7, 80));
    doubted("gone", new Proof(false, Optional.empty(), false, Map.of(), record).doubt(HERE));
    doubted("older", new Proof(true, Optional.empty(), false, booked, record).doubt(HERE));
    Found ruined = new Found(true, Optional.empty(), 2, false);
    doubted("gone", new Proof(false, Optional.empty(), false, Map.of(), ruined).doubt(HERE));
    doubted("older", new Proof(true, Optional.empty(), false, booked, ruined).doubt(HERE));
  }
}
