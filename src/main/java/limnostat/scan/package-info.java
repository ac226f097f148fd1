/**
 * One scan: {@code ScanInputs} and {@code ScanState} in, {@code ScanOutcome} out. {@link
 * limnostat.scan.Scan} is the only place that knows the order of the stages: read, validate,
 * estimate, decide, interlock, actuate, account, publish. Pure and deterministic: the same inputs
 * give the same outputs bit by bit, and a restored state goes on as if nothing had happened.
 *
 * <ul>
 *   <li><b>Time enters as elapsed time</b> ({@code elapsedS}), never as a clock reading. So no
 *       clock can move a limit, and a saved state means the same after a reboot. The wall clock is
 *       used for the sun, the pump's hours and time stamps.
 *   <li><b>Commands are judged here</b>, including their permission and age ({@code NetworkRules}),
 *       so that all of it is replayed, journalled and tested in one place. A command whose origin
 *       begins with {@code mqtt} came over the network; those of {@code board}, {@code bench} and
 *       the demo did not.
 *   <li><b>Answers are remembered</b> ({@code Answers}) with a fingerprint of 64 bits instead of
 *       the document. It detects a sender's mistakes, not attackers, who can send commands anyway.
 *       Only the last answer is kept for each id. A dashboard that gives everything the same id
 *       must not hear that its second {@code off} was accepted when it was not applied. A refusal
 *       is remembered like a grant; otherwise its repeat could be applied. Only a grant is
 *       committed at once.
 *   <li><b>A command that is refused unread is not remembered</b> ({@code Commands.apply}). A
 *       retained command that is refused at each connection must not displace the answer to a live
 *       command with the same id.
 *   <li><b>{@code time} of a command is ISO 8601.</b> With an untrusted clock it is ignored: a
 *       refusal would lock out anyone who sends it to a board without a time service. The broker's
 *       clean session and the refusal of retained commands already protect against old commands.
 *   <li><b>{@code mqtt.allow} names what a command does</b> ({@code Permit}), so {@code off} has a
 *       name of its own.
 *   <li><b>A calibration by command is stored with the file's values at that time</b> ({@code
 *       Calibrations}). So a later change of the file is recognised without a clock. The buffer's
 *       temperature has to be given, because the thermometer may be in the pipe.
 *   <li><b>A function check's time passes before a scan's commands</b>, so that a check that is
 *       sent after an outage gets its full time. The probes' memory starts again after it, so that
 *       a buffer is not remembered as the pool.
 *   <li><b>An alarm's {@code detail} is made on request</b> ({@code AlarmDetails}), from settings,
 *       state and estimate. It needs no state of its own. The retained document is published again
 *       when its text changes, with the state and no more often.
 * </ul>
 */
package limnostat.scan;
