import { spawnSync } from 'node:child_process';

/**
 * Where the last byte of the first preview of 1000 px or more lies, as ExifTool sees the file: offset and length of
 * each JPEG it names, the earliest that is large enough.
 */
export function previewEndBytes(file: Uint8Array): number {
  const run = spawnSync(
    'exiftool',
    [
      '-j',
      '-n',
      '-a',
      '-G1',
      '-ImageWidth',
      '-StripOffsets',
      '-StripByteCounts',
      '-PreviewImageStart',
      '-PreviewImageLength',
      '-JpgFromRawStart',
      '-JpgFromRawLength',
      '-Compression',
      '-',
    ],
    {
      input: file,
      maxBuffer: 1 << 24,
    },
  );
  const [tags]: Record<string, unknown>[] = JSON.parse(run.stdout.toString());
  if (tags === undefined) throw new Error('ExifTool says nothing');
  const groups = new Map<string, Record<string, number>>();
  for (const [name, value] of Object.entries(tags)) {
    const [group, tag] = name.split(':');
    if (group === undefined || tag === undefined || typeof value !== 'number') continue;
    groups.set(group, { ...groups.get(group), [tag]: value });
  }
  const ends = [...groups.values()].flatMap((ifd) => {
    const start = ifd.PreviewImageStart ?? ifd.JpgFromRawStart ?? ifd.StripOffsets;
    const length = ifd.PreviewImageLength ?? ifd.JpgFromRawLength ?? ifd.StripByteCounts;
    const isJpeg = ifd.Compression === 7 || ifd.Compression === 6;
    return isJpeg &&
      (ifd.ImageWidth ?? 0) >= 1000 &&
      start !== undefined &&
      length !== undefined &&
      (ifd.ImageWidth ?? 0) < 5000
      ? [start + length]
      : [];
  });
  if (ends.length === 0) throw new Error(`no preview of 1000 px or more: ${JSON.stringify(tags)}`);
  return Math.min(...ends);
}
