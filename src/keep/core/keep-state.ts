import type { EpochMs } from '../../base/index.ts';
import { keptFile, nextPhase, type PhaseRecord } from './arrival-phase.ts';
import type { Again, Announced, Kept, KeptFile } from './arrival-records.ts';
import type { CardChecked } from './card-records.ts';
import { ChosenLately } from './chosen-lately.ts';
import type { Renamed } from './folder-records.ts';
import { type FileNode, FolderTree, filesBelow } from './folder-tree.ts';
import { FramePairing } from './frame-pairing.ts';
import { KeptByHash } from './kept-by-hash.ts';
import { announcedArrival, announcementOf, isOpen, type KnownArrival } from './known-arrival.ts';
import type { JournalRecord, Stamp } from './records.ts';

/** Checks that are remembered: the cards of a long week. */
const cardChecksMax = 200;

/**
 * Everything the journal says, as it stands after the last record: the arrivals and each camera's folder. A pure
 * function of the records, written as a fold that changes itself in place, since a home has tens of thousands of them.
 */
export class KeepState {
  readonly arrivals: Map<string, KnownArrival> = new Map();
  readonly pairing: FramePairing = new FramePairing();
  readonly chosenLately: ChosenLately = new ChosenLately();
  /** Second places by id, with the folder each was last known by. */
  readonly places: Map<string, string> = new Map();
  /** Second places that hold at least one original. */
  readonly usedPlaces: Set<string> = new Set();
  /** What the newest checks of cards proved, oldest first. */
  cardChecks: readonly (CardChecked & Stamp)[] = [];
  readonly #folders = new Map<string, FolderTree>();
  /** Arrivals that are neither kept nor done with: few, and asked for often. */
  readonly #open = new Set<string>();
  readonly #kept = new KeptByHash();

