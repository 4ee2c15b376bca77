import type { Instrument } from '../instruments/instruments.ts';

/** What the picture is for while one points at it: a neutral, two parallels, or the crop's frame. */
export type Tool = 'neutral' | 'lines' | 'crop';

const instrumentOf: Readonly<Record<Tool, Instrument>> = {
  neutral: 'balance',
  lines: 'geometry',
  crop: 'geometry',
};

/** The tool where its instrument is taken out; else none is in hand. */
export function inHand(tool: Tool | null, instrument: Instrument | null): Tool | null {
  return tool !== null && instrumentOf[tool] === instrument ? tool : null;
}
