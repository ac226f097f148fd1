/**
 * One scan: {@code ScanInputs} and {@code ScanState} in, {@code ScanOutcome} out. {@link
 * limnostat.scan.Scan} is the only place that knows the order of the stages: read, validate,
 * estimate, decide, interlock, actuate, account, publish. Pure and deterministic: the same inputs
 * give the same outputs bit by bit, and a restored state goes on as if nothing had happened.
 *
 * <ul>
 *   <li><b>Time enters as what has passed</b> ({@code elapsedS}), never as a reading of a clock. So
 *       no clock can move a limit, and a saved state means the same in another boot. The wall clock
 *       serves the sun, the pump's hours and labels.
 *   <li><b>Commands are judged here</b>, permission and age too ({@code NetworkRules}), so that all
 *       of it is replayed, journalled and tested in one place. A command whose origin begins with
 *       {@code mqtt} came over the network; {@code board}, {@code bench} and the demo's own did
 *       not.
 *   <li><b>Answers are remembered</b> ({@code Answers}) with a fingerprint of 64 bits in the place
 *       of the document. It finds a sender's slips, not attackers, who can send anyway. One answer
 *       is kept for each id, the last: a dashboard that gives everything the same id must not hear
 *       that its second {@code off} was taken. A refusal is remembered like a grant, or its repeat
 *       could be applied; only a grant is committed at once.
 *   <li><b>What is not read is not remembered</b> ({@code Commands.apply}). A retained command that
 *       is refused at each connection must not push out the answer to the live one of the same id.
 *   <li><b>{@code time} of a command is ISO 8601.</b> With an untrusted clock it is not looked at:
 *       to refuse would lock out whoever sends it on a board without a time service. The broker's
 *       clean session and the refusal of retained commands stand against old ones already.
 *   <li><b>{@code mqtt.allow} is by what a command does</b> ({@code Permit}), so {@code off} is a
 *       name of its own.
 *   <li><b>A calibration by command stands beside the file's, with what the file said then</b>
 *       ({@code Calibrations}). So a file that was changed later is recognised without a clock. A
 *       buffer's temperature is asked for, since the thermometer may be in the pipe.
 *   <li><b>A function check's time passes before a scan's commands</b>, so that one that is sent
 *       after an outage has all of its time. The probes' memory begins anew after it, so that no
 *       buffer is remembered as the pool.
 *   <li><b>An alarm's {@code detail} is made when it is asked for</b> ({@code AlarmDetails}), from
 *       settings, state and estimate. It needs no state of its own. The retained document is
 *       published anew when its text changes, with the state and no more often.
 * </ul>
 */
package limnostat.scan;
