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
   * Time passes under the last output; then the next block is asked for where it is wanted.
   *
   * @param unproven what the ledger has booked for a process that is gone, cumulative; 0 while
   *     running
   */
  OutputState accounted(DoseCaps caps, boolean wanted, double unproven, double elapsedS) {
    DoseAccount passed = account.given(given(caps, elapsedS), elapsedS);
    // Counted after the outage has passed, as if it had been given at its very end: never too
    // early.
    DoseAccount counted = unproven > 0 ? passed.unproven(unproven) : passed;
    // At a cap nothing can be given, and a block booked all the same would count as given after a
    // crash.
    boolean room = !counted.hourReached(caps) && !counted.dayReached(caps);
    return new OutputState(modulator, counted.book(caps, room && (wanted || modulator.on())));
  }

  OutputState modulated(Channel channel, double duty, boolean held, double elapsedS) {
    return new OutputState(
        Modulator.step(channel.output(), modulator, duty, held, elapsedS), account);
  }

  /**
   * What the interlocks are told: nothing has to be booked for an output that is not wanted, but an
   * output may stay on for what it owes, or for its minimum on time, once it is no longer wanted.
   */
  Observed.Dose dose(DoseCaps caps, boolean wanted, double booked) {
    return new Observed.Dose(
        account.hourReached(caps),
        account.dayReached(caps),
        !(wanted || modulator.on()) || booked - account.given() >= caps.perScan());
  }

  /** What the interlocks are told of its on time. */
  Observed.Run run(OutputSettings settings, double elapsedS) {
    double sinceS = modulator.sinceS() + elapsedS;
    boolean on = modulator.on();
    return new Observed.Run(
        on && sinceS >= settings.longestRunS(), !on && sinceS >= settings.restS());
  }

  /**
   * @param orderly whether the process before switched off and said so
   */
  OutputState resumed(Channel channel, boolean orderly) {
    return new OutputState(
        Modulator.interrupted(channel.output(), modulator), account.resumed(orderly));
  }

  /** The output was on until now, and is off. */
  OutputState stopped(DoseCaps caps, double elapsedS) {
    return new OutputState(modulator, account.given(given(caps, elapsedS), elapsedS));
  }

  OutputState accountUnknown(Channel channel) {
    return new OutputState(modulator, account.unknown(channel.caps()));
  }
}
