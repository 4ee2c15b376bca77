import { tag } from './tag.ts';
import { type Ifd, type IfdRole, numbersOf, parseIfd } from './tiff-ifd.ts';
import type { TiffStructure } from './tiff-structure.ts';

/** All directories of one structure that could be read, in the order they were reached. */
export interface TiffTree {
  readonly ifds: readonly Ifd[];
  /** The first directory (IFD0). */
  readonly first: Ifd | undefined;
  readonly exif: Ifd | undefined;
}

interface Visit {
  readonly offset: number;
  readonly role: IfdRole;
  readonly depth: number;
}

/** Which pointers a directory of each role may hold. Chains below the main one are not followed: DNG 1.4 has none. */
const pointers: Readonly<Record<IfdRole, readonly (readonly [number, IfdRole])[]>> = {
  main: [
    [tag.SubIFDs, 'sub'],
    [tag.ExifIFD, 'exif'],
    [tag.GPSInfo, 'gps'],
  ],
  sub: [[tag.SubIFDs, 'sub']],
  exif: [[tag.InteroperabilityIFD, 'interoperability']],
  gps: [],
  interoperability: [],
};

/**
 * Walks the directories from the header, breadth first. Each offset is read once, so loops end; count and depth are
 * bounded.
 */
export function walkTiff(tiff: TiffStructure): TiffTree {
  const { ifdsMax, ifdDepthMax } = tiff.reader.limits;
  const ifds: Ifd[] = [];
  const seen = new Set<number>();
  const visits: Visit[] = [{ offset: tiff.header.firstIfdOffset, role: 'main', depth: 0 }];
  for (const visit of visits) {
    const where = tiff.baseOffset + visit.offset;
    if (visit.depth > ifdDepthMax || seen.size >= ifdsMax) {
      tiff.reader.doubt('ifd-too-many', where);
      break;
    }
    if (seen.has(visit.offset)) {
      tiff.reader.warn('ifd-loop', where);
      continue;
    }
    seen.add(visit.offset);
    const ifd = parseIfd(tiff, visit.offset, visit.role);
    if (ifd === null) continue;
    ifds.push(ifd);
    visits.push(...pointersOf(tiff, ifd, visit.depth));
  }
  return {
    ifds,
    first: ifds.find((ifd) => ifd.offset === tiff.header.firstIfdOffset),
    exif: ifds.find((ifd) => ifd.role === 'exif'),
  };
}

function pointersOf(tiff: TiffStructure, ifd: Ifd, depth: number): Visit[] {
  const below = pointers[ifd.role].flatMap(([tagNumber, role]) =>
    // One more than allowed, so that a longer list meets the limit and is noted.
    (numbersOf(tiff, ifd, tagNumber, tiff.reader.limits.ifdsMax + 1) ?? [])
      .filter((offset) => offset !== 0)
      .map((offset) => ({ offset, role, depth: depth + 1 })),
  );
  return ifd.nextOffset === 0 ? below : [...below, { offset: ifd.nextOffset, role: 'main', depth }];
}
