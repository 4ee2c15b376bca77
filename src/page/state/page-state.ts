import { exhaustive } from '../../base/index.ts';
import type {
  ActEntry,
  ClientScreen,
  Frame,
  Job,
  Station,
  StationEvent,
  ToldAct,
} from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import {
  type FrameList,
  frameListOf,
  noFrames,
  onlyFrames,
  withFrame,
  withFrames,
  withoutFrame,
} from './frame-list.ts';
import { type HandOverNews, noHandOverNews, withDelivery } from './hand-over-news.ts';
import { withJob } from './job-list.ts';
import { shownFrame } from './shown-frame.ts';

/** How the page stands with the station. `lost` keeps showing what was known. */
export type Link =
  | { readonly state: 'connecting' }
  | { readonly state: 'live' }
  | { readonly state: 'lost'; readonly sinceMs: number }
  | { readonly state: 'not-understood' }
  /** The link this device came in by has ended. */
  | { readonly state: 'shut-out' };

/** Everything that decides what the page shows; nothing else does. */
export interface PageState {
  readonly link: Link;
  readonly station: Station | null;
  readonly frames: FrameList;
  /** Whether every frame is known; until then only the newest are, and earlier ones are coming. */
  readonly allFrames: boolean;
  /** The newest opened first; null while they are not known. */
  readonly jobs: readonly Job[] | null;
  /** What can be taken back, the newest first; null while it is not known. */
  readonly acts: readonly ActEntry[] | null;
  /** Who did what that is not taken back from here, the newest first. */
  readonly told: readonly ToldAct[];
  /** What the clients of jobs are shown, by code; a job that is not here shows its newest picture. */
  readonly client: ReadonlyMap<string, ClientScreen>;
  /** Rises when a look was saved, laid aside or put back, or may have been: who shows looks asks for them again. */
  readonly looksSeen: number;
  readonly handOver: HandOverNews;
  /** The frame somebody asked to see; null while the page follows the newest. */
  readonly chosen: string | null;
  /** The verdict that lies open. */
  readonly open: Question | null;
  readonly farView: boolean;
  readonly dimSurround: boolean;
  /** Whether a delivery's mask lies over the picture. */
  readonly deliveryMask: boolean;
  readonly letterKeys: boolean;
  readonly card: Card | null;
}

/** What lies over the page. `frame` and `move` speak of the frame that is shown. */
export type Card =
  | 'camera-sheet'
  | 'links'
  | 'keys'
  | 'sound'
  | 'frame'
  | 'move'
  | 'remarks'
  | 'tray'
  | { readonly shot: string };

export type PageAction =
  /** A guest is told nothing of the station. */
  | {
      readonly type: 'loaded';
      readonly station: Station | null;
      readonly frames: readonly Frame[];
      /** Only the newest: what is known beside them stays until `all-loaded`. */
      readonly more?: boolean;
    }
  /** Earlier pages of the listing, as it is now. */
  | { readonly type: 'earlier-loaded'; readonly frames: readonly Frame[] }
  /** The listing was read to its end: these and no others are there. */
  | { readonly type: 'all-loaded'; readonly ids: ReadonlySet<string> }
  | { readonly type: 'station-seen'; readonly station: Station }
  | { readonly type: 'jobs-loaded'; readonly jobs: readonly Job[] }
  | { readonly type: 'acts-seen'; readonly acts: readonly ActEntry[]; readonly told: readonly ToldAct[] }
  | { readonly type: 'hand-over-loaded'; readonly news: HandOverNews }
  | { readonly type: 'client-loaded'; readonly screens: readonly ClientScreen[] }
  | { readonly type: 'event'; readonly event: StationEvent }
  | { readonly type: 'lost'; readonly atMs: number }
  | { readonly type: 'not-understood' }
  | { readonly type: 'choose'; readonly id: string }
  | { readonly type: 'step'; readonly by: -1 | 1 }
  | { readonly type: 'to-first' }
  | { readonly type: 'to-newest' }
  | { readonly type: 'open'; readonly question: Question | null }
  | { readonly type: 'switch'; readonly what: 'farView' | 'dimSurround' | 'deliveryMask' | 'letterKeys' }
  | { readonly type: 'card'; readonly card: Card | null }
  /** A card may close late, when its call is answered: the one that was opened meanwhile stays. */
  | { readonly type: 'card-closed'; readonly card: Card };

export const firstState: PageState = {
  link: { state: 'connecting' },
  station: null,
  frames: noFrames,
  allFrames: false,
  jobs: null,
  acts: null,
  told: [],
  client: new Map(),
  looksSeen: 0,
  handOver: noHandOverNews,
  chosen: null,
  open: null,
  farView: false,
  dimSurround: false,
  deliveryMask: false,
  letterKeys: true,
  card: null,
};

