import type { BagDesk, BagWork } from '../contract/index.ts';

/** What the web door needs of the station about archive packages. Only the operator on its own computer comes this far. */
export interface BagCalls {
  bags(): Promise<BagDesk>;
  /** Begins to make one of a job, or goes on with it. Rejects `bag-not-allowed`, `no-job`, `bag-busy`. */
  makeBag(job: string, folder: string): Promise<BagWork>;
  /** Begins to read all of one. Rejects `bag-not-allowed`, `bag-busy`. */
  checkBag(folder: string): Promise<BagWork>;
  /** Ends what goes on; null where there never was any. */
  stopBag(): Promise<BagWork | null>;
}
