import type { Frame, Station } from '../../contract/index.ts';
import type { Finding, Judgement } from '../../facts/index.ts';

/** What is to be said of the house rather than of a frame, with how much it matters. */
export interface HouseFinding {
  readonly judgement: Judgement;
  readonly finding: Finding;
}

/** Room for fewer frames than this is worth a word: about an afternoon's. */
const framesLeftLow = 500;
/** Fewer than this and somebody must make room now: about a shot's. */
const framesLeftVeryLow = 50;
/** What a frame takes while none has come, bytes: a raw of 24 megapixels. */
const usualFrameBytes = 30e6;

export function houseFindings(station: Station, frames: readonly Frame[]): HouseFinding[] {
  const shut = station.doors.flatMap((door) => door.trouble ?? []);
  const silent = station.cameras.flatMap((camera) => camera.trouble ?? []);
  return [
    ...diskFindings(station, frames),
    ...shut.map((finding) => ({ judgement: 'bad', finding }) as const),
    ...silent.map((finding) => ({ judgement: 'bad', finding }) as const),
    ...placeFindings(station).map((finding) => ({ judgement: 'doubt', finding }) as const),
  ];
}

function placeFindings({ secondPlaces }: Station): Finding[] {
  if (secondPlaces.length === 0) return [{ code: 'page.one-place', args: {} }];
  return secondPlaces.flatMap(({ trouble }) => trouble ?? []);
}

function diskFindings(station: Station, frames: readonly Frame[]): HouseFinding[] {
  const left = Math.floor(station.disk.freeBytes / frameBytes(frames));
  const args = { frames: roundedDown(left) };
  if (left < framesLeftVeryLow)
    return [{ judgement: 'bad', finding: { code: 'page.disk-nearly-full', args } }];
  if (left < framesLeftLow) return [{ judgement: 'doubt', finding: { code: 'page.disk-filling', args } }];
  return [];
}

/** The median size of the newest frames. */
function frameBytes(frames: readonly Frame[]): number {
  const sizes = frames
    .slice(-21)
    .map((frame) => frame.files.reduce((total, file) => total + (file.expectedSize ?? file.size), 0))
    .sort((one, other) => one - other);
  return Math.max(1e6, sizes[Math.floor(sizes.length / 2)] ?? usualFrameBytes);
}

/** Two figures are as much as can be known. */
function roundedDown(count: number): number {
  return count < 100 ? count : Math.floor(count / 10) * 10;
}
