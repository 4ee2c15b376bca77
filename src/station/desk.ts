import { statfs } from 'node:fs/promises';
import type { RootCertificate } from '../authority/index.ts';
import { epochMsToRfc3339, legibleName } from '../base/index.ts';
import type {
  BrokenArrival,
  CameraEntry,
  CameraPatch,
  DiaryPage,
  NewCamera,
  Station,
} from '../contract/index.ts';
import type { Keep, SecondPlaces } from '../keep/index.ts';
import type { Register } from '../register/index.ts';
import type { EventLog, FrameQuery, LinkCalls, StationDesk } from '../serve/index.ts';
import type { SightPool } from '../workers/index.ts';
import type { BadOriginals } from './bad-originals.ts';
import type { Bags } from './bags/bags.ts';
import type { CameraBook } from './cameras/camera-book.ts';
import { type CameraClocks, retimeFrames } from './cameras/camera-clocks.ts';
import { cameraSheet } from './cameras/camera-sheet.ts';
import { type DiaryQuery, readDiary } from './cameras/diary.ts';
import { createClientDesk } from './client-desk.ts';
import type { Deliveries } from './deliveries/deliveries.ts';
import { DestinationBook } from './destinations/destination-book.ts';
import { createDestinationDesk } from './destinations/destination-desk.ts';
import type { Developing } from './developing.ts';
import type { FirstViews } from './first-views.ts';
import type { FrameBook } from './frame-book.ts';
import { createFrameDesk } from './frame-desk.ts';
import type { FrameFlow } from './frame-flow.ts';
import { momentOrNull } from './frame-shape.ts';
import { cardNumbers } from './hand-over/card-numbers.ts';
import type { Cards } from './hand-over/cards.ts';
import { puttingBack } from './hand-over/put-back.ts';
import type { Verifying } from './hand-over/verifying.ts';
import { aboutShot } from './jobs/about-shot.ts';
import type { ActBook } from './jobs/act-book.ts';
import type { JobBook } from './jobs/job-book.ts';
import { createJobDesk } from './jobs/job-desk.ts';
import { jobShape } from './jobs/job-shape.ts';
import { createLayoutDesk } from './jobs/layouts.ts';
import { createScaleDesk } from './jobs/scale-desk.ts';
import { createStrikeDesk } from './jobs/strike-desk.ts';
import type { StrikeSources } from './jobs/strike-input.ts';
import { createTargetDesk } from './jobs/target-desk.ts';
import type { LineWatch } from './line/line-watch.ts';
import { announcedBeyond } from './live-arrivals.ts';
import type { LookBook } from './looks/look-book.ts';
import { createLookDesk } from './looks/look-desk.ts';
import { lookShape } from './looks/look-shape.ts';
import type { Tries } from './looks/tries.ts';
import { tryLook } from './looks/try-look.ts';
import { SheetBook } from './metadata/sheet-book.ts';
import { createPaperDesk } from './papers/paper-desk.ts';
import { firstView, original, picture, shownFile } from './picture-desk.ts';
import { frameReadings } from './readings/readings-desk.ts';
import type { Regions } from './regions.ts';
import { type AgreementDeskOptions, createAgreementDesk } from './remarks/agreement-desk.ts';
import { createRemarkDesk } from './remarks/remark-desk.ts';
import { wordsOnShots } from './remarks/words-on-shots.ts';
import type { Renderings } from './renderings.ts';
import type { Scenes } from './scenes.ts';
import type { SlateWatch } from './slates/slate-watch.ts';
import type { InTurn } from './turn.ts';
import { unlessGone } from './unless-gone.ts';

export interface DeskOptions {
  /** What cameras import; null where the station has none. */
  readonly root: RootCertificate | null;
  readonly homePath: string;
  /** With less than this free, new frames are refused. */
  readonly diskFloorBytes: number;
  readonly keep: Keep;
  readonly book: FrameBook;
  readonly flow: FrameFlow;
  readonly jobs: JobBook;
  readonly looks: LookBook;
  readonly acts: ActBook;
  readonly inTurn: InTurn;
  readonly slates: Pick<SlateWatch, 'tellBy'>;
  readonly register: Pick<Register, 'countFrames' | 'readingDetail' | 'litFrames' | 'litFrame'>;
  readonly clocks: CameraClocks;
  readonly cameras: CameraBook;
  readonly views: FirstViews;
  readonly renderings: Renderings;
  readonly developing: Pick<Developing, 'readTarget'>;
  readonly regions: Regions;
  readonly scenes: Scenes;
  readonly tries: Tries;
  readonly deliveries: Deliveries;
  readonly cards: Cards;
  readonly verifying: Verifying;
  readonly badOriginals: BadOriginals;
  readonly places: Pick<SecondPlaces, 'originalsRead'>;
  readonly bags: Bags;
  readonly sight: SightPool;
  readonly line: Pick<LineWatch, 'check' | 'rehearsed'>;
  readonly linkCalls: LinkCalls;
  readonly words: AgreementDeskOptions['words'];
  readonly events: EventLog;
  /** The station as it is now; disk, time and what lies in `incoming/` are filled in here. */
  readonly describe: (asOperator: boolean) => Omit<Station, 'now' | 'disk' | 'incoming'>;
  readonly now: () => number;
}

