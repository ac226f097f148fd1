package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Recent answers, so that a command that arrives twice is applied once: QoS 1 delivers at least
 * once (MQTT 3.1.1, 4.3.2). A command without an id, such as Homie's, is recognised by its document
 * alone. If the same document arrives again, a repeat cannot be distinguished from a new request.
 *
 * @param kept the latest last. One answer is kept for each id, so an id that is used again for
 *     something else belongs to that other command. Of commands without an id only the accepted
 *     ones are kept.
 */
public record Answers(List<Answer> kept) {
  /**
   * Time for which an answer is kept, s: a duplicate arrives with the next connection at the latest
   * (engineering judgement).
   */
  public static final double KEPT_S = 600;

  /**
   * Most answers that are kept: more than a person requests in that time (engineering judgement).
   */
  public static final int MOST = 32;

  public static final Answers NONE = new Answers(List.of());

  /** Data read back from a ledger is validated like any untrusted input. */
  public Answers {
    kept = List.copyOf(kept);
    if (kept.size() > MOST) {
      throw new IllegalArgumentException(kept.size() + " answers are kept");
    }
  }

  /**
   * @param requestId as the sender gave it; empty: none
   * @param print fingerprint of the command's origin and document
   * @param accepted false: refused
   * @param text remark or reason; empty: none
   * @param ageS time since the answer, s
   */
  public record Answer(String requestId, long print, boolean accepted, String text, double ageS) {
    static Answer of(Command.Request request, boolean accepted, String text) {
      return new Answer(request.requestId().orElse(""), fingerprint(request), accepted, text, 0);
    }
  }

  /** The answer to the same command, if it is known. */
  Optional<Answer> to(Command.Request request) {
    return request
        .requestId()
        .flatMap(id -> kept.stream().filter(a -> a.requestId.equals(id)).findFirst())
        .filter(a -> a.print == fingerprint(request) && !request.document().isEmpty());
  }

  /** The answer to the same command, if that was accepted recently and neither has an id. */
  Optional<Answer> withoutId(Command.Request request) {
    return request.requestId().isPresent()
        ? Optional.empty()
        : kept.stream()
            .filter(a -> a.requestId.isEmpty() && a.print == fingerprint(request))
            .findFirst();
  }

  /** Whether nothing else was accepted after it. */
  boolean latest(Answer answer) {
    return kept.stream().filter(Answer::accepted).reduce((a, b) -> b).equals(Optional.of(answer));
  }

  /** Adds an answer. If there are too many, the oldest is dropped, refusals first. */
  Answers with(Answer answer) {
    if (answer.requestId.isEmpty() && !answer.accepted) {
      return this;
    }
    List<Answer> next = new ArrayList<>(kept);
    next.removeIf(
        a ->
            a.requestId.equals(answer.requestId)
                && (!a.requestId.isEmpty() || a.print == answer.print));
    next.add(answer);
    if (next.size() > MOST) {
      next.remove(next.stream().filter(a -> !a.accepted()).findFirst().orElse(next.get(0)));
    }
    return new Answers(next);
  }

  Answers passed(double elapsedS) {
    if (kept.isEmpty()) {
      return this;
    }
    return new Answers(
        kept.stream()
            .filter(a -> a.ageS + elapsedS <= KEPT_S)
            .map(a -> new Answer(a.requestId, a.print, a.accepted, a.text, a.ageS + elapsedS))
            .toList());
  }

  /** FNV-1a, 64 bits, over origin and document: it detects a sender's mistakes, not attackers. */
  private static long fingerprint(Command.Request request) {
    long hash = 0xcbf29ce484222325L;
    String text = request.origin() + '\n' + request.document();
    for (int i = 0; i < text.length(); i++) {
      hash = (hash ^ text.charAt(i)) * 0x100000001b3L;
    }
    return hash;
  }
}
