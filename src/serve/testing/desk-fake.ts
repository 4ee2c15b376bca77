import { SetsideError } from '../../base/index.ts';
import {
  type BrokenArrival,
  type CameraEntry,
  type CameraPatch,
  type DiaryPage,
  type Frame,
  type FramePatch,
  type FrameReadings,
  type FramesMarked,
  type FramesToMark,
  type FramesToTakeIn,
  type LineCheck,
  type LineRehearsal,
  type LookUse,
  type NewCamera,
  type NewLink,
  plainClientScreen,
} from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { createEventLog, type EventLog, type EventLogOptions } from '../core/event-log.ts';
import type { Share } from '../core/who.ts';
import type { DeliveryWish } from '../delivery-calls.ts';
import type {
  DeviceTry,
  DiaryQuery,
  FirstView,
  FrameQuery,
  Original,
  PictureAnswer,
  PictureQuery,
  RegionAnswer,
  RegionQuery,
  RootCertificate,
  SceneAnswer,
  SceneQuery,
  StationDesk,
} from '../desk.ts';
import type { PatchBy } from '../job-calls.ts';
import { JobCallsFake } from './job-calls-fake.ts';
import { LinkCallsFake } from './link-calls-fake.ts';
import { LookCallsFake } from './look-calls-fake.ts';
import { RemarkCallsFake } from './remark-calls-fake.ts';
import { sampleStation } from './sample-frame.ts';
import { sampleLineCheck } from './sample-line.ts';

/** A desk over plain lists, with what it was asked kept for the test to look at. */
export class DeskFake extends JobCallsFake implements StationDesk {
  readonly events: EventLog;
  /** The calls about links, over a plain list of visitors. */
  readonly linkDesk: LinkCallsFake = new LinkCallsFake();
  /** The calls about looks, over a plain list. */
  readonly lookDesk: LookCallsFake = new LookCallsFake();
  /** The calls about remarks and agreements, over plain lists. */
  readonly remarkDesk: RemarkCallsFake = new RemarkCallsFake(
    (...asked) => this.note(...(asked as [string])),
    (id) => this.frameList.find((frame) => frame.id === id) ?? null,
  );
  readonly frameList: Frame[] = [];
  readonly broken: BrokenArrival[] = [];
  readonly firstViews = new Map<string, FirstView>();
  readonly pictures = new Map<string, PictureAnswer>();
  readonly readingsOf = new Map<string, FrameReadings>();
  readonly regions = new Map<string, RegionAnswer>();
  readonly scenes = new Map<string, SceneAnswer>();
  /** A region waits for this, or for its signal. */
  regionGate: Promise<void> = Promise.resolve();
  /** Called when somebody takes the wish for a region back. */
  regionLeft: () => void = () => undefined;
  /** By `frame id` + `/` + file name. */
  readonly originals = new Map<string, Original>();
  root: RootCertificate | null = null;

  constructor(log: Partial<EventLogOptions> = {}) {
    super();
    this.events = createEventLog({ run: 'run1', ...log });
  }

