/**
 * The commands. Each reads its arguments and calls one of the other packages. Nothing depends on
 * this package.
 */
package limnostat.cli;
