import type { BenchStation } from './station.ts';

export interface BenchFrame {
  readonly id: string;
  readonly picture: { readonly state: string };
}

/** Every frame of the station. */
export async function framesOf(station: BenchStation): Promise<BenchFrame[]> {
  const answer = await fetch(`${station.web}/api/v1/frames?limit=500`);
  const page: { frames: BenchFrame[] } = JSON.parse(await answer.text());
  return page.frames;
}

const known = new Map<number, Set<string>>();

/** Id of the frame that makes it `count` frames; waits for it. */
export async function newestFrameId(station: BenchStation, count: number): Promise<string> {
  const seen = known.get(station.pid) ?? new Set<string>();
  known.set(station.pid, seen);
  for (;;) {
    const frames = await framesOf(station);
    const fresh = frames.find(({ id }) => !seen.has(id));
    if (fresh !== undefined && frames.length >= count) {
      seen.add(fresh.id);
      return fresh.id;
    }
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