  remark = (...asked: Parameters<StationDesk['remark']>): ReturnType<StationDesk['remark']> =>
    this.remarkDesk.remark(...asked);
  answerRemark = (
    ...asked: Parameters<StationDesk['answerRemark']>
  ): ReturnType<StationDesk['answerRemark']> => this.remarkDesk.answerRemark(...asked);
  settleRemark = (
    ...asked: Parameters<StationDesk['settleRemark']>
  ): ReturnType<StationDesk['settleRemark']> => this.remarkDesk.settleRemark(...asked);
  clientScreens: StationDesk['clientScreens'] = async () => [plainClientScreen('POTS')];
  showClient: StationDesk['showClient'] = async (change) => {
    this.note('showClient', change);
    return { ...plainClientScreen(change.job), frame: change.frame ?? null };
  };
  agreements = (job: string): ReturnType<StationDesk['agreements']> => this.remarkDesk.agreements(job);
  agree = (...asked: Parameters<StationDesk['agree']>): ReturnType<StationDesk['agree']> =>
    this.remarkDesk.agree(...asked);
  withdrawAgreement = (
    ...asked: Parameters<StationDesk['withdrawAgreement']>
  ): ReturnType<StationDesk['withdrawAgreement']> => this.remarkDesk.withdrawAgreement(...asked);
  links = (): ReturnType<StationDesk['links']> => this.linkDesk.links();
  makeLink = (wish: NewLink): ReturnType<StationDesk['makeLink']> => this.linkDesk.makeLink(wish);
  looks = (all: boolean): ReturnType<StationDesk['looks']> => this.lookDesk.looks(all);
  look = (id: string): ReturnType<StationDesk['look']> => this.lookDesk.look(id);
  saveLook = (...asked: Parameters<StationDesk['saveLook']>): ReturnType<StationDesk['saveLook']> =>
    this.lookDesk.saveLook(...asked);
  layLookAside = (id: string, aside: boolean): ReturnType<StationDesk['layLookAside']> =>
    this.lookDesk.layLookAside(id, aside);
  useLook = (id: string, use: LookUse): ReturnType<StationDesk['useLook']> => this.lookDesk.useLook(id, use);
  tryLook = (...asked: Parameters<StationDesk['tryLook']>): ReturnType<StationDesk['tryLook']> =>
    this.lookDesk.tryLook(...asked);
  endLink = (id: string): Promise<boolean> => this.linkDesk.endLink(id);
  enterLink = (...asked: Parameters<StationDesk['enterLink']>): ReturnType<StationDesk['enterLink']> =>
    this.linkDesk.enterLink(...asked);
  holder = (secret: string): ReturnType<StationDesk['holder']> => this.linkDesk.holder(secret);
  leaveLink = (secret: string): Promise<void> => this.linkDesk.leaveLink(secret);
  onDeviceOut = (listener: (device: string) => void): (() => void) => this.linkDesk.onDeviceOut(listener);
  onLinkEnd = (listener: (link: string) => void): (() => void) => this.linkDesk.onLinkEnd(listener);
  sharedJob = (share: Share): ReturnType<StationDesk['sharedJob']> => this.linkDesk.sharedJob(share);

  async metadataSheets(): ReturnType<StationDesk['metadataSheets']> {
    this.note('metadataSheets');
    return { sheets: [], broken: [] };
  }

  async keepMetadataSheet(
    sheet: Parameters<StationDesk['keepMetadataSheet']>[0],
  ): ReturnType<StationDesk['keepMetadataSheet']> {
    this.note('keepMetadataSheet', sheet.title);
    return { entry: { title: sheet.title, text: JSON.stringify(sheet) }, isNew: true };
  }

  async forgetMetadataSheet(title: string): ReturnType<StationDesk['forgetMetadataSheet']> {
    this.note('forgetMetadataSheet', title);
    return false;
  }

  async bringMetadataSheetBack(title: string): ReturnType<StationDesk['bringMetadataSheetBack']> {
    this.note('bringMetadataSheetBack', title);
    return null;
  }

  async destinations(): ReturnType<StationDesk['destinations']> {
    this.note('destinations');
    return [];
  }

  async putDestination(
    ...[name, place, secret]: Parameters<StationDesk['putDestination']>
  ): ReturnType<StationDesk['putDestination']> {
    this.note('putDestination', name);
    return { destination: { name, place, secret: secret === undefined ? null : 'kept' }, isNew: true };
  }

  async forgetDestination(name: string): ReturnType<StationDesk['forgetDestination']> {
    this.note('forgetDestination', name);
    return false;
  }

  async testDestination(name: string): ReturnType<StationDesk['testDestination']> {
    this.note('testDestination', name);
    return null;
  }

  async deliveries(job: string | undefined): ReturnType<StationDesk['deliveries']> {
    this.note('deliveries', job);
    return [];
  }

  async delivery(id: string): ReturnType<StationDesk['delivery']> {
    this.note('delivery', id);
    return null;
  }

  async deliver({ job }: DeliveryWish): ReturnType<StationDesk['deliver']> {
    this.note('deliver', job);
    throw new SetsideError('no-job', `there is no job ${job}`);
  }

  async planDelivery({ job }: DeliveryWish): ReturnType<StationDesk['planDelivery']> {
    this.note('planDelivery', job);
    return { title: 'Print', files: [], example: null };
  }

  async cards(): ReturnType<StationDesk['cards']> {
    this.note('cards');
    return { folders: [], check: null };
  }

  async checkCard(folder: string): ReturnType<StationDesk['checkCard']> {
    this.note('checkCard', folder);
    throw new SetsideError('card-not-allowed', `${folder} was not named`);
  }

