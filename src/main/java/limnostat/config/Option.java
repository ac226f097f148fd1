package limnostat.config;

/**
 * One option of the file, declared only here. The check for unknown keys, the ranges, the defaults
 * and the report all come from this declaration.
 *
 * @param table dotted name of its table
 * @param key its key there
 * @param form how its value is read, checked and shown
 * @param absence what it means if the option is not in the file
 * @param doc what it is for, in one line
 */
record Option<T>(String table, String key, Form<T> form, Absence<T> absence, String doc) {

  /** What it means if an option is not in the file. */
  sealed interface Absence<T> {
    /** It must be present if its table is. */
    record Required<T>() implements Absence<T> {}

    /** This value applies, in the program's unit. */
    record Default<T>(T value) implements Absence<T> {}

    /** There is no value; the text says what that means. */
    record Means<T>(String meaning) implements Absence<T> {}
  }

  String path() {
    return table + "." + key;
  }

  /** The default for people. */
  String whenAbsent() {
    if (absence instanceof Absence.Default<T> fallback) {
      return "default " + form.show(fallback.value());
    } else if (absence instanceof Absence.Means<T> means) {
      return "absent: " + means.meaning();
    }
    return "required";
  }

  /** Form and default for people, as in the comment beside the option. */
  String describe() {
    return form.limits() + "; " + whenAbsent();
  }
}