export function reducePage(state: PageState, action: PageAction): PageState {
  switch (action.type) {
    case 'loaded':
      return stillChosen({
        ...state,
        link: { state: 'live' },
        station: action.station,
        looksSeen: state.looksSeen + 1,
        frames: action.more === true ? withFrames(state.frames, action.frames) : frameListOf(action.frames),
        allFrames: action.more !== true || state.allFrames,
      });
    case 'earlier-loaded':
      return { ...state, frames: withFrames(state.frames, action.frames) };
    case 'all-loaded':
      return stillChosen({ ...state, frames: onlyFrames(state.frames, action.ids), allFrames: true });
    case 'station-seen':
      return { ...state, station: action.station };
    case 'jobs-loaded':
      return { ...state, jobs: action.jobs };
    case 'acts-seen':
      return { ...state, acts: action.acts, told: action.told };
    case 'hand-over-loaded':
      return { ...state, handOver: action.news };
    case 'client-loaded':
      return { ...state, client: new Map(action.screens.map((screen) => [screen.job, screen])) };
    case 'event':
      return afterEvent(state, action.event);
    case 'lost':
      return state.link.state === 'lost'
        ? state
        : { ...state, link: { state: 'lost', sinceMs: action.atMs } };
    case 'not-understood':
      return { ...state, link: { state: 'not-understood' } };
    case 'choose':
      return choose(state, action.id);
    case 'step':
      return step(state, action.by);
    case 'to-first':
      return choose(state, state.frames.order[0] ?? null);
    case 'to-newest':
      return { ...state, chosen: null };
    case 'open':
      return { ...state, open: state.open === action.question ? null : action.question };
    case 'switch':
      return { ...state, [action.what]: !state[action.what] };
    case 'card':
      return { ...state, card: action.card };
    case 'card-closed':
      return state.card === action.card ? { ...state, card: null } : state;
    default:
      return exhaustive(action);
  }
}

function afterEvent(state: PageState, event: StationEvent): PageState {
  switch (event.type) {
    case 'arrival':
      return event.change === 'let-go' && nothingIsLeft(event.frame)
        ? stillChosen({ ...state, frames: withoutFrame(state.frames, event.frame.id) })
        : { ...state, frames: withFrame(state.frames, event.frame) };
    case 'frame':
    case 'copy':
      return { ...state, frames: withFrame(state.frames, event.frame) };
    case 'line':
      return { ...state, station: withPasswords(event.station, state.station) };
    case 'shut-out':
      return { ...state, link: { state: 'shut-out' } };
    case 'job':
      return { ...state, jobs: withJob(state.jobs ?? [], event.code, event.job) };
    case 'client':
      return { ...state, client: new Map(state.client).set(event.screen.job, event.screen) };
    case 'look':
      return { ...state, looksSeen: state.looksSeen + 1 };
    case 'delivery':
      return { ...state, handOver: withDelivery(state.handOver, event.delivery) };
    case 'papers': {
      const papers = new Map(state.handOver.papers).set(event.job, event.contactSheets);
      return { ...state, handOver: { ...state.handOver, papers } };
    }
    case 'card':
      return { ...state, handOver: { ...state.handOver, card: event.check } };
    case 'bag':
      return { ...state, handOver: { ...state.handOver, bag: event.work } };
    case 'verification':
      return { ...state, handOver: { ...state.handOver, verification: event.verification } };
    // Of a guest's page, which holds them itself.
    case 'agreements':
    case 'resync':
      return state;
    default:
      return exhaustive(event);
  }
}

/** Events tell no passwords: those that are known stay until the station is asked again. */
function withPasswords(station: Station, known: Station | null): Station {
  const passwords = new Map(known?.cameras.map(({ name, password }) => [name, password]));
  return {
    ...station,
    cameras: station.cameras.map((camera) => ({
      ...camera,
      password: camera.password ?? passwords.get(camera.name) ?? null,
    })),
  };
}

/** A broken-off file that is let go takes its frame along, unless another file of the frame is kept. */
function nothingIsLeft(frame: Frame): boolean {
  return frame.files.every((file) => file.state === 'broken-off');
}

function stillChosen(state: PageState): PageState {
  const gone = state.chosen !== null && !state.frames.byId.has(state.chosen);
  return gone ? { ...state, chosen: null } : state;
}

/** Choosing the newest frame is the same as following it: the next arrival takes its place. */
function choose(state: PageState, id: string | null): PageState {
  if (id === null || !state.frames.byId.has(id)) return state;
  return { ...state, chosen: id === state.frames.order.at(-1) ? null : id };
}

function step(state: PageState, by: -1 | 1): PageState {
  const shown = shownFrame(state);
  if (shown === null) return state;
  const next = state.frames.order[state.frames.order.indexOf(shown.id) + by];
  return next === undefined ? state : choose(state, next);
}
