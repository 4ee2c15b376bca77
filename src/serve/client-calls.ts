import type { ClientScreen, ClientScreenChange } from '../contract/index.ts';

/** What the client's screens show: told by the station, so that any device can be one. */
export interface ClientCalls {
  /** Of jobs whose screens somebody has set. A frame that is no longer for the client's eyes is not held. */
  clientScreens(): Promise<readonly ClientScreen[]>;
  /**
   * Gives the screen after the change. Rejects `no-job`, `no-frame` for one that is none of the job's, `not-for-the-client` for one that
   * is put aside, is no picture or cannot be shown.
   */
  showClient(change: ClientScreenChange): Promise<ClientScreen>;
}
