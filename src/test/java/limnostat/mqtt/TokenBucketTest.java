package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class TokenBucketTest {
  private static final long MS = 1_000_000L;

  @Test
  void allowsTheBurstThenTheRate() {
    TokenBucket bucket = new TokenBucket(5, 10, 0);
    assertEquals(10, taken(bucket, LongStream.generate(() -> 0).limit(50)));
    // a request each 10 ms for 10.1 s at five a second
    assertEquals(50, taken(bucket, LongStream.rangeClosed(1, 1010).map(i -> i * 10 * MS)));
  }

  @Test
  void aLongRestGivesNoMoreThanTheBurst() {
    TokenBucket bucket = new TokenBucket(5, 10, 0);
    long tomorrow = 86_400_000 * MS;
    assertEquals(10, taken(bucket, LongStream.generate(() -> tomorrow).limit(50)));
  }

  @Test
  void worksAcrossTheOverflowOfTheClock() {
    TokenBucket bucket = new TokenBucket(5, 10, Long.MAX_VALUE);
    assertEquals(10, taken(bucket, LongStream.generate(() -> Long.MAX_VALUE).limit(20)));
    assertEquals(5, taken(bucket, LongStream.generate(() -> Long.MIN_VALUE + 1000 * MS).limit(9)));
  }

  private static long taken(TokenBucket bucket, LongStream nanos) {
    return nanos.filter(bucket::take).count();
  }
}