/** What the web door asks, answered by the rooms: contract shapes out, no decision of its own. */
export function createDesk(options: DeskOptions): StationDesk {
  const { book, events, inTurn } = options;
  const sheets = new SheetBook(options.homePath);
  const tell = (code: string, anew = false): Promise<void> => tellOfJob(options, code, anew);
  options.looks.onNews(({ change, look }) => events.publish({ type: 'look', change, look: lookShape(look) }));
  options.slates.tellBy({ job: tell, station: () => tellStation(options) });
  const strike: Pick<StrikeSources, 'agreements' | 'secondPlaces' | 'cardNumbers'> = {
    cardNumbers: () => cardNumbers(options.keep),
    agreements: (job) => wordsOnShots(book, options.jobs.job(job)),
    secondPlaces: () =>
      options.describe(false).secondPlaces.filter(({ otherDevice }) => otherDevice !== false).length,
  };
  const shown: StationDesk['picture'] = (id, query) =>
    unlessGone(picture(options, id, query), () => shownFile(options, id));
  return {
    ...createJobDesk({ ...options, tell }),
    ...createFrameDesk(options),
    ...createRemarkDesk(options),
    ...createAgreementDesk({ ...options, tell }),
    ...createTargetDesk({ ...options, tell, readTarget: (frame) => options.developing.readTarget(frame) }),
    ...createLookDesk({ ...options, tell }),
    tryLook: (id, wish, signal) =>
      unlessGone(tryLook(options, id, wish, signal), () => shownFile(options, id)),
    ...createScaleDesk({ ...options, tell }),
    ...createStrikeDesk({ ...options, ...strike, tell }),
    ...createPaperDesk({
      ...options,
      ...strike,
      cameras: () => options.describe(false).cameras,
      picture: shown,
    }),
    ...createLayoutDesk({
      ...options,
      picture: (id, query) => picture(options, id, query),
      aboutShot: (code, shot, by, choose) =>
        inTurn(() => aboutShot({ ...options, tell }, code, shot, by, choose)),
    }),
    ...createClientDesk({ book, jobs: options.jobs, events }),
    deliveries: async (job) => options.deliveries.list(job),
    delivery: async (id) => options.deliveries.delivery(id),
    planDelivery: (wish) => options.deliveries.plan(wish),
    deliver: (wish) => options.deliveries.begin(wish),
    cards: () => options.cards.desk(),
    checkCard: (folder) => options.cards.begin(folder),
    tellCard: (outcome) => options.cards.told(outcome),
    stopCard: () => options.cards.stop(),
    takeInCard: (camera) => options.cards.takeIn(camera),
    bags: () => options.bags.desk(),
    makeBag: (job, folder) => options.bags.make(job, folder),
    checkBag: (folder) => options.bags.check(folder),
    stopBag: () => options.bags.stop(),
    verification: async () => options.verifying.state(),
    setVerification: (state) => options.verifying.become(state),
    putOriginalsBack: puttingBack(options),
    changeDelivery: (id, change) => options.deliveries.change(id, change),
    ...createDestinationDesk(new DestinationBook(options.homePath), (name) =>
      options.deliveries.goesTo(name),
    ),
    metadataSheets: () => sheets.all(),
    keepMetadataSheet: (sheet) => sheets.keep(sheet),
    forgetMetadataSheet: (title) => sheets.forget(title),
    bringMetadataSheetBack: (title) => sheets.bringBack(title),
    ...options.linkCalls,
    events,
    station: (asOperator) => station(options, asOperator),
    addCamera: (camera) => inTurn(() => addCamera(options, camera)),
    patchCamera: (name, patch) => inTurn(() => patchCamera(options, name, patch)),
    diary: (query) => diary(options, query),
    lineCheck: () => options.line.check(),
    rehearsed: (device) => options.line.rehearsed(device),
    frames: (query) => book.page(framesQuery(query)),
    frame: (id) => book.frame(id),
    readings: (id) => frameReadings(options, id),
    firstView: (id) => firstView(options, id),
    picture: shown,
    region: (id, query, signal) =>
      unlessGone(options.regions.answer(id, query, signal), () => shownFile(options, id)),
    scene: (id, query, signal) =>
      unlessGone(options.scenes.answer(id, query, signal), () => shownFile(options, id)),
    original: (id, name) => original(options, id, name),
    rootCertificate: () => options.root,
    cameraSheet: async (camera) => {
      const { cameras, mayEnter, mdns } = await options.line.check();
      const enter = cameras.find(({ name }) => name === camera)?.enter ?? null;
      return cameraSheet(camera, options.describe(true), { enter, mayEnter, mdns }, options.now());
    },
    brokenArrivals: async () => brokenArrivals(options.keep),
    letGo: (arrival) => letGo(options, arrival),
  };
}

