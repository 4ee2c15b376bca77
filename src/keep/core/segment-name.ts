/** A journal file: the how-manieth, and the `seq` of its first record. */
export interface SegmentName {
  readonly ordinal: number;
  readonly firstSeq: number;
}

/** `00000003-000000000057.journal`: sorts by name in the order in which they were written. */
export function segmentFileName(segment: SegmentName): string {
  return `${String(segment.ordinal).padStart(8, '0')}-${String(segment.firstSeq).padStart(12, '0')}.journal`;
}

/** Null for any other file that lies in the journal's folder. */
export function parseSegmentFileName(name: string): SegmentName | null {
  const match = /^(\d{8})-(\d{12})\.journal$/.exec(name);
  if (match === null) return null;
  const [, ordinal, firstSeq] = match;
  return { ordinal: Number(ordinal), firstSeq: Number(firstSeq) };
}
