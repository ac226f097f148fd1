/**
 * The control law: the duty it demands, before the interlocks reduce it. Pure.
 *
 * <p>Measurements of earlier control laws, and what was tried and rejected, are in {@code
 * src/site/markdown/experiments.md}. These decisions do not depend on the law:
 *
 * <ul>
 *   <li><b>No failed signal raises the output</b> (S4). What is fed without a usable ORP is at most
 *       what the plan wants, the learned demand and a ration of the blind budget. Before anything
 *       has confirmed the state of the water, that budget counts as spent.
 *   <li><b>The electrode alone neither overfeeds nor starves the pool</b> (S12). What it feeds
 *       beyond the accounted demand has a budget ({@code Beyond}). If it holds the feed back for a
 *       day, half of that feed goes in anyway ({@code Doubt}).
 *   <li><b>One law for every degree of uncertainty</b> ({@code Plan}). A law that changes its
 *       nature at a threshold of the deviation, with a plan above it and ORP alone below it, was
 *       wrong on both sides.
 *   <li><b>The blind budget is used up, and recovers slowly</b>, so that a flapping probe cannot
 *       stretch it.
 *   <li><b>What takes a day to be reported fills like a bucket that drains at a quarter of the
 *       speed</b> ({@code LeakyTimer}). A condition that comes and goes is still reported in the
 *       end. A gap between scans counts as at most a minute.
 *   <li><b>Chlorine and acid take turns</b> ({@code AcidTurn}). With a relay at high duty the
 *       separation time would otherwise never pass.
 *   <li><b>{@code output_too_small} depends on demand and gain, not on free chlorine</b> ({@code
 *       Capacity}). Where too little is fed, the estimate of free chlorine is low and uncertain.
 *       The use must exceed what the output feeds by a tenth and by its own deviation. Flow
 *       proving, the cell's rests and acid turns are left out: they cost a few per cent.
 *   <li><b>A closed cover limits chlorine, but does not change the control level.</b> The law
 *       accounts for the cover. The limit is the learned demand without the sun.
 *   <li><b>Leaving auto ends a superchlorination.</b> Otherwise its wider limit of free chlorine
 *       would still apply while a person sets the duty.
 * </ul>
 */
package limnostat.control;
