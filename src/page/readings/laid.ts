import type { Question } from '../../facts/index.ts';

/** How the reference is seen through the picture. */
export const ghostWays = ['ghost', 'difference'] as const;
export type GhostWay = (typeof ghostWays)[number];

export const channelNames = ['red', 'green', 'blue'] as const;
export type ChannelName = (typeof channelNames)[number];

/** What lies over the picture while a verdict is open, as the operator left it. */
export interface LaidChoice {
  readonly on: boolean;
  readonly ghost: GhostWay;
  /** Of the reference, 0 … 1. */
  readonly opacity: number;
  readonly channels: Readonly<Record<ChannelName, boolean>>;
}

export const firstLaid: LaidChoice = {
  on: true,
  ghost: 'ghost',
  opacity: 0.5,
  channels: { red: true, green: true, blue: true },
};

/** Verdicts that have something to lay over the picture. */
export const laidQuestions: readonly Question[] = ['sharp', 'exposed', 'inPlace', 'colour'];
