/**
 * Tables for people: the matrix for the program or for one installation, and the conclusions from a
 * water test, in metric or US units.
 */
package limnostat.report;