  async tellCard(...asked: Parameters<StationDesk['tellCard']>): ReturnType<StationDesk['tellCard']> {
    this.note('tellCard', asked[0].folder);
    throw new SetsideError('bad-value', 'the fake knows no card');
  }

  async stopCard(): ReturnType<StationDesk['stopCard']> {
    this.note('stopCard');
    return null;
  }

  async takeInCard(camera: string): ReturnType<StationDesk['takeInCard']> {
    this.note('takeInCard', camera);
    throw new SetsideError('no-card-check', 'no card was checked');
  }

  async bags(): ReturnType<StationDesk['bags']> {
    this.note('bags');
    return { places: [], bags: [], work: null };
  }

  async makeBag(job: string, folder: string): ReturnType<StationDesk['makeBag']> {
    this.note('makeBag', job, folder);
    throw new SetsideError('bag-not-allowed', `${folder} lies in no place for bags`);
  }

  async checkBag(folder: string): ReturnType<StationDesk['checkBag']> {
    this.note('checkBag', folder);
    throw new SetsideError('bag-not-allowed', `${folder} lies in no place for bags`);
  }

  async stopBag(): ReturnType<StationDesk['stopBag']> {
    this.note('stopBag');
    return null;
  }

  async verification(): ReturnType<StationDesk['verification']> {
    this.note('verification');
    return { everyDays: 0, dueAt: null, running: null, last: null };
  }

  setVerification(state: string): ReturnType<StationDesk['verification']> {
    this.note('setVerification', state);
    return this.verification();
  }

  async putOriginalsBack(
    ...asked: Parameters<StationDesk['putOriginalsBack']>
  ): ReturnType<StationDesk['putOriginalsBack']> {
    this.note('putOriginalsBack', ...asked);
    return { originals: [] };
  }

  async changeDelivery(
    ...asked: Parameters<StationDesk['changeDelivery']>
  ): ReturnType<StationDesk['changeDelivery']> {
    this.note('changeDelivery', ...asked);
    return null;
  }

  /** Parts of a contact sheet, and whether they were let go. */
  contactParts: readonly Uint8Array[] = [
    new TextEncoder().encode('%PDF-'),
    new TextEncoder().encode('%%EOF'),
  ];
  contactLetGo = false;

  async contactSheet(
    ...asked: Parameters<StationDesk['contactSheet']>
  ): ReturnType<StationDesk['contactSheet']> {
    this.note('contactSheet', ...asked);
    if (!this.jobList.some(({ code }) => code === asked[0])) return null;
    return { frames: 2, pages: 1, parts: this.#contactParts() };
  }

  async *#contactParts(): AsyncGenerator<Uint8Array> {
    try {
      yield* this.contactParts;
    } finally {
      this.contactLetGo = true;
    }
  }

  async papersUnderWay(job: string): ReturnType<StationDesk['papersUnderWay']> {
    this.note('papersUnderWay', job);
    const underWay = { frames: 20, done: 3, started: '2026-11-30T09:00:00.000Z' };
    return this.jobList.some(({ code }) => code === job) ? [underWay] : null;
  }

  async jobReport(...asked: Parameters<StationDesk['jobReport']>): ReturnType<StationDesk['jobReport']> {
    this.note('jobReport', ...asked);
    return this.jobList.some(({ code }) => code === asked[0]) ? new TextEncoder().encode('%PDF-') : null;
  }

  async jobReportData(job: string): ReturnType<StationDesk['jobReportData']> {
    this.note('jobReportData', job);
    return null;
  }

  async station(asOperator: boolean): ReturnType<StationDesk['station']> {
    this.note('station', asOperator);
    return sampleStation(asOperator);
  }

  async rehearsed(device: DeviceTry): Promise<LineRehearsal> {
    this.note('rehearsed', device);
    return { bytes: device.bytes, seconds: device.ms / 1000, findings: [] };
  }

  async lineCheck(): Promise<LineCheck> {
    this.note('lineCheck');
    return sampleLineCheck;
  }

  rootCertificate(): RootCertificate | null {
    this.note('rootCertificate');
    return this.root;
  }

  /** Of `cam1` alone. */
  async cameraSheet(camera: string): Promise<Uint8Array | null> {
    this.note('cameraSheet', camera);
    return camera === 'cam1' ? Buffer.from('%PDF-1.7') : null;
  }

