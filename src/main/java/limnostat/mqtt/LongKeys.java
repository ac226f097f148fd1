package limnostat.mqtt;

import java.security.AlgorithmConstraints;
import java.security.AlgorithmParameters;
import java.security.CryptoPrimitive;
import java.security.Key;
import java.security.interfaces.RSAKey;
import java.util.Set;

/**
 * Refuses RSA keys that are too short to protect a password sent to the broker. Java itself accepts
 * RSA keys from 1024 bits. Anything else that Java refuses is still refused.
 */
enum LongKeys implements AlgorithmConstraints {
  REQUIRED;

  /** NIST SP 800-131A Rev. 2, table 2: shorter moduli are disallowed for signatures. */
  private static final int RSA_BITS = 2048;

  @Override
  public boolean permits(Set<CryptoPrimitive> uses, String algorithm, AlgorithmParameters values) {
    return true;
  }

  @Override
  public boolean permits(Set<CryptoPrimitive> uses, Key key) {
    return !(key instanceof RSAKey rsa) || rsa.getModulus().bitLength() >= RSA_BITS;
  }

  @Override
  public boolean permits(
      Set<CryptoPrimitive> uses, String algorithm, Key key, AlgorithmParameters values) {
    return permits(uses, key);
  }
}
