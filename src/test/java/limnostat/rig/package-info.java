/** What tests of whole processes share: the program as it is shipped, a broker, a dashboard. */
package limnostat.rig;
