/**
 * Every bound that a device with a link, or a stranger at the door for links, meets beyond those of every HTTP call.
 * Each number says why it is what it is; a test sits on both sides of each.
 */
export interface WebLimits {
  /**
   * Wrong tokens of one address within a minute; beyond that none is looked at (429). A token has 138 random bits, so
   * this guards the station's time, not the token: a mistyped address fits several times.
   */
  readonly wrongTokensPerMinuteMax: number;
  /** Addresses that are remembered for their wrong tokens or their calls: bounds the memory of a flood. */
  readonly addressesMax: number;
  /** Calls that one link may go on making, a second: a page that loads a day's pictures stays below. */
  readonly callsPerSecondMax: number;
  /** Calls that one link may make at once: a thousand small pictures of a contact sheet that is scrolled fast. */
  readonly callsAtOnceMax: number;
  /** Remarks, answers and agreements that one link may go on saying, a second: nobody types faster. */
  readonly wordsPerSecondMax: number;
  /** Of these at once: what a tablet kept while the line was down. */
  readonly wordsAtOnceMax: number;
  /** Calls of one address without a link, a second: the page to come in by has a dozen files. */
  readonly strangerCallsPerSecondMax: number;
  /** Calls of one address without a link at once: the page's files for three devices behind one router. */
  readonly strangerCallsAtOnceMax: number;
  /** Event streams of one link: several devices, a few tabs forgotten. */
  readonly streamsPerLinkMax: number;
  /** Of the event streams in all, those kept for the station's own computer. */
  readonly streamsReserved: number;
  /** Connections at the door for links: ten devices with six each, and room. */
  readonly connectionsMax: number;
  /** Of these from one address: a browser opens six, and several devices may sit behind one router. */
  readonly connectionsPerAddressMax: number;
  /** From the connection to the end of the TLS handshake. A weak radio takes seconds for one. */
  readonly handshakeMs: number;
}

export const defaultWebLimits: WebLimits = {
  wrongTokensPerMinuteMax: 10,
  addressesMax: 4096,
  callsPerSecondMax: 100,
  callsAtOnceMax: 1000,
  wordsPerSecondMax: 0.5,
  wordsAtOnceMax: 60,
  strangerCallsPerSecondMax: 5,
  strangerCallsAtOnceMax: 60,
  streamsPerLinkMax: 12,
  streamsReserved: 16,
  connectionsMax: 128,
  connectionsPerAddressMax: 48,
  handshakeMs: 15_000,
};
