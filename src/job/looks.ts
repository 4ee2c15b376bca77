import { type EpochMs, SetsideError } from '../base/index.ts';
import { canonicalJson, type Json, type Look, lookHash } from '../look/index.ts';
import type { Job, Shot } from './job.ts';
import { looksMax } from './limits.ts';

/** What people decide about looks. A version that was saved is never changed and never removed. */
export type LookChoice =
  /** A version was saved, or is saved again just as it is and no longer laid aside. */
  | ({ readonly type: 'look-saved'; readonly look: string } & SavedLook)
  /** Laid aside it is offered to nobody; whatever it was chosen for keeps it. */
  | { readonly type: 'look-aside-set'; readonly look: string; readonly aside: boolean };

export interface SavedLook {
  /** As people wrote it; looks of one name, written large or small, are versions of one look. */
  readonly name: string;
  /** 1, 2, 3 … among those of one name. */
  readonly version: number;
  /** SHA-256 of what it does (`lookHash`); two versions that differ by their descriptions have the same. */
  readonly hash: string;
  /** The whole document, as it was then. */
  readonly document: LookDocument;
  readonly by: string;
}

/** JSON of a look; an older one than today's is read by `readLook`. */
export type LookDocument = Readonly<Record<string, unknown>>;

/** A version that is kept. */
export interface KeptLook {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly hash: string;
  readonly document: Look;
  readonly savedMs: EpochMs;
  readonly savedBy: string;
  readonly laidAside: boolean;
}

/** Every version that was ever saved, by its id, the oldest first. */
export type Looks = ReadonlyMap<string, KeptLook>;

/** What two writings of one name have in common: looks are named by hand, in lists too. */
export function lookNameKey(name: string): string {
  return name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();
}

/** The versions of a name, the newest first, those laid aside among them. */
export function versionsOfName(looks: Looks, name: string): readonly KeptLook[] {
  const key = lookNameKey(name);
  return [...looks.values()]
    .filter((each) => lookNameKey(each.name) === key)
    .sort((a, b) => b.version - a.version);
}

/** The newest version of a name that is not laid aside, or null. */
export function newestOfName(looks: Looks, name: string): KeptLook | null {
  return versionsOfName(looks, name).find(({ laidAside }) => !laidAside) ?? null;
}

/** Throws `no-such-look`. */
export function knownLook(looks: Looks, id: string): KeptLook {
  const look = looks.get(id);
  if (look === undefined) throw new SetsideError('no-such-look', `no look of id ${id} is kept`);
  return look;
}

/**
 * What saving a document under its title means: the same document under the same name is the version that is there (put
 * back where it was laid aside), any other the next version. Throws `too-many-looks`, `bad-words`.
 */
export function planLookSaved(
  looks: Looks,
  document: Look,
  by: string,
  newId: () => string,
): { readonly look: string; readonly choices: readonly LookChoice[] } {
  // A name stands in lists and in lines at a terminal.
  if (/\p{Cc}/u.test(document.title))
    throw new SetsideError('bad-words', 'a control character in the name of a look');
  const versions = versionsOfName(looks, document.title);
  const text = canonicalJson(document as Json);
  const same = versions.find((each) => canonicalJson(each.document as Json) === text);
  if (same !== undefined) {
    const back: LookChoice = { type: 'look-aside-set', look: same.id, aside: false };
    return { look: same.id, choices: same.laidAside ? [back] : [] };
  }
  if (looks.size >= looksMax)
    throw new SetsideError('too-many-looks', `${looks.size} versions of looks are kept already`);
  const look = newId();
  const version = (versions[0]?.version ?? 0) + 1;
  const saved = { name: document.title, version, hash: lookHash(document), document, by };
  return { look, choices: [{ type: 'look-saved', look, ...saved }] };
}

/** None where it is so already. Throws `no-such-look`. */
export function planLookAside(looks: Looks, look: string, aside: boolean): LookChoice[] {
  return knownLook(looks, look).laidAside === aside ? [] : [{ type: 'look-aside-set', look, aside }];
}

/** A look as a job or a shot names it: a word, and the version that was chosen of it. */
export interface NamedLook {
  readonly look: string | null;
  readonly lookId?: string;
}

/** The same without the chosen version where another look is named. */
export function withoutStaleLook<Holder extends NamedLook>(
  holder: Holder,
  change: Partial<NamedLook>,
): Holder {
  const { look } = change;
  if (look === undefined || lookNameKey(look ?? '') === lookNameKey(holder.look ?? '')) return holder;
  const { lookId: _lookId, ...rest } = holder;
  // Only a member that may be left out is left out.
  return rest as Holder;
}

/** Which look a frame is shown with. */
export interface LookInForce {
  /** A saved version; null for the station's plain look. */
  readonly id: string | null;
  /** The name of a look that was asked for and is not kept; null where none is missing. */
  readonly wish: string | null;
  /** Who named it: the frame itself, its shot, its job, or nobody. */
  readonly from: 'frame' | 'shot' | 'job' | 'station';
}

/** The frame's own before its shot's before its job's. A wish that nothing meets stands in its place all the same. */
export function lookInForce(
  job: Pick<Job, 'handOver'> | null,
  shot: Pick<Shot, 'look' | 'lookId'> | null,
  own: string | null,
): LookInForce {
  if (own !== null) return { id: own, wish: null, from: 'frame' };
  if (shot !== null && shot.look !== null) return namedInForce(shot, 'shot');
  const handOver = job?.handOver ?? null;
  if (handOver !== null && handOver.look !== null) return namedInForce(handOver, 'job');
  return { id: null, wish: null, from: 'station' };
}

function namedInForce({ look, lookId }: NamedLook, from: 'shot' | 'job'): LookInForce {
  return lookId === undefined ? { id: null, wish: look, from } : { id: lookId, wish: null, from };
}
