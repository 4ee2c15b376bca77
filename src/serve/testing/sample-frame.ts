import type { Frame, Remark, Station } from '../../contract/index.ts';

/** A whole, developed frame as the station would show it; parts can be replaced. */
export function sampleFrame(parts: Partial<Frame> = {}): Frame {
  return {
    id: 'f1',
    job: 'unsorted',
    shotless: null,
    shot: null,
    camera: 'A',
    counter: 12,
    name: 'ABCD0012.DNG',
    kind: 'dng',
    files: [
      {
        name: 'ABCD0012.DNG',
        size: 26,
        expectedSize: 26,
        sha256: '71c480df93d6ae2f1efad1447c66c9525e316218cf51fc8d9ed832f2daf18b73',
        state: 'whole',
        copies: 0,
        places: [],
        bytesPerSecond: null,
      },
    ],
    times: {
      shutter: '2026-10-01T08:04:05.120Z',
      began: '2026-10-01T08:04:06.000Z',
      firstByte: '2026-10-01T08:04:06.000Z',
      firstView: '2026-10-01T08:04:06.500Z',
      lastByte: '2026-10-01T08:04:09.000Z',
      kept: '2026-10-01T08:04:09.020Z',
      rendered: '2026-10-01T08:04:10.000Z',
      judged: null,
    },
    capture: {
      cameraMake: null,
      cameraModel: null,
      lensModel: null,
      exposureTimeS: 0.008,
      fNumber: 8,
      sensitivity: 100,
      focalLengthMm: 90,
    },
    picture: {
      state: 'rendered',
      width: 3000,
      height: 2000,
      source: 'raw',
      look: '',
      target: null,
      original: null,
      version: 1,
    },
    readings: { lineMBPerS: 8.2 },
    verdicts: {
      arrived: verdict('good', 'arrived.whole'),
      sharp: verdict('unknown', 'judge.not-measured'),
      exposed: verdict('unknown', 'judge.not-measured'),
      inPlace: verdict('unknown', 'judge.not-measured'),
      colour: verdict('unknown', 'judge.not-measured'),
    },
    look: {
      own: null,
      id: null,
      name: 'Plain',
      version: null,
      hash: 'a'.repeat(64),
      from: 'station',
      wish: null,
    },
    heldAgainst: { reference: null, layout: false, target: null },
    slate: null,
    suggestedMark: null,
    sidecar: null,
    mark: 'none',
    purpose: 'picture',
    spot: null,
    acceptances: [],
    mutes: [],
    share: null,
    remarks: [],
    version: 1,
    ...parts,
  };
}

/** A station with one camera; its password is what a caller other than the operator must not see. */
export function sampleStation(asOperator: boolean): Station {
  return {
    version: '0.0.0-test',
    now: '2026-10-01T08:04:11.000Z',
    home: 'home',
    addresses: [{ address: '192.0.2.1', family: 'IPv4', interface: 'eth0', private: false, beside: false }],
    doors: [{ name: 'ftp', port: 2121, trouble: null }],
    passive: { from: 50000, to: 50099 },
    encryptedOnly: false,
    certificate: null,
    disk: { freeBytes: 1, totalBytes: 2, floorBytes: 0 },
    incoming: [],
    cameras: [
      {
        name: 'A',
        user: 'cam-a',
        password: asOperator ? 'open-sesame' : null,
        allow: [],
        protocols: ['ftp', 'ftps', 'sftp'],
        keys: [],
        watched: [],
        rowTimeUs: null,
        ended: false,
        connected: false,
        lastSeen: null,
        expects: null,
        clockOffsetMs: 0,
        clockSeen: null,
        trouble: null,
        log: [],
      },
    ],
    job: null,
    secondPlaces: [],
    kept: [],
    demo: false,
  };
}

function verdict(judgement: 'good' | 'unknown', code: string): Frame['verdicts']['arrived'] {
  return { judgement, findings: [{ code, args: { bytes: 26 } }], figure: null };
}

/** A guest's remark that nobody answered yet; parts can be replaced. */
export function sampleRemark(parts: Partial<Remark> = {}): Remark {
  return {
    id: 'r',
    point: { x: 0.25, y: 0.5 },
    text: 'brighter here',
    inside: false,
    by: { name: 'Ada', from: 'guest', link: 'tablet' },
    at: '2026-10-01T09:00:00.000Z',
    settled: null,
    answers: [],
    ...parts,
  };
}
