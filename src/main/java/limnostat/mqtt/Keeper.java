package limnostat.mqtt;

import java.util.List;
import java.util.function.Consumer;

/**
 * What keeps the outbox beyond the process. Its methods never wait and never throw; they may be
 * called by the scan thread and the mqtt thread.
 */
public interface Keeper {
  /** Nothing is kept. */
  Keeper NONE = new Forgetful();

  /**
   * What an earlier process left.
   *
   * @param messages how many
   * @param newest highest number, 0 for none
   */
  record Found(int messages, long newest) {}

  /**
   * What was read.
   *
   * @param messages in order of their numbers
   * @param keptTo what has a number up to this one and is not among the messages read so far is
   *     gone
   */
  record Page(List<Message> messages, long keptTo) {
    public Page {
      messages = List.copyOf(messages);
    }
  }

  /** Once, at the beginning. */
  Found found();

  /** Keeps a message; false: it cannot. */
  boolean keep(Message message);

  /** The message is no longer needed. */
  void forget(long number);

  /**
   * Whether a record may be sent: it would survive a kill now, or there is no hope that it soon
   * would. One that was sent before and is lost in a kill would happen a second time, under another
   * id.
   */
  boolean safe(long number);

  /**
   * Reads messages back, after what is being kept has been kept.
   *
   * @param after number after which to begin
   * @param reader called by any thread; does not wait
   */
  void read(long after, int most, Consumer<Page> reader);

  /** Called by any thread whenever {@link #safe} may have changed. */
  void onChange(Runnable listener);

  /** Of a link that keeps nothing. */
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
      // it was never kept
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
