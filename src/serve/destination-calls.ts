import type { Destination, DestinationPlace, DestinationTest } from '../contract/index.ts';

/** What the web door needs of the station about destinations. No answer holds a secret. */
export interface DestinationCalls {
  destinations(): Promise<readonly Destination[]>;
  /**
   * Makes or changes one. `secret` undefined: as it was, or none where the place is another server or log-in. Rejects `bad-destination`,
   * `too-many-destinations`.
   */
  putDestination(
    name: string,
    place: DestinationPlace,
    secret: string | undefined,
  ): Promise<{ readonly destination: Destination; readonly isNew: boolean }>;
  /** With its secret; false where there was none. */
  forgetDestination(name: string): Promise<boolean>;
  /** Null where there is none of that name. */
  testDestination(name: string, signal: AbortSignal): Promise<DestinationTest | null>;
}
