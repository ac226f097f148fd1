package limnostat.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limnostat.control.ControlSettings.PumpWindow;
import org.tomlj.TomlArray;

/** Daily windows of local time, {@code ["09:00-17:00"]}. */
record Windows() implements Form<List<PumpWindow>> {
  private static final int DAY_S = 86400;
  private static final int MOST = 24;
  private static final Pattern WINDOW =
      Pattern.compile("([01]\\d|2[0-3]):([0-5]\\d)-(?:([01]\\d|2[0-3]):([0-5]\\d)|24:00)");

  @Override
  public Optional<List<PumpWindow>> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof TomlArray list)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          limits(),
          "write for instance [\"09:00-17:00\"]");
      return Optional.empty();
    }
    if (list.size() > MOST) {
      refusals.refuse("has " + list.size() + " windows", limits(), "join some of them");
      return Optional.empty();
    }
    List<PumpWindow> windows = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      Optional<PumpWindow> window = window(list.get(i), refusals);
      if (window.isPresent() && windows.stream().anyMatch(w -> overlap(w, window.get()))) {
        refusals.refuse(
            Written.value(list.get(i)) + " overlaps another window",
            "separate windows",
            "join the two to one");
      }
      window.ifPresent(windows::add);
    }
    return windows.size() == list.size() ? Optional.of(List.copyOf(windows)) : Optional.empty();
  }

  private static Optional<PumpWindow> window(Object toml, Refusals refusals) {
    Matcher matcher = WINDOW.matcher(toml instanceof String text ? text.strip() : "");
    if (!matcher.matches()) {
      refusals.refuse(
          Written.value(toml) + " is not a window",
          "two times from 00:00 to 24:00",
          "write for instance \"09:00-17:00\"");
      return Optional.empty();
    }
    int startS = seconds(matcher.group(1), matcher.group(2));
    int endS = matcher.group(3) == null ? DAY_S : seconds(matcher.group(3), matcher.group(4));
    if (startS == endS) {
      refusals.refuse(
          Written.value(toml) + " has no length",
          "an end that differs from the start",
          "for always write an empty list, []");
      return Optional.empty();
    }
    return Optional.of(new PumpWindow(startS, endS));
  }

  private static int seconds(String hours, String minutes) {
    return Integer.parseInt(hours) * 3600 + Integer.parseInt(minutes) * 60;
  }

  /** Length of a window, s. */
  static int lengthS(PumpWindow window) {
    return Math.floorMod(window.endS() - window.startS() - 1, DAY_S) + 1;
  }

  private static boolean overlap(PumpWindow a, PumpWindow b) {
    return Math.floorMod(b.startS() - a.startS(), DAY_S) < lengthS(a)
        || Math.floorMod(a.startS() - b.startS(), DAY_S) < lengthS(b);
  }

  @Override
  public String limits() {
    return "a list of at most " + MOST + " windows, empty for always";
  }

  @Override
  public String show(List<PumpWindow> value) {
    return value.stream()
        .map(window -> '"' + time(window.startS()) + "-" + time(window.endS()) + '"')
        .collect(Collectors.joining(", ", "[", "]"));
  }

  private static String time(int secondOfDay) {
    return String.format(Locale.ROOT, "%02d:%02d", secondOfDay / 3600, secondOfDay / 60 % 60);
  }
}
