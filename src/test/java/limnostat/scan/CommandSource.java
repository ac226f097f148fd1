package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.Mode;
import limnostat.estimate.Glance;
import limnostat.estimate.Product;
import limnostat.estimate.TestKit;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.safety.Cause;

/** Commands of all kinds, sensible and not. */
final class CommandSource {
  private final Chance random;
  private final int oneIn;
  private int sent;
  private boolean byHand;
  private String shelved = "test_due";

  CommandSource(Chance random) {
    this.random = random;
    oneIn = 15 + random.nextInt(200);
  }

  /** A person begins with a duty that every installer's limit allows here. */
  void feedByHand() {
    byHand = true;
  }

  /**
   * @param latched what there is to reset
   */
  List<Command.Request> next(Optional<Cause> latched) {
    List<Command.Request> requests = new ArrayList<>();
    if (byHand) {
      byHand = false;
      requests.add(request(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.3)), ++sent));
    }
    if (latched.isPresent() && random.event("reset", 0.03)) {
      requests.add(request(new Command.Reset(latched.get().id()), ++sent));
    }
    for (int nth = 0; random.event("command", nth, 1.0 / oneIn); nth++) {
      requests.add(request(any(), ++sent));
    }
    return requests;
  }

  /** Without an id, or the second would be a repeat of the first. */
  static Command.Request request(Command command) {
    return new Command.Request(Optional.empty(), "any", "test", "{}", command);
  }

  static Command.Request request(Command command, int id) {
    return new Command.Request(Optional.of("r" + id), "any", "test", "{}", command);
  }

  private Command any() {
    return switch (random.nextInt(22)) {
      case 0 -> new Command.SetMode(Mode.MANUAL, maybe(-0.5, 1.5));
      case 1 ->
          new Command.SetMode(
              Mode.OFF, random.nextInt(4) == 0 ? maybe(0, 1) : OptionalDouble.empty());
      case 2, 3, 4 -> new Command.SetMode(Mode.AUTO, OptionalDouble.empty());
      case 5 -> new Command.SetTarget(number(0, 12));
      case 6 -> new Command.Superchlorinate(number(-1, 25), number(0, 60) * 3600);
      case 7 -> new Command.Superchlorinate(0, 0);
      case 8 -> new Command.Acknowledge(id());
      case 9 -> new Command.Test(test());
      case 10, 11 -> new Command.Reset(random.nextInt(3) > 0 ? "cell_current_unexpected" : id());
      case 12 -> forecast();
      case 13 -> new Command.FunctionCheck(random.nextInt(3) == 0 ? 0 : number(-10, 300) * 60);
      case 14 ->
          new Command.SetMode(Mode.MANUAL, maybe(0, 1), OptionalDouble.of(number(-1, 2000) * 60));
      case 15 -> new Command.CalibratePh(number(0, 14), number(-5, 60));
      case 16 -> new Command.CalibrateOrp(number(-100, 1100));
      case 17 -> new Command.CalibrateUndo(random.nextBoolean() ? Role.PH_MV : Role.ORP_MV);
      case 18 -> {
        shelved = id();
        yield new Command.Shelve(shelved, number(-10, 100_000));
      }
      case 19 -> new Command.Unshelve(random.nextInt(3) > 0 ? shelved : id());
      case 20 -> new Command.ResetSeason();
      default -> random.nextInt(4) == 0 ? new Command.Unreadable("no command") : hands();
    };
  }

  /** What people put in, as they mean it and not. */
  private Command hands() {
    return switch (random.nextInt(6)) {
      case 0 -> new Command.UndoAddition("a" + (1 + random.nextInt(3)));
      case 1 -> new Command.ListAdditions();
      default -> {
        Product[] products = Product.values();
        double amount = StrictMath.pow(10, Installations.between(random, -1, 5));
        yield new Command.Add(
            products[random.nextInt(products.length)],
            random.nextInt(20) == 0 ? number(-1, 1) : amount,
            random.nextInt(3) > 0 ? OptionalDouble.empty() : maybe(-5, 110),
            random.nextInt(3) > 0 ? OptionalDouble.empty() : maybe(-600, 90_000),
            random.nextInt(5) > 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(History.START_UNIX_S + number(-2, 3) * 86_400));
      }
    };
  }

  private WaterTest test() {
    OptionalDouble none = OptionalDouble.empty();
    OptionalDouble freeChlorine = maybe(0, random.nextInt(5) > 0 ? 5 : 60);
    OptionalDouble combined = maybe(0, 1);
    // mostly not below what the electrode says: that holds acid until a test agrees
    OptionalDouble ph = random.nextInt(2) == 0 ? none : maybe(7.4, 9);
    OptionalDouble cyanuricAcid = random.nextInt(5) > 0 ? none : maybe(-10, 150);
    boolean glance = random.nextInt(8) == 0;
    WaterTest test = WaterTest.EMPTY.with(Tested.PH, ph).with(Tested.CYANURIC_ACID, cyanuricAcid);
    if (!glance) {
      test = test.with(Tested.FREE_CHLORINE, freeChlorine).with(Tested.COMBINED_CHLORINE, combined);
    }
    if (random.nextInt(4) == 0) {
      test = test.readWith(TestKit.NAMED.get(random.nextInt(TestKit.NAMED.size())));
    }
    return glance ? test.seen(List.of(Glance.values()).get(random.nextInt(3))) : test;
  }

  /** About the histories' time, sensible and not. */
  private Command forecast() {
    List<Double> fractions = new ArrayList<>();
    for (int hours = random.nextInt(80); hours > 0; hours--) {
      fractions.add(Installations.between(random, 0, random.nextInt(500) > 0 ? 1.2 : 2));
    }
    return new Command.ForecastSun(History.START_UNIX_S + number(-2, 4) * 86_400, fractions);
  }

  private String id() {
    Cause[] causes = Cause.values();
    return random.nextInt(5) == 0 ? "nonsense" : causes[random.nextInt(causes.length)].id();
  }

  private OptionalDouble maybe(double low, double high) {
    return random.nextInt(5) == 0 ? OptionalDouble.empty() : OptionalDouble.of(number(low, high));
  }

  private double number(double low, double high) {
    return random.nextInt(20) == 0 ? Double.NaN : Installations.between(random, low, high);
  }
}
