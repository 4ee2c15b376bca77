import { setTimeout as sleep } from 'node:timers/promises';
import { exhaustive } from '../../../base/index.ts';
import type { Arrival, ArrivalEnd, ArrivalOutcome, FolderErrorCode } from '../../core/camera-folder.ts';
import type { ChangeBudget } from '../../core/change-budget.ts';
import type { AdmittedCamera } from '../../core/door-keeper.ts';
import type { FolderAnswer } from '../../core/folder-questions.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { askFolder, folderAnswer } from '../../shell/folder-answers.ts';
import type { Uploads } from '../../shell/uploads.ts';
import type { SftpLimits } from '../core/limits.ts';
import type { Question, Questions } from '../core/questions.ts';
import { FileFeed } from './file-feed.ts';

export interface AnswersSetting {
  readonly limits: SftpLimits;
  readonly pool: BufferPool;
  readonly uploads: Uploads;
  readonly budget: ChangeBudget;
}

export interface AnswersEvents {
  room(): void;
  writeFailed(handle: number, code: FolderErrorCode): void;
  givenWay(handle: number, end: ArrivalEnd): void;
}

interface Running {
  readonly feed: FileFeed;
  /** Tells those who wait for the place. */
  readonly over: () => void;
}

/** Answers the questions of one session from a camera's folder, and holds its arrivals. */
export class Answers {
  readonly #camera: AdmittedCamera;
  readonly #setting: AnswersSetting;
  readonly #events: AnswersEvents;
  readonly #running = new Map<number, Running>();
  readonly #leaving = new AbortController();

  constructor(camera: AdmittedCamera, setting: AnswersSetting, events: AnswersEvents) {
    this.#camera = camera;
    this.#setting = setting;
    this.#events = events;
  }

  /** Whether a disk is slower than the line. */
  get isBehind(): boolean {
    for (const { feed } of this.#running.values()) if (feed.isBehind) return true;
    return false;
  }

  write(handle: number, pieces: readonly Uint8Array[]): void {
    this.#running.get(handle)?.feed.write(pieces);
  }

  /** The client is gone: nothing waits its time any more. */
  leave(): void {
    this.#leaving.abort();
  }

  answer(question: Question): Promise<unknown> {
    switch (question.name) {
      case 'open':
        return this.#open(question.request);
      case 'sync':
        return folderAnswer(this.#running.get(question.request.handle)?.feed.sync() ?? Promise.resolve());
      case 'finish':
        return this.#finish(question.request);
      case 'list':
      case 'stat':
        return askFolder(this.#camera.folder, question);
      case 'make-folder':
      case 'remove-folder':
      case 'rename':
      case 'hide':
      case 'set-modified':
        return this.#afterBudget().then(() => askFolder(this.#camera.folder, question));
      default:
        return exhaustive(question);
    }
  }

  /** After a fault of our own: no arrival stays open. */
  async abandon(): Promise<void> {
    await Promise.all(
      [...this.#running.keys()].map((handle) => this.#finish({ handle, end: 'control-lost' })),
    );
  }

  async #open({
    handle,
    path,
    how,
  }: Questions['open'][0]): Promise<FolderAnswer<{ readonly offsetBytes: number }>> {
    await this.#afterBudget();
    const opened = await this.#openOrMakeWay(path, how);
    if (!opened.ok) return opened;
    const { limits, pool, uploads } = this.#setting;
    const feed = new FileFeed(opened.value, limits, pool, {
      room: () => this.#events.room(),
      failed: (code) => this.#events.writeFailed(handle, code),
      interrupted: (end) => this.#events.givenWay(handle, end),
    });
    this.#running.set(handle, { feed, over: uploads.begin(this.#camera.name, path, feed) });
    return { ok: true, value: { offsetBytes: opened.value.offsetBytes } };
  }

  /** A camera's changes are durable records, and only so many may be made in a time. */
  async #afterBudget(): Promise<void> {
    const waitMs = this.#setting.budget.spend(this.#camera.name, nowMs());
    if (waitMs > 0) await sleep(waitMs, undefined, { signal: this.#leaving.signal }).catch(() => {});
  }

  async #openOrMakeWay(path: string, how: Questions['open'][0]['how']): Promise<FolderAnswer<Arrival>> {
    const { folder, name } = this.#camera;
    const opened = await folderAnswer(folder.open(path, how));
    if (opened.ok || opened.code !== 'busy') return opened;
    const { uploads, limits } = this.#setting;
    const free = await uploads.makeWay(name, path, limits.giveWayMs);
    return free ? folderAnswer(folder.open(path, how)) : opened;
  }

  async #finish({ handle, end }: Questions['finish'][0]): Promise<ArrivalOutcome> {
    const running = this.#running.get(handle);
    this.#running.delete(handle);
    const failed = { kind: 'failed', code: 'disk-failed', sizeBytes: 0 } as const;
    try {
      const outcome = (await running?.feed.finish(end)) ?? failed;
      if (outcome.kind === 'kept' || outcome.kind === 'kept-damaged')
        this.#setting.budget.earn(this.#camera.name);
      return outcome;
    } catch {
      return failed;
    } finally {
      running?.over();
    }
  }
}
