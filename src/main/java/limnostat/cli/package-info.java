/** The commands: arguments in, one of the other packages out. Nothing depends on them. */
package limnostat.cli;
