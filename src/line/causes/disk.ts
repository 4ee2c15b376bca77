import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';

/** A good Wi-Fi brings this much (`performance`: cameras over Wi-Fi bring 3 to 60 MB/s; common practice, no source). */
const cameraBytesPerSecond = 20e6;

/** No room for new frames, or a disk that cameras outrun. */
export function diskTroubles({ disk, cameras }: LineFacts): readonly LineFinding[] {
  const { freeBytes, floorBytes, writeBytesPerSecond } = disk;
  const fastest = Math.max(cameraBytesPerSecond, ...cameras.map(({ bytesPerSecond }) => bytesPerSecond ?? 0));
  return [
    ...(freeBytes > floorBytes
      ? []
      : [
          found(
            ['line-check.disk-full', 'shut', 'certain'],
            {},
            {
              evidence: [seen('disk', { freeBytes, floorBytes })],
              cures: [cure('station', 'make-room')],
            },
          ),
        ]),
    ...(writeBytesPerSecond === null || writeBytesPerSecond >= fastest
      ? []
      : [
          found(
            ['line-check.disk-slow', 'weak', 'likely'],
            { bytesPerSecond: Math.round(writeBytesPerSecond) },
            {
              evidence: [seen('disk-speed', { bytesPerSecond: Math.round(writeBytesPerSecond) })],
              cures: [cure('station', 'faster-disk')],
            },
          ),
        ]),
  ];
}
