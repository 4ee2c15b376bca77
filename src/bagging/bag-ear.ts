export interface BagProgress {
  /** A bag that is made is written, then all of it is read again: each counts from 0. */
  readonly phase: 'writing' | 'reading';
  readonly doneBytes: number;
  readonly bytes: number;
  readonly path: string;
}

/** Who hears how far a bag is. */
export interface BagEar {
  readonly onProgress?: (progress: BagProgress) => void;
  /** Awaited after each piece: who makes way for others rests in it. What it rejects ends the work. */
  readonly rest?: () => Promise<void>;
}