  async addCamera(camera: NewCamera): Promise<CameraEntry> {
    this.note('addCamera', camera);
    const [sample] = sampleStation(true).cameras;
    if (sample === undefined) throw new Error('the sample has a camera');
    return { ...sample, name: camera.name, allow: camera.allow ?? [] };
  }

  async diary(query: DiaryQuery): Promise<DiaryPage> {
    this.note('diary', query);
    return { lines: [], next: null };
  }

  async patchCamera(name: string, patch: CameraPatch): Promise<CameraEntry | null> {
    this.note('patchCamera', name, patch);
    const camera = sampleStation(true).cameras.find((entry) => entry.name === name);
    return camera === undefined ? null : { ...camera, expects: patch.expects ?? camera.expects };
  }

  async frames(query: FrameQuery): ReturnType<StationDesk['frames']> {
    this.note('frames', query);
    const start = query.after === undefined ? 0 : Number(query.after);
    if (!Number.isInteger(start)) throw new SetsideError('bad-cursor', `unknown cursor ${query.after}`);
    const frames = this.frameList.slice(start, start + query.limit);
    const end = start + frames.length;
    return { frames, next: end < this.frameList.length ? String(end) : null };
  }

  async frame(id: string): Promise<Frame | null> {
    this.note('frame', id);
    return this.frameList.find((frame) => frame.id === id) ?? null;
  }

  async readings(id: string): Promise<FrameReadings | null> {
    this.note('readings', id);
    return this.readingsOf.get(id) ?? null;
  }

  async patchFrame(id: string, { look: _look, ...patch }: FramePatch, by: PatchBy): Promise<Frame | null> {
    this.note('patchFrame', id, patch, by);
    const index = this.frameList.findIndex((frame) => frame.id === id);
    const frame = this.frameList[index];
    if (frame === undefined) return null;
    if (by.ifVersion !== 'any' && !by.ifVersion.includes(frame.version)) {
      throw new SetsideError('version-changed', `frame ${id} is at version ${frame.version}`);
    }
    // What is left out of a patch is not there.
    const changed = { ...frame, ...(patch as Partial<Frame>), version: frame.version + 1 };
    this.frameList[index] = changed;
    return changed;
  }

  async takeIn(job: string, wish: FramesToTakeIn): Promise<number | null> {
    this.note('takeIn', job, wish);
    return this.jobList.some(({ code }) => code === job) ? wish.frames.length : null;
  }

  async markFrames(wish: FramesToMark): Promise<FramesMarked> {
    this.note('markFrames', wish);
    return { marked: wish.frames.length, meanwhile: [] };
  }

  async accept(id: string, question: Question, _acceptance: unknown, by: PatchBy): Promise<Frame | null> {
    this.note('accept', id, question, _acceptance, by);
    return this.frameList.find((frame) => frame.id === id) ?? null;
  }

  async firstView(id: string): Promise<FirstView | null> {
    this.note('firstView', id);
    return this.firstViews.get(id) ?? null;
  }

  async picture(id: string, query: PictureQuery): Promise<PictureAnswer | null> {
    this.note('picture', id, query);
    return this.pictures.get(id) ?? null;
  }

  async scene(id: string, query: SceneQuery): Promise<SceneAnswer | null> {
    this.note('scene', id, query);
    return this.scenes.get(id) ?? null;
  }

  async region(id: string, query: RegionQuery, signal: AbortSignal): Promise<RegionAnswer | null> {
    this.note('region', id, query);
    await Promise.race([
      this.regionGate,
      new Promise((_, reject) =>
        signal.addEventListener('abort', () => {
          this.regionLeft();
          reject(signal.reason);
        }),
      ),
    ]);
    return this.regions.get(id) ?? null;
  }

  async original(id: string, fileName: string): Promise<Original | null> {
    this.note('original', id, fileName);
    return this.originals.get(`${id}/${fileName}`) ?? null;
  }

  async brokenArrivals(): Promise<readonly BrokenArrival[]> {
    this.note('brokenArrivals');
    return this.broken;
  }

  async letGo(arrivalId: string): Promise<boolean> {
    this.note('letGo', arrivalId);
    const index = this.broken.findIndex((arrival) => arrival.id === arrivalId);
    if (index >= 0) this.broken.splice(index, 1);
    return index >= 0;
  }
}
