import { randomUUID } from 'node:crypto';
import type { Finding } from '../facts/index.ts';
import { trayCode } from '../job/index.ts';
import { type Keep, openKeep, openSecondPlaces, type SecondPlaces } from '../keep/index.ts';
import { openRegister, type Register } from '../register/index.ts';
import { ArrivalWatches } from './arrival-watches.ts';
import { BadCopies } from './bad-copies.ts';
import { BadOriginals } from './bad-originals.ts';
import { CameraBook } from './cameras/camera-book.ts';
import { CameraClocks } from './cameras/camera-clocks.ts';
import { CameraLog } from './cameras/camera-log.ts';
import { CameraRoster } from './cameras/camera-roster.ts';
import { Diary, readDiary } from './cameras/diary.ts';
import { Expectations } from './cameras/expectations.ts';
import type { Closers } from './closers.ts';
import type { StationOptions } from './core/options.ts';
import { foldInBackground } from './fold-doubles.ts';
import { FrameBook } from './frame-book.ts';
import { heedVerified } from './heed-verified.ts';
import { type Home, openHome } from './home.ts';
import { ActBook } from './jobs/act-book.ts';
import { type CurrentJob, JobBook } from './jobs/job-book.ts';
import { LineWatch } from './line/line-watch.ts';
import { LookBook } from './looks/look-book.ts';
import { ownAddresses } from './own-addresses.ts';
import { checkSecondPlaces } from './own-folders.ts';
import { limitsOfFrame } from './readings/frame-limits.ts';
import { ClockReadings } from './slates/clock-readings.ts';
import { describeTrouble, type StationLog } from './station-log.ts';
import { type InTurn, oneAtATime } from './turn.ts';
import { checkWatches } from './watches.ts';

/** Everything that lies on the disk, and the books about it. */
export interface Shelves {
  readonly home: Home;
  readonly roster: CameraRoster;
  readonly keep: Keep;
  readonly places: SecondPlaces;
  readonly badOriginals: BadOriginals;
  readonly badCopies: BadCopies;
  readonly watches: ArrivalWatches;
  readonly register: Register;
  readonly book: FrameBook;
  readonly jobs: JobBook;
  readonly looks: LookBook;
  readonly cameraLog: CameraLog;
  readonly line: LineWatch;
  readonly cameraBook: CameraBook;
  readonly expectations: Expectations;
  readonly clocks: CameraClocks;
  readonly clockReadings: ClockReadings;
  readonly acts: ActBook;
  /** For whoever looks and then chooses. */
  readonly inTurn: InTurn;
}

/** One hash worker keeps up with any Wi-Fi several times over; the other cores are for developing. */
const hashWorkers = 1;

/** So many of the newest lines of the diary are shown again after a start. */
const recalledLines = 200;

/**
 * Opens home, journal and register, in this order, and brings the register up to the journal's end. Rejects `bad-option`
 * for a second place that is none, before anything is made, and for a watch that is none, before a second place is opened.
 */
export async function openShelves(
  options: StationOptions,
  now: () => number,
  log: StationLog,
  closers: Closers,
): Promise<Shelves> {
  checkSecondPlaces(options.home, options.copies);
  const home = await openHome(options.home);
  const watches = new ArrivalWatches();
  const currentJob: CurrentJob = { code: trayCode };
  const keep = await openKeep({
    home: home.path,
    inspect: (file) => watches.inspect(file),
    newId: () => randomUUID(),
    now,
    jobOf: () => currentJob.code,
    diskFloorBytes: options.diskFloorBytes,
    hashWorkers,
  });
  closers.add(() => keep.close());
  closers.add(foldInBackground(keep));
  // After keep has claimed the home: of two stations that start at once, one changes nothing.
  const roster = await CameraRoster.open(
    home.keys,
    (thrown) => log('warn', describeTrouble(thrown)),
    options.watches.map(({ camera }) => camera),
  );
  closers.add(() => roster.close());
  // Before a second place says anything: a start that is refused must not speak of what it will do.
  checkWatches(options, roster);
  const badOriginals = new BadOriginals();
  const badCopies = new BadCopies();
  // What was found before the start is older than what copying finds, so it is taken over first.
  const late: { places: SecondPlaces | null } = { places: null };
  const heeded = (): void => late.places?.originalsRead((arrival) => badOriginals.of(arrival) !== null);
  closers.add(await heedVerified({ home: home.path, keep, badOriginals, badCopies, heeded }));
  const places = openSecondPlaces({
    home: home.path,
    folders: options.copies,
    memoryCounts: options.memoryCounts,
    keep,
    newId: () => randomUUID(),
    say: (finding) => log(finding.code === 'copy.over' ? 'info' : 'warn', finding),
    original: (file, trouble) => badOriginals.found(file, trouble, now()),
  });
  closers.add(() => places.close());
  late.places = places;
  const register = await openRegister(home.register);
  closers.add(() => register.close());
  const expectations = new Expectations();
  const clocks = new CameraClocks();
  // Known once the register has caught up, which it does before anybody can ask.
  const known: { jobs: JobBook | null; looks: LookBook | null } = { jobs: null, looks: null };
  const book = await FrameBook.open(register, keep, {
    expects: (camera, keptMs) => expectations.at(camera, keptMs),
    original: (arrival) => badOriginals.of(arrival),
    fromFolder: (arrival) => keep.cameBy(arrival) === 'folder',
    copyIsBad: (arrival, place) => badCopies.has(arrival, place),
    limits: (row) => ({
      ...limitsOfFrame(known.jobs?.jobs() ?? new Map(), known.looks?.looks() ?? new Map(), row),
      rowTimeUs: roster.find(row.camera)?.rowTimeUs ?? null,
    }),
    now,
  });
  closers.add(() => book.close());
  const jobs = await JobBook.load(keep, register, currentJob);
  known.jobs = jobs;
  const looks = await LookBook.load(keep, register);
  known.looks = looks;
  const diary = await Diary.open(home.path, now, (thrown) => log('warn', describeTrouble(thrown)));
  closers.add(() => diary.close());
  const cameraLog = new CameraLog(now, diary);
  cameraLog.recall((await readDiary(home.path, { limit: recalledLines })).lines);
  const line = await LineWatch.open({
    home: home.path,
    now,
    failed: (thrown) => log('warn', describeTrouble(thrown)),
  });
  closers.add(() => line.close());
  closers.add(keep.on((event) => line.hear(event)));
  const changedAddress = (camera: string): Finding | null =>
    line.changedFor(
      camera,
      ownAddresses().map(({ address }) => address),
    );
  const { silentAfterMs, watches: wishes } = options;
  const clockReadings = new ClockReadings();
  const parts = {
    ...{ roster, log: cameraLog, keep, register, expectations, clocks, clockReadings },
    watches: wishes,
    silentAfterMs,
    changedAddress,
    now,
  };
  const cameraBook = await CameraBook.load(parts);
  return {
    home,
    roster,
    keep,
    places,
    badOriginals,
    badCopies,
    register,
    watches,
    book,
    jobs,
    looks,
    cameraLog,
    line,
    cameraBook,
    expectations,
    clocks,
    clockReadings,
    acts: new ActBook(now, randomUUID),
    inTurn: oneAtATime(),
  };
}
