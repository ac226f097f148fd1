package limnostat.scan;

import limnostat.account.DoseAccount;
import limnostat.account.DoseCaps;
import limnostat.actuate.Modulator;
import limnostat.actuate.OutputSettings;
import limnostat.safety.Observed;
import limnostat.scan.ScanSettings.Channel;

/** One output: what it does, and what it has given. */
public record OutputState(Modulator.State modulator, DoseAccount account) {
  static OutputState start(Channel channel) {
    return new OutputState(Modulator.start(channel.output()), DoseAccount.empty());
  }

  /** What the output gave since the last scan, in the unit of the account. */
  double given(DoseCaps caps, double elapsedS) {
    return caps.amount(modulator.output(), elapsedS);
  }

  /**
   * Advances time under the last output, then requests the next block if one is needed.
   *
   * @param unproven what the ledger has booked for a process that has ended, cumulative; 0 while
   *     running
   */
  OutputState accounted(DoseCaps caps, boolean wanted, double unproven, double elapsedS) {
    DoseAccount passed = account.given(given(caps, elapsedS), elapsedS);
    // Counted after the outage has passed, as if it was given at its very end: never too early.
    DoseAccount counted = unproven > 0 ? passed.unproven(unproven) : passed;
    // At a cap nothing can be given, and a block booked anyway would count as given after a crash.
    boolean room = !counted.hourReached(caps) && !counted.dayReached(caps);
    return new OutputState(modulator, counted.book(caps, room && (wanted || modulator.on())));
  }

  OutputState modulated(Channel channel, double duty, boolean held, double elapsedS) {
    return new OutputState(
        Modulator.step(channel.output(), modulator, duty, held, elapsedS), account);
  }

  /**
   * The status of the account for the interlocks. Without a demand for the output, nothing has to
   * be booked. But an output may stay on after the demand has ended, for what it owes or for its
   * minimum on time.
   */
  Observed.Dose dose(DoseCaps caps, boolean wanted, double booked) {
    return new Observed.Dose(
        account.hourReached(caps),
        account.dayReached(caps),
        !(wanted || modulator.on()) || booked - account.given() >= caps.perScan());
  }

  /** The on time for the interlocks. */
  Observed.Run run(OutputSettings settings, double elapsedS) {
    double sinceS = modulator.sinceS() + elapsedS;
    boolean on = modulator.on();
    return new Observed.Run(
        on && sinceS >= settings.longestRunS(), !on && sinceS >= settings.restS());
  }

  /**
   * @param orderly whether the previous process switched the output off and recorded it
   */
  OutputState resumed(Channel channel, boolean orderly) {
    return new OutputState(
        Modulator.interrupted(channel.output(), modulator), account.resumed(orderly));
  }

  /** Counts what the output gave until now, when it was switched off. */
  OutputState stopped(DoseCaps caps, double elapsedS) {
    return new OutputState(modulator, account.given(given(caps, elapsedS), elapsedS));
  }

  OutputState accountUnknown(Channel channel) {
    return new OutputState(modulator, account.unknown(channel.caps()));
  }
}
