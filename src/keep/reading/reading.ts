/** How fast everything is read again. */
export interface ReadingPace {
  /** After each file it rests for so many times as long as reading it took; 0: not at all. */
  readonly restTimes: number;
  /** Nothing is begun while true. */
  readonly paused: boolean;
}

/** A long reading of disks, apart from the station. */
export interface Reading<Result> {
  /** Rejects `reading-stopped` after {@link stop}, and with what kept it from reading. */
  readonly done: Promise<Result>;
  pace(pace: ReadingPace): void;
  stop(): void;
}