async function station(
  { homePath, diskFloorBytes, describe, keep, now }: DeskOptions,
  asOperator: boolean,
): Promise<Station> {
  const disk = await statfs(homePath);
  const incoming = await keep.heldInIncoming();
  return {
    ...describe(asOperator),
    now: epochMsToRfc3339(now()),
    disk: {
      freeBytes: disk.bavail * disk.bsize,
      totalBytes: disk.blocks * disk.bsize,
      floorBytes: diskFloorBytes,
    },
    incoming: incoming.map((held) => ({ ...held })),
  };
}

function framesQuery({
  job,
  shot,
  camera,
  mark,
  order,
  after,
  limit,
}: FrameQuery): Parameters<FrameBook['page']>[0] {
  return {
    limit,
    ...(job === undefined ? {} : { job }),
    ...(shot === undefined ? {} : { shot }),
    ...(camera === undefined ? {} : { camera }),
    ...(mark === undefined ? {} : { mark }),
    ...(order === 'newest' ? { newestFirst: true } : {}),
    ...(after === undefined ? {} : { after }),
  };
}

/** The open job is a part of the station. */
async function tellOfJob(options: DeskOptions, code: string, anew: boolean): Promise<void> {
  const job = options.jobs.job(code);
  options.events.publish({ type: 'job', code, job: job === null ? null : jobShape(job) });
  await tellStation(options);
  // Each page shows other frames than the next: it loads what it shows.
  if (!anew) return;
  options.events.publish({ type: 'resync' });
  // In the background: a job may have thousands of frames. Where the register refuses, the next start looks again.
  options.book.heedRenderings(code).catch(() => {});
}

async function diary({ homePath }: DeskOptions, query: DiaryQuery): Promise<DiaryPage> {
  const { lines, next } = await readDiary(homePath, query);
  return {
    lines: lines.map((line) => ({ ...line, finding: { ...line.finding, args: { ...line.finding.args } } })),
    next,
  };
}

/** Every listener hears the same, and a stream is remembered: nobody's passwords. The operator's page asks for them. */
async function tellStation(options: DeskOptions): Promise<void> {
  options.events.publish({ type: 'line', station: await station(options, false) });
}

/** Told as a part of the station. */
async function addCamera(options: DeskOptions, camera: NewCamera): Promise<CameraEntry> {
  const entry = await options.cameras.add(camera);
  await tellStation(options);
  return entry;
}

/** The change is told as the station is told, since a camera is a part of it; verdicts may change with it. */
async function patchCamera(
  options: DeskOptions,
  name: string,
  patch: CameraPatch,
): Promise<CameraEntry | null> {
  const entry = await options.cameras.change(name, patch);
  if (entry === null) return null;
  await tellStation(options);
  if (patch.clock !== undefined) await retimeFrames(options.book, options.clocks, name);
  if (patch.expects !== undefined || patch.clock !== undefined) options.events.publish({ type: 'resync' });
  return entry;
}

function brokenArrivals(keep: Keep): BrokenArrival[] {
  return keep.brokenOff().map((file) => ({
    id: file.arrival,
    camera: file.camera,
    name: legibleName(file.name),
    frame: file.frame,
    size: file.sizeBytes,
    expectedSize: file.expectedBytes ?? announcedBeyond(file.announcedBytes, file.sizeBytes + 1),
    brokenOff: momentOrNull(file.lastByteMs ?? file.atMs) ?? epochMsToRfc3339(0),
  }));
}

async function letGo({ keep }: DeskOptions, arrival: string): Promise<boolean> {
  if (!keep.brokenOff().some((file) => file.arrival === arrival)) return false;
  await keep.letGo(arrival);
  return true;
}
