import ssh2 from 'ssh2';

/**
 * A pair of SSH keys, whole. ssh2 1.17.0 drops a leading zero byte of the public half, so that one pair in 256 is no key
 * to anybody; such a pair is drawn again.
 */
export function ed25519Pair(): { private: string; public: string } {
  const pair = ssh2.utils.generateKeyPairSync('ed25519');
  return ssh2.utils.parseKey(pair.private) instanceof Error ? ed25519Pair() : pair;
}
