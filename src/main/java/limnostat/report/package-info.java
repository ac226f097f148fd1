/**
 * Tables for people: the matrix as the program or one installation has it, and what follows from a
 * water test, in metric or US units.
 */
package limnostat.report;
