import type { Frame, FrameFile, Station } from '../../contract/index.ts';

/** A day that never was; the frames of tests and of the fake station lie on it. */
export const sampleDayMs: number = Date.UTC(2031, 4, 6, 12, 0, 0);

export function sampleInstant(secondsIntoDay: number): string {
  return new Date(sampleDayMs + Math.round(secondsIntoDay * 1000)).toISOString();
}

const notMeasured: Frame['verdicts']['sharp'] = {
  judgement: 'unknown',
  findings: [{ code: 'judge.not-measured', args: {} }],
  figure: null,
};

/** A whole, rendered frame of 6000 × 4000, shot `secondsIntoDay` after noon. */
export function sampleFrame(id: string, secondsIntoDay: number, change: Partial<Frame> = {}): Frame {
  const frame: Frame = {
    id,
    job: 'demo',
    shotless: null,
    shot: null,
    camera: 'cam1',
    counter: null,
    name: `${id}.DNG`,
    kind: 'dng',
    files: [sampleFile(`${id}.DNG`)],
    times: {
      shutter: sampleInstant(secondsIntoDay),
      began: sampleInstant(secondsIntoDay + 1),
      firstByte: sampleInstant(secondsIntoDay + 1),
      firstView: sampleInstant(secondsIntoDay + 2),
      lastByte: sampleInstant(secondsIntoDay + 7),
      kept: sampleInstant(secondsIntoDay + 7.1),
      rendered: sampleInstant(secondsIntoDay + 8),
      judged: sampleInstant(secondsIntoDay + 8.2),
    },
    capture: {
      cameraMake: null,
      cameraModel: null,
      lensModel: null,
      exposureTimeS: 1 / 125,
      fNumber: 8,
      sensitivity: 100,
      focalLengthMm: 85,
    },
    picture: {
      state: 'rendered',
      width: 6000,
      height: 4000,
      source: 'raw',
      look: '',
      target: null,
      original: null,
      version: 2,
    },
    readings: {},
    verdicts: {
      arrived: {
        judgement: 'good',
        findings: [{ code: 'arrived.whole', args: { bytes: 24_600_000, ms: 6_100, places: 2 } }],
        figure: { value: 24.6, unit: 'MB' },
      },
      sharp: notMeasured,
      exposed: notMeasured,
      inPlace: notMeasured,
      colour: notMeasured,
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
  };
  return { ...frame, ...change };
}

export function sampleFile(name: string, change: Partial<FrameFile> = {}): FrameFile {
  return {
    name,
    size: 24_600_000,
    expectedSize: 24_600_000,
    sha256: '0'.repeat(64),
    state: 'whole',
    copies: 1,
    places: [
      {
        folder: '/mnt/second/setside',
        otherDevice: true,
        readBack: 'direct',
        at: '2026-11-25T10:15:09.000Z',
      },
    ],
    bytesPerSecond: null,
    ...change,
  };
}

export function sampleStation(change: Partial<Station> = {}): Station {
  const station: Station = {
    version: '0.1.0',
    now: sampleInstant(0),
    home: '/home/set/setside-home',
    addresses: [{ address: '192.168.8.20', family: 'IPv4', interface: 'eth0', private: true, beside: false }],
    doors: [
      { name: 'web', port: 8460, trouble: null },
      { name: 'ftp', port: 2121, trouble: null },
      { name: 'ftps', port: null, trouble: null },
      { name: 'sftp', port: null, trouble: null },
    ],
    passive: { from: 50_000, to: 50_099 },
    encryptedOnly: false,
    certificate: null,
    disk: { freeBytes: 412e9, totalBytes: 960e9, floorBytes: 0 },
    incoming: [],
    cameras: [
      {
        name: 'cam1',
        user: 'cam1',
        password: 'maple-river-42',
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
    secondPlaces: [{ folder: '/mnt/second/setside', otherDevice: true, waiting: 0, trouble: null }],
    kept: [],
    demo: false,
  };
  return { ...station, ...change };
}
