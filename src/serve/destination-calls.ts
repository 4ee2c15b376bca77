import type { Destination, DestinationPlace, DestinationTest } from '../contract/index.ts';

/** What the web door needs of the station about destinations. No answer holds a secret. */
export interface DestinationCalls {
  destinations(): Promise<readonly Destination[]>;
  /**
   * Makes or changes one. `secret` undefined: as it was, or none where the place is another server or log-in. `newName`: what it is called
   * from now on. Rejects `bad-destination`, `too-many-destinations`; with another name `no-destination`, `destination-there`,
   * `destination-busy`.
   */
  putDestination(
    name: string,
    place: DestinationPlace,
    secret: string | undefined,
    newName?: string,
  ): Promise<{ readonly destination: Destination; readonly isNew: boolean }>;
  /** With its secret; false where there was none. */
  forgetDestination(name: string): Promise<boolean>;
  /** Null where there is none of that name. */
  testDestination(name: string, signal: AbortSignal): Promise<DestinationTest | null>;
}
