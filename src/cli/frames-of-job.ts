import { type Frame, framePage } from '../contract/index.ts';
import { callStation } from './station-calls.ts';

/** Frames of a job, page by page. */
export async function framesOf(station: string, code: string): Promise<readonly Frame[]> {
  const frames: Frame[] = [];
  let after: string | null = null;
  do {
    const query = new URLSearchParams({ job: code, ...(after === null ? {} : { after }) });
    const page = framePage.parse(await (await callStation(station, `/api/v1/frames?${query}`)).json());
    frames.push(...page.frames);
    after = page.next;
  } while (after !== null);
  return frames;
}
