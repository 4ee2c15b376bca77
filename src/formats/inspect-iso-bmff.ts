import type { BoundedReader } from './bounded-reader.ts';
import type { Inspection } from './inspection.ts';
import { type IsoBox, IsoBoxes } from './iso-box.ts';
import { cameraBoxes } from './iso-raw-boxes.ts';
import { type IsoTrack, trackOf } from './iso-track.ts';
import { jpegPreviewAt } from './jpeg-preview.ts';
import type { PictureTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { structureInspection } from './structure-inspection.ts';

/** The shortest movie box, which a file must have: ISO/IEC 14496-12 section 8.2.1. */
const movieBytesMin = 8;

/** Inspects a raw file on the ISO base media file format (ISO/IEC 14496-12). */
export function inspectIsoBmff(reader: BoundedReader): Inspection {
  const boxes = new IsoBoxes(reader);
  const ofFile = boxes.ofFile();
  const movie = movieOf(reader, ofFile);
  const inMovie = boxes.in(movie);
  const camera = cameraBoxes(boxes, ofFile, inMovie);
  const tracks = inMovie.filter(({ type }) => type === 'trak').map((track) => trackOf(boxes, track));
  return structureInspection(reader, {
    kind: 'iso-bmff-raw',
    previews: [...camera.previews, ...trackPreviews(reader, tracks, camera.tags)],
    tags: camera.tags,
    size: camera.size ?? tracks.find(({ isJpeg }) => isJpeg)?.size ?? null,
    // A file may end behind any of its boxes; only the index says that no further one is missing.
    provable: camera.hasIndex && tracks.some(({ samples }) => samples.length > 0),
  });
}

/** The movie box. While it has not come, the file must go on behind the boxes that have. */
function movieOf(reader: BoundedReader, ofFile: readonly IsoBox[]): IsoBox | undefined {
  const movie = ofFile.find(({ type }) => type === 'moov');
  if (movie === undefined && !reader.doubted) reader.expectEnd((ofFile.at(-1)?.end ?? 0) + movieBytesMin);
  return movie;
}

/** The first sample of each track of JPEGs. */
function trackPreviews(
  reader: BoundedReader,
  tracks: readonly IsoTrack[],
  { colorSpace }: PictureTags,
): Preview[] {
  return tracks
    .map(({ isJpeg, samples: [first], size }) =>
      isJpeg && first !== undefined && first.length > 0
        ? jpegPreviewAt(reader, first, size, colorSpace === 1 ? 'srgb' : null)
        : null,
    )
    .filter((preview) => preview !== null);
}
