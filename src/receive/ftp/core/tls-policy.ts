/** What a door asks of its clients as to TLS (RFC 4217). */
export interface TlsPolicy {
  /** `explicit`: plain FTP that AUTH TLS encrypts. `implicit`: TLS from the first byte, at a port of its own. */
  readonly start: 'explicit' | 'implicit';
  /**
   * What may cross in clear. `refused`: nobody is asked for a password in clear (530), and files come over protected
   * data connections only (521, 534).
   */
  readonly clearText: 'allowed' | 'refused';
}
