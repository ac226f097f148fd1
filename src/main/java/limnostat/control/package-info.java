/**
 * The control law: which duty is wanted, before the interlocks take from it. Pure.
 *
 * <p>What was measured of earlier control laws, and what was tried and left out, is in {@code
 * src/site/markdown/experiments.md}. These decisions do not depend on the law:
 *
 * <ul>
 *   <li><b>No failed signal raises the output</b> (S4). What is fed without a usable ORP is at most
 *       what the plan wants, the learned demand and a ration of the blind budget. Before anything
 *       has confirmed the water that budget counts as spent.
 *   <li><b>No electrode's word alone feeds or starves</b> (S12). What it feeds beyond the accounted
 *       demand has a budget ({@code Beyond}); what it keeps back for a day is fed by half all the
 *       same ({@code Doubt}).
 *   <li><b>One law at every doubt</b> ({@code Plan}). A law that changes its nature at a threshold
 *       of the deviation, a plan above and ORP alone below, was wrong on both sides of it.
 *   <li><b>Blind feeding is used up and comes back slowly</b>, so that a flapping probe cannot
 *       stretch it.
 *   <li><b>What takes a day to be reported fills like a bucket that drains at a quarter of the
 *       speed</b> ({@code LeakyTimer}). What comes and goes cannot put it off for ever. A gap
 *       between scans counts a minute.
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