  /** Applies a record. False where it does not fit what came before: a record was lost, or the journal is not ours. */
  apply(record: JournalRecord): boolean {
    switch (record.type) {
      case 'announced':
        return this.#announce(record, record.atMs);
      case 'resumed':
      case 'settling':
      case 'broken-off':
      case 'kept':
      case 'again':
      case 'made-good':
      case 'let-go':
        return this.#move(record);
      case 'synced':
        return this.#change(record.arrival, (arrival) => {
          arrival.syncedBytes = Math.max(arrival.syncedBytes, record.sizeBytes);
        });
      case 'folded':
        return this.#change(record.arrival, (arrival) => {
          const { into, sizeBytes, sha256 } = record;
          arrival.folded = { into, sizeBytes, sha256 };
        });
      case 'folder-made':
        this.folderOf(record.camera, record.atMs).put(
          record.path,
          { kind: 'folder', children: new Map(), modifiedMs: record.atMs },
          record.atMs,
        );
        return true;
      case 'folder-removed':
      case 'hidden':
        return this.folderOf(record.camera, record.atMs).take(record.path, record.atMs) !== null;
      case 'renamed':
        return this.#rename(record, record.atMs);
      case 'modified': {
        const node = this.folderOf(record.camera, record.atMs).find(record.path);
        if (node !== null) node.modifiedMs = record.modifiedMs;
        return node !== null;
      }
      case 'place-made':
        this.places.set(record.place, record.folder);
        return true;
      case 'copied':
        this.usedPlaces.add(record.place);
        return this.#change(record.arrival, (arrival) => {
          if (!arrival.copiedTo.includes(record.place))
            arrival.copiedTo = [...arrival.copiedTo, record.place];
        });
      case 'copy-lost':
        return this.#change(record.arrival, (arrival) => {
          arrival.copiedTo = arrival.copiedTo.filter((place) => place !== record.place);
        });
      case 'put-back':
        return this.arrivals.has(record.arrival);
      case 'card-checked':
        this.cardChecks = [...this.cardChecks, record].slice(-cardChecksMax);
        return true;
      case 'opened':
      case 'mark-set':
      case 'shot-set':
      case 'job-set':
      case 'camera-set':
      case 'job-opened':
      case 'job-closed':
      case 'camera-added':
      case 'purpose-set':
      case 'acceptance-set':
      case 'share-set':
      case 'remark-made':
      case 'remark-answered':
      case 'remark-settled':
      case 'agreed':
      case 'agreement-withdrawn':
      case 'spot-set':
      case 'look-set':
      case 'look-saved':
      case 'look-aside-set':
      case 'job-described':
      case 'job-state-set':
      case 'job-tolerances-set':
      case 'job-removed':
      case 'shot-stated':
      case 'shots-ordered':
      case 'shot-removed':
      case 'shot-current-set':
      case 'job-grey-card-set':
      case 'job-hand-over-set':
      case 'job-colour-set':
      case 'job-targets-set':
      case 'job-scales-set':
      case 'job-last-numbers-set':
      case 'job-explained-set':
      case 'job-signed-set':
      case 'shot-followed':
      case 'slate-heeded':
      case 'camera-clock-set':
        if (record.type !== 'opened') this.chosenLately.note(record);
        return true;
    }
  }

  /** A camera's folder; an empty one where nothing was ever heard of the camera. */
  folderOf(camera: string, nowMs: EpochMs): FolderTree {
    const known = this.#folders.get(camera);
    if (known !== undefined) return known;
    const folder = new FolderTree(nowMs);
    this.#folders.set(camera, folder);
    return folder;
  }

  /** Arriving, settling, or broken off and still waited for, oldest first. */
  openArrivals(): KnownArrival[] {
    return [...this.#open].flatMap((id) => this.arrivals.get(id) ?? []);
  }

  /** Broken-off arrivals that a camera sent under this path. */
  brokenOffAt(camera: string, path: string): KnownArrival[] {
    return this.openArrivals().filter(
      (arrival) => arrival.phase.kind === 'broken-off' && arrival.camera === camera && arrival.path === path,
    );
  }

  /** Whether the camera's folder shows this arrival. */
  isShown(arrival: KnownArrival): boolean {
    return this.#nodeOf(arrival) !== null;
  }

  /** The kept arrivals with these bytes that the camera sent under this name, the newest first. */
  findSame(camera: string, path: string, sizeBytes: number, sha256: string): KnownArrival[] {
    return this.#kept.newestFirst(camera, sha256, path).flatMap((id) => {
      const arrival = this.arrivals.get(id);
      return arrival?.phase.kind === 'kept' && arrival.phase.file.sizeBytes === sizeBytes ? [arrival] : [];
    });
  }

  /** What is kept and not yet in a second place, in the order it was announced. What was replaced goes nowhere any more. */
  keptWithoutCopy(place: string): KeptFile[] {
    return [...this.arrivals.values()].flatMap(({ phase, copiedTo, replacedBy }) =>
      phase.kind === 'kept' && replacedBy === null && !copiedTo.includes(place) ? [phase.file] : [],
    );
  }

  /** What is kept and should be in a second place, in the order it was announced. */
  copiesIn(place: string): KeptFile[] {
    return [...this.arrivals.values()].flatMap(({ phase, copiedTo }) =>
      phase.kind === 'kept' && copiedTo.includes(place) ? [phase.file] : [],
    );
  }

  /** Every path below the home that an original has or is about to have. */
  originals(): string[] {
    return [...this.arrivals.values()].flatMap(({ phase }) =>
      phase.kind === 'kept' || phase.kind === 'settling' ? [phase.file.original] : [],
    );
  }

  #announce(record: Announced, atMs: EpochMs): boolean {
    if (this.arrivals.has(record.arrival)) return false;
    this.arrivals.set(record.arrival, announcedArrival(record, atMs));
    this.#open.add(record.arrival);
    this.pairing.note(record.camera, record.path, record.frame, atMs);
    const node: FileNode = { kind: 'file', arrival: record.arrival, modifiedMs: null };
    this.folderOf(record.camera, atMs).put(record.path, node, atMs);
    return true;
  }

  #move(record: PhaseRecord): boolean {
    if (record.type === 'kept' && !this.arrivals.has(record.arrival))
      return this.#keptUnannounced(record, record.atMs);
    const arrival = this.arrivals.get(record.arrival);
    const phase = arrival === undefined ? null : nextPhase(arrival.phase, record);
    if (arrival === undefined || phase === null) return false;
    if (phase === arrival.phase) return true;
    arrival.phase = phase;
    if (isOpen(phase)) this.#open.add(arrival.id);
    else this.#open.delete(arrival.id);
    if (record.type === 'resumed') {
      arrival.via = record.via;
      arrival.announcedBytes = record.announcedBytes;
    }
    if (record.type === 'broken-off' || record.type === 'kept') {
      arrival.firstByteMs = record.firstByteMs;
    }
    if (record.type === 'broken-off') arrival.syncedBytes = record.sizeBytes;
    if (record.type === 'kept') this.#keep(arrival, record, record.atMs);
    if (record.type === 'again') this.#showOriginal(arrival, record);
    if (record.type === 'let-go') this.#unlist(arrival, record.atMs);
    return true;
  }

  /** A damaged journal may have lost the announcement: the `kept` record says enough to know the original by. */
  #keptUnannounced(record: Kept, atMs: EpochMs): boolean {
    this.#announce(announcementOf(record), atMs);
    this.#change(record.arrival, (arrival) => {
      arrival.phase = { kind: 'kept', file: keptFile(record) };
      this.#kept.add(arrival, record.sha256);
    });
    this.#open.delete(record.arrival);
    return false;
  }

  #keep(arrival: KnownArrival, record: Kept, atMs: EpochMs): void {
    const same = this.findSame(record.camera, record.path, record.sizeBytes, record.sha256);
    const [before] = same;
    arrival.insteadOf = before?.phase.kind === 'kept' ? before.phase.file.original : null;
    for (const stale of same) if (stale.frame === record.frame) stale.replacedBy = arrival.id;
    this.#kept.add(arrival, record.sha256);
    if (record.frame === arrival.frame) return;
    arrival.frame = record.frame;
    // The raw or JPEG that comes next belongs to this one.
    this.pairing.note(arrival.camera, arrival.announcedPath, record.frame, atMs);
  }

  /** The bytes are those of a kept original: the folder shows that one again. */
  #showOriginal(arrival: KnownArrival, record: Again): void {
    const node = this.#nodeOf(arrival);
    if (node !== null) node.arrival = record.sameAs;
    const original = this.arrivals.get(record.sameAs);
    if (original !== undefined) {
      this.pairing.redirect(arrival.camera, arrival.announcedPath, arrival.frame, original.frame);
    }
  }

  #unlist(arrival: KnownArrival, atMs: EpochMs): void {
    if (this.#nodeOf(arrival) !== null) this.folderOf(arrival.camera, atMs).take(arrival.path, atMs);
  }

  /** The node that shows this arrival, or null where it was hidden or replaced. */
  #nodeOf(arrival: KnownArrival): FileNode | null {
    const node = this.#folders.get(arrival.camera)?.find(arrival.path);
    return node?.kind === 'file' && node.arrival === arrival.id ? node : null;
  }

  #rename(record: Renamed, atMs: EpochMs): boolean {
    const folder = this.folderOf(record.camera, atMs);
    const node = folder.take(record.from, atMs);
    if (node === null) return false;
    folder.put(record.to, node, atMs);
    for (const { path, file } of filesBelow(record.to, node)) {
      this.#change(file.arrival, (arrival) => {
        const from = arrival.path;
        arrival.path = path;
        const { phase } = arrival;
        if (phase.kind === 'kept') this.#kept.renamed(arrival, phase.file.sha256, from);
      });
    }
    return true;
  }

  #change(id: string, change: (arrival: KnownArrival) => void): boolean {
    const arrival = this.arrivals.get(id);
    if (arrival !== undefined) change(arrival);
    return arrival !== undefined;
  }
}
