package limnostat.daemon;

import java.util.function.Consumer;
import limnostat.ledger.Entry;
import limnostat.ledger.Ledger;
import limnostat.ledger.Outgoing;
import limnostat.mqtt.Keeper;
import limnostat.mqtt.Message;

/** Lets the ledger store the outbox. */
public record LedgerKeeper(Ledger ledger) implements Keeper {

  @Override
  public Found found() {
    Outgoing.Found found = ledger.outgoing();
    return new Found(found.messages(), found.newest());
  }

  @Override
  public boolean keep(Message message) {
    boolean record = message.worth() == Message.Worth.RECORD;
    ledger.offer(
        new Entry.Message(
            message.number(), message.topic(), message.worth().name(), message.payload(), record));
    return true;
  }

  @Override
  public void forget(long number) {
    ledger.offer(new Entry.Delivered(number));
  }

  /** A ledger that cannot be written must not keep an alarm from being reported. */
  @Override
  public boolean safe(long number) {
    return ledger.keptTo() >= number || ledger.health().failingSinceS().isPresent();
  }

  @Override
  public void read(long after, int most, Consumer<Page> reader) {
    ledger.readOutgoing(
        after,
        most,
        page ->
            reader.accept(
                new Page(
                    page.messages().stream().map(LedgerKeeper::message).toList(), page.keptTo())));
  }

  private static Message message(Entry.Message kept) {
    return new Message(
        kept.number(), kept.topic(), Message.Worth.valueOf(kept.worth()), kept.payload());
  }

  @Override
  public void onChange(Runnable listener) {
    ledger.onCommit(listener);
  }
}
