import type { ReportFrame } from '../report-frame.ts';

/** A picture of the mug that came by itself and of which all is well. */
export function reportFrame(name: string, more: Partial<ReportFrame> = {}): ReportFrame {
  return {
    id: name,
    name,
    camera: 'cam1',
    shot: 'mug',
    mark: 'none',
    purpose: 'picture',
    momentMs: 0,
    shutter: { atMs: 0, offsetKnown: true, subSecondsKnown: true },
    fromFolder: false,
    times: { firstByteMs: 500, firstViewMs: 1000, keptMs: 2000, renderedMs: 3000 },
    colour: null,
    lightEv: null,
    files: [{ name: `${name}.DNG`, state: 'whole', copies: 1, readBack: 'direct' }],
    ...more,
  };
}
