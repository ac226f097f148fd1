package limnostat.mqtt;

import java.util.List;
import java.util.function.Consumer;

/**
 * Stores the outbox beyond the life of the process. Its methods never wait and never throw. The
 * scan thread and the mqtt thread may call them.
 */
public interface Keeper {
  /** Stores nothing. */
  Keeper NONE = new Forgetful();

  /**
   * What an earlier process left behind.
   *
   * @param messages number of messages
   * @param newest highest number; 0 if there are no messages
   */
  record Found(int messages, long newest) {}

  /**
   * One page of messages that were read back.
   *
   * @param messages in order of their numbers
   * @param keptTo any message up to this number that has not been read so far no longer exists
   */
  record Page(List<Message> messages, long keptTo) {
    public Page {
      messages = List.copyOf(messages);
    }
  }

  /** Called once, at the start. */
  Found found();

  /** Stores a message; false if it cannot. */
  boolean keep(Message message);

  /** The message is no longer needed. */
  void forget(long number);

  /**
   * Whether a record may be sent: either it would survive a kill now, or there is no prospect that
   * it soon would. A record that is sent earlier and lost in a kill would be reported a second
   * time, under another id.
   */
  boolean safe(long number);

  /**
   * Reads messages back, once all pending messages have been stored.
   *
   * @param after number after which to start
   * @param reader called from any thread; must not wait
   */
  void read(long after, int most, Consumer<Page> reader);

  /** Registers a listener, called from any thread whenever {@link #safe} may have changed. */
  void onChange(Runnable listener);

  /** The keeper of a link that stores nothing. */
  final class Forgetful implements Keeper {
    private Forgetful() {}

    @Override
    public Found found() {
      return new Found(0, 0);
    }

    @Override
    public boolean keep(Message message) {
      return false;
    }

    @Override
    public void forget(long number) {
      // it was never stored
    }

    @Override
    public boolean safe(long number) {
      return true;
    }

    @Override
    public void read(long after, int most, Consumer<Page> reader) {
      reader.accept(new Page(List.of(), Long.MAX_VALUE));
    }

    @Override
    public void onChange(Runnable listener) {
      // nothing changes
    }
  }
}
