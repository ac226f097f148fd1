/**
 * The control law: which duty is wanted, before the interlocks take from it. Pure.
 *
 * <p>What was measured of earlier control laws, and what was tried and left out, is in {@code
 * src/site/markdown/experiments.md}. These decisions do not depend on the law:
 *
 * <ul>
 *   <li><b>No failed signal raises the output</b> (S4). What is fed without a usable ORP is at most
 *       the learned demand and at most the last duty that a good ORP stood behind. Before ORP has
 *       been good once, that last duty is 0.
 *   <li><b>Blind feeding is used up and comes back slowly</b>, so that a flapping probe cannot
 *       stretch it.
 *   <li><b>What takes a day to be reported fills like a bucket that drains at a quarter of the
 *       speed</b> ({@code Lasting}). What comes and goes cannot put it off for ever. A gap between
 *       scans counts a minute.
 *   <li><b>Chlorine and acid take turns</b> ({@code AcidTurn}). With a relay at high duty the
 *       separation time would otherwise never pass.
 *   <li><b>{@code output_too_small} goes by demand and gain, not by free chlorine</b> ({@code
 *       Capacity}). Where too little is fed the estimate is low and unsure. The use must be above
 *       what the output brings by a tenth and by its own deviation. Flow proving, the cell's rests
 *       and acid's turns are left out: they cost a few per cent.
 *   <li><b>A closed cover limits, and does not move the control level.</b> The law knows the cover.
 *       The limit is the learned demand without the sun.
 *   <li><b>Leaving auto ends a superchlorination.</b> Otherwise its wider limit of free chlorine
 *       would go on under a person's duty.
 * </ul>
 */
package limnostat.control;
